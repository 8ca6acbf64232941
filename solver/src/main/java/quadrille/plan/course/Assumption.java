package quadrille.plan.course;

/** What the numbers of a course rest on. */
public sealed interface Assumption {

  /** As a plan file has it. */
  record AsWritten(String text) implements Assumption {}

  /**
   * Minutes of a course that rest on one figure of the practice.
   *
   * @param seconds how many of the course do
   * @param value the figure, in the unit of its use
   * @param source how it is known
   */
  record Time(Use use, int seconds, double value, String source) implements Assumption {}

  /**
   * How long visits are booked.
   *
   * @param certainty share of visits that end in time
   * @param spread of the working part, the sigma of its logarithm
   * @param source how the spread is known
   */
  record BookedInTime(double certainty, double spread, String source) implements Assumption {}

  /** What a figure is used for. */
  enum Use {
    /** Seconds a site in the deepest band. */
    FINE_PASS,
    /** Seconds a tooth with heavy deposit. */
    GROSS_PASS,
    /** Seconds a tooth. */
    FINISHING,
    /** Seconds an implant. */
    IMPLANT_CARE,
    /** Seconds each. */
    TIP_CHANGES,
    /** Seconds to another area. */
    REPOSITIONING,
    /** Minutes a visit. */
    SET_UP,
    /** Minutes a visit. */
    HISTORY,
    /** Minutes a visit. */
    BLOOD_PRESSURE,
    /** Minutes, in the visits that have it. */
    CONSENT,
    /** Minutes a visit. */
    RINSE,
    /** Minutes, in the visits that have it. */
    CHARTING,
    /** Seconds a tooth. */
    CHARTING_ANEW,
    /** Minutes a visit. */
    INSTRUCTION,
    /** Minutes a visit. */
    LAST_LOOK,
    /** Minutes a visit. */
    CLOSE,
    /** Millilitres a minute. */
    INJECTING
  }
}
