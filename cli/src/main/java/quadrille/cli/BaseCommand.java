package quadrille.cli;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import quadrille.document.Expected;
import quadrille.document.InvalidDocumentException;

/**
 * What every command has in common: help, version, format, and how it ends. A command does its work
 * in {@link #run()}; {@link Ending} turns what it throws into a message and an exit status.
 */
@Command(
    versionProvider = Version.class,
    sortOptions = false,
    usageHelpWidth = 80,
    optionListHeading = "%nOptions:%n",
    parameterListHeading = "%nFiles:%n",
    synopsisHeading = "Usage: ",
    descriptionHeading = "%n")
abstract class BaseCommand implements Callable<Integer> {

  private final Streams streams;
  private final Documents documents;

  @Option(
      names = "--format",
      order = 90,
      paramLabel = "FORMAT",
      description = "Answer for a person (text, the default) or a program (json).")
  @Nullable
  private Format format;

  @Option(
      names = "--debug",
      order = 91,
      description = "Where the program itself fails, show where in its code.")
  private boolean debug;

  BaseCommand(Streams streams) {
    this.streams = streams;
    this.documents = new Documents(streams);
  }

  @Override
  public final Integer call() throws InvalidDocumentException, StopException {
    if (format != null) {
      checkOwn("--format " + format, format);
    }
    OutputOption output = output();
    if (output != null && output.toFile()) {
      checkEnding(output);
    }
    return run();
  }

  /** Checks that a file's ending says what will be in it. */
  private void checkEnding(OutputOption output) throws StopException {
    String file = output.name();
    Format named = output.named();
    if (output.calendar()) {
      throw StopException.usage("-o " + file + ": the answer is no calendar.");
    }
    if (named == null) {
      return;
    }
    if (format == null) {
      checkOwn("-o " + file, named);
    } else if (asWritten(named) != asWritten(format)) {
      throw StopException.usage("--format " + format + ": contradicts the ending of " + file + ".");
    }
  }

  private void checkOwn(String asked, Format format) throws StopException {
    if (format == Format.HTML && !drawsPages()) {
      throw StopException.usage(asked + ": is not for this command; text and json are.");
    }
    if ((format == Format.LINES || format == Format.CSV) && !writesCharts()) {
      throw StopException.usage(asked + ": is for the command chart.");
    }
  }

  /** A chart as text is its tooth lines. */
  private Format asWritten(Format format) {
    return format == Format.TEXT && writesCharts() ? Format.LINES : format;
  }

  /**
   * Does the work.
   *
   * @return the exit status
   * @throws InvalidDocumentException where a file is invalid
   * @throws StopException where the command ends with a message
   */
  abstract int run() throws InvalidDocumentException, StopException;

  /** Whether the command can answer with pages to look at and print. */
  boolean drawsPages() {
    return false;
  }

  /** Whether the command's answer is a chart, which has forms of its own. */
  boolean writesCharts() {
    return false;
  }

  /**
   * The file whose ending may name the answer's format; null where the command's answer has none.
   */
  @Nullable OutputOption output() {
    return null;
  }

  final Streams streams() {
    return streams;
  }

  final Documents documents() {
    return documents;
  }

  /** Writes a result to standard output. */
  void answer(String text) throws StopException {
    documents.write(Documents.STANDARD, text, Expected.NOTHING);
  }

  /** Writes a message to standard error; nothing where it is empty. */
  final void message(String text) {
    documents.tell(text);
  }

  /**
   * The format asked for, by its name or by the ending of the answer's file, or the one that a
   * command answers in where none was.
   */
  final Format format(Format unasked) {
    OutputOption output = output();
    Format named = output == null ? null : output.named();
    return asWritten(format != null ? format : named != null ? named : unasked);
  }

  final boolean debug() {
    return debug;
  }
}
