package quadrille.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.PracticeWriter;
import quadrille.facts.practice.RuleVersion;

/** The practice file of a command; without one, the default practice. */
final class PracticeOption {

  @Option(
      names = "--practice",
      paramLabel = "FILE",
      description = "A practice file: what differs from the default; - is standard input.")
  @Nullable
  private String file;

  /** The name as given; null where none was. */
  @Nullable String name() {
    return file;
  }

  Practice read(Documents documents) throws InvalidDocumentException, StopException {
    return read(documents, RuleVersion.PRESENT);
  }

  /** The same over the default practice of a release. */
  Practice read(Documents documents, RuleVersion rules)
      throws InvalidDocumentException, StopException {
    return file == null
        ? PracticeReader.defaults(rules)
        : PracticeReader.read(Documents.name(file), documents.read(file), rules);
  }

  /** The whole practice file, default and changes together. */
  String text(Documents documents) throws InvalidDocumentException, StopException {
    return file == null ? PracticeWriter.defaultText() : PracticeWriter.text(read(documents));
  }
}
