package quadrille.cli;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import quadrille.cli.render.JournalWords;
import quadrille.diary.book.Signature;
import quadrille.diary.book.Why;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Node;

/** Who changes a diary, and why; for its journal. */
final class SigningOptions {

  @Option(
      names = "--by",
      order = 60,
      paramLabel = "NAME",
      description = "Who does it, for the diary's journal; else the account that runs the program.")
  @Nullable
  private String by;

  @Option(
      names = "--because",
      order = 61,
      paramLabel = "WHY",
      description =
          "The reason, for the journal: patient-asked, patient-ill, patient-missed, medical,"
              + " clinician-away, practice-closed, equipment, plan-changed, mistake or other.")
  @Nullable
  private String because;

  @Option(
      names = "--note",
      order = 62,
      paramLabel = "WORDS",
      description =
          "A few words more, for the journal; - reads them from standard input, where no other"
              + " account sees them.")
  @Nullable
  private String note;

  /**
   * Reads what was said.
   *
   * @param command that is given
   * @param now the moment of the change
   */
  Signature signature(BaseCommand command, Instant now)
      throws InvalidDocumentException, StopException {
    String who = by == null ? command.streams().account() : by;
    plain("--by", who);
    Why why = why();
    String words = note == null ? null : command.documents().said(note);
    if (words != null) {
      plain("--note", words);
    }
    return new Signature(who, now, why, words);
  }

  /** Whether a reason was given. */
  boolean reasoned() {
    return because != null;
  }

  private @Nullable Why why() throws StopException {
    if (because == null) {
      return null;
    }
    for (Why why : Why.SAID) {
      if (why.word().equals(because)) {
        return why;
      }
    }
    throw StopException.usage(JournalWords.unknownWhy(because));
  }

  /** As files can hold it. */
  private static void plain(String option, String text) throws StopException {
    if (!Node.isPlain(text, Signature.LONGEST)) {
      throw StopException.usage(
          option + ": a text of 1 to " + Signature.LONGEST + " characters on one line is allowed.");
    }
  }
}
