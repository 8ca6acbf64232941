package quadrille.cli;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import quadrille.document.Expected;

/** Where a command writes its result. */
final class OutputOption {

  @Option(
      names = {"-o", "--output"},
      order = 80,
      paramLabel = "FILE",
      description =
          "Write to a file, whole or not at all; - is standard output. An ending such as .json"
              + " names the format where --format does not.")
  @Nullable
  private String file;

  @Option(names = "--force", order = 81, description = "Overwrite an existing file.")
  private boolean force;

  private Expected expected = Expected.NOTHING;

  /** Whether the result goes to a file rather than to standard output. */
  boolean toFile() {
    return file != null && !file.equals(Documents.STANDARD);
  }

  /** Whether it was said where the result goes. */
  boolean given() {
    return file != null;
  }

  /**
   * Checks that the result has a file of its own, where standard output carries a report.
   *
   * @throws StopException where standard output is named for it
   */
  void checkBesideReport() throws StopException {
    if (Documents.STANDARD.equals(file)) {
      throw StopException.usage("-o: standard output carries the report; name a file.");
    }
  }

  /** Whether what is there may be overwritten. */
  boolean force() {
    return force;
  }

  /** The format that the file's ending names; null where it names none, or there is no file. */
  @Nullable Format named() {
    return toFile() ? Format.ofEnding(name()) : null;
  }

  /** Whether the file's ending names a calendar, which no answer is. */
  boolean calendar() {
    return toFile() && name().toLowerCase(Locale.ROOT).endsWith(".ics");
  }

  /**
   * Checks that a file that can only be JSON is not called by another format's ending.
   *
   * @throws StopException where it is
   */
  void checkJson() throws StopException {
    Format named = named();
    if (named != null && named != Format.JSON || calendar()) {
      throw StopException.usage("-o " + name() + ": the file is JSON, and must not end so.");
    }
  }

  /** The name as given, or that of standard output. */
  String name() {
    return file == null ? Documents.STANDARD : file;
  }

  /**
   * Checks, before the work is done, that its result may be written.
   *
   * @param inputs the files that the command reads; null where one was not given
   * @throws StopException where it may not
   */
  void check(@Nullable String... inputs) throws StopException {
    Documents.checkWritable(name(), force, inputs);
    expected = Documents.present(name(), force);
  }

  void write(Documents documents, String text) throws StopException {
    documents.write(name(), text, expected);
  }
}
