package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import quadrille.document.InvalidDocumentException;

/** {@code quadrille practice}: the practice file, to be saved and edited. */
@Command(
    name = "practice",
    customSynopsis = "quadrille practice [OPTION ...]",
    description = {
      "Print the practice file, to be saved and edited.",
      "",
      "Inserts, minutes, agents, injections, appointments and weights, each number",
      "with its source. A file of yours need hold only what differs: give it to",
      "plan, or to this command to see the whole, with --practice."
    })
final class PracticeCommand extends BaseCommand {

  @Mixin private PracticeOption practice = new PracticeOption();

  @Mixin private OutputOption output = new OutputOption();

  PracticeCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    output.checkJson();
    output.check(practice.name());
    // The file is JSON and made for people: both formats are one.
    output.write(documents(), practice.text(documents()));
    return Status.DONE;
  }
}
