package quadrille.plan.planning;

/**
 * How many visits a course may take.
 *
 * @param fewest 1 or more
 * @param most not below fewest, at most 12
 */
public record VisitRange(int fewest, int most) {

  /** The most visits that a course can be asked to take. */
  public static final int LIMIT = 12;

  /** One to six. */
  public static final VisitRange USUAL = new VisitRange(1, 6);

  public VisitRange {
    if (fewest < 1 || most < fewest || most > LIMIT) {
      throw new IllegalArgumentException(
          "The visits (" + fewest + "-" + most + ") must be a range within 1 to " + LIMIT + ".");
    }
  }

  /** Exactly so many. */
  public static VisitRange exactly(int visits) {
    return new VisitRange(visits, visits);
  }

  @Override
  public String toString() {
    return fewest == most ? Integer.toString(fewest) : fewest + "-" + most;
  }
}
