package quadrille.diary.audit;

/**
 * One thing wrong with a diary.
 *
 * @param booking the id of the booking that it was found at
 * @param message a sentence for people; names no patient but the booking's case
 * @param against what it stands against, such as the other booking, the set or the busy time; of
 *     one rule at one booking, no two findings have the same
 * @param amount how much of it is wrong, such as minutes, days or sets, 1 or more; so that of two
 *     findings against the same thing, the worse can be told
 */
public record DiaryFinding(
    DiaryRule rule, String booking, String message, String against, long amount) {

  /** On one line. */
  public String line() {
    return booking + ": " + message + " (" + rule.word() + ")";
  }
}
