package quadrille.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;

/** A command whose answer goes to standard output, or to the file that {@code -o} names. */
abstract class AnswerCommand extends BaseCommand {

  @Mixin private OutputOption output = new OutputOption();

  AnswerCommand(Streams streams) {
    super(streams);
  }

  @Override
  final OutputOption output() {
    return output;
  }

  /**
   * Checks, before the work is done, that the answer may be written.
   *
   * @param inputs the files that the command reads; null where one was not given
   */
  final void checkOutput(@Nullable String... inputs) throws StopException {
    output.check(inputs);
  }

  @Override
  final void answer(String text) throws StopException {
    output.write(documents(), text);
    if (output.toFile()) {
      message("Wrote " + output.name() + ".");
    }
  }

  /** Whether headings of the answer may be set off by terminal codes. */
  final boolean styled() {
    return streams().styled() && !output.toFile();
  }
}
