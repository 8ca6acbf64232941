package quadrille.diary.audit;

/**
 * One thing wrong with a diary.
 *
 * @param booking the id of the booking that it was found at
 * @param message a sentence for people; names no patient but the booking's case
 */
public record DiaryFinding(DiaryRule rule, String booking, String message) {

  /** On one line. */
  public String line() {
    return booking + ": " + message + " (" + rule.word() + ")";
  }
}
