package quadrille.treatment.calibration;

/**
 * One timed stretch of a visit, and what was done in it.
 *
 * @param seconds as recorded, more than 0
 * @param expected seconds by the practice file for each of its times, in their order
 * @param known seconds that no multiplier changes, such as waiting for numbness
 * @param readings how many durations were read from a clock for it
 */
record Stretch(double seconds, double[] expected, double known, int readings) {

  /** Seconds by the practice file. */
  double sum() {
    double sum = known;
    for (double part : expected) {
      sum += part;
    }
    return sum;
  }

  /** Both together. */
  Stretch with(Stretch other) {
    return plus(other, 1);
  }

  /** What is left of this when a part of it is taken out. */
  Stretch without(Stretch part) {
    return plus(part, -1);
  }

  private Stretch plus(Stretch other, int sign) {
    double[] sums = expected.clone();
    for (int k = 0; k < sums.length; k++) {
      double sum = sums[k] + sign * other.expected[k];
      // Rounding must leave no trace of what was taken out whole.
      sums[k] = sum < 1e-9 ? 0 : sum;
    }
    return new Stretch(
        seconds + sign * other.seconds,
        sums,
        known + sign * other.known,
        readings + other.readings);
  }
}
