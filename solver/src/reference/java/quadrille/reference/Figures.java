package quadrille.reference;

import org.apache.commons.statistics.distribution.NormalDistribution;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;

/** Numbers of the practice as CP-SAT wants them: whole. */
final class Figures {
  /** Shares of a dose, mg of epinephrine and factors on working seconds are counted in these. */
  static final long FINE = 10_000_000;

  private Figures() {}

  static int seconds(Figure minutes) {
    return (int) Math.round(60 * minutes.value());
  }

  /** A weight that must be whole, since CP-SAT adds up whole seconds. */
  static long whole(double weight) {
    if (weight != Math.rint(weight) || weight < 0) {
      throw new IllegalArgumentException("The weight (" + weight + ") must be whole.");
    }
    return (long) weight;
  }

  static long fine(double value) {
    return Math.round(value * FINE);
  }

  /**
   * By how much working seconds must be stretched to hold with the practice's certainty: they are
   * lognormal, their mean as planned.
   */
  static double stretch(Practice practice) {
    double sigma = practice.minutes().spreadSigma().value();
    double z =
        NormalDistribution.of(0, 1)
            .inverseCumulativeProbability(practice.appointments().certainty().value());
    return Math.exp(sigma * z - sigma * sigma / 2);
  }
}
