package quadrille.treatment.calibration;

/**
 * An estimated number.
 *
 * @param low lower end of the 90 % interval
 * @param high upper end of it
 * @param standardError 0 for a number that is not estimated
 */
public record Estimate(double value, double low, double high, double standardError) {

  /** A number that is taken as it is. */
  static Estimate fixed(double value) {
    return new Estimate(value, value, value, 0);
  }

  /** Whether the interval holds a value. */
  public boolean holds(double other) {
    return low <= other && other <= high;
  }
}
