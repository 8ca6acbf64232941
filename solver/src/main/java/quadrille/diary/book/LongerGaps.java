package quadrille.diary.book;

/**
 * A clinician's leave to let the gaps of one course grow over the longest that its plan allows.
 *
 * @param days by how many at the most, 1 to {@link #MOST_DAYS}
 * @param allowedBy who allowed it, as it is shown; not empty
 */
public record LongerGaps(int days, String allowedBy) {

  /** Four weeks; an assumption. */
  public static final int MOST_DAYS = 28;

  /** The longest name, in characters. */
  public static final int MOST_NAME = 200;

  public LongerGaps {
    if (days < 1 || days > MOST_DAYS || allowedBy.isBlank() || allowedBy.length() > MOST_NAME) {
      throw new IllegalArgumentException(
          "Gaps cannot be longer by (" + days + ") days as allowed by (" + allowedBy + ").");
    }
  }
}
