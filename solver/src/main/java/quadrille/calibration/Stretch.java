package quadrille.calibration;

/**
 * One timed stretch of a visit, and what was done in it.
 *
 * @param seconds as recorded, more than 0
 * @param expected seconds by the practice file for each of its times, in their order
 * @param known seconds that no multiplier changes, such as waiting for numbness
 */
record Stretch(double seconds, double[] expected, double known) {

  /** Seconds by the practice file. */
  double sum() {
    double sum = known;
    for (double part : expected) {
      sum += part;
    }
    return sum;
  }
}
