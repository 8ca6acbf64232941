package quadrille.plan.audit;

/** The standard normal distribution. */
final class Normal {

  private Normal() {}

  /**
   * The chance of a value below x, to about 15 digits. By the series of Marsaglia, "Evaluating the
   * Normal Distribution", Journal of Statistical Software 11(4), 2004: one half plus the density
   * times x + x^3/3 + x^5/(3*5) + x^7/(3*5*7) and so on.
   */
  static double below(double x) {
    if (x < -8) {
      return 0;
    }
    if (x > 8) {
      return 1;
    }
    double sum = x;
    double term = x;
    double before = 0;
    for (int odd = 3; sum != before; odd += 2) {
      before = sum;
      term *= x * x / odd;
      sum += term;
    }
    return 0.5 + sum * Math.exp(-x * x / 2) / Math.sqrt(2 * Math.PI);
  }
}
