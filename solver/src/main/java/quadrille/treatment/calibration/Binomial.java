package quadrille.treatment.calibration;

import org.apache.commons.statistics.distribution.BetaDistribution;

/** Shares of successes. */
final class Binomial {

  private Binomial() {}

  /** Lower end of Clopper and Pearson's interval (1934, Biometrika 26:404) of a chance. */
  static double low(int successes, int trials, double certainty) {
    return successes == 0
        ? 0
        : BetaDistribution.of(successes, trials - successes + 1.0)
            .inverseCumulativeProbability((1 - certainty) / 2);
  }

  /** Upper end of it. */
  static double high(int successes, int trials, double certainty) {
    return successes == trials
        ? 1
        : BetaDistribution.of(successes + 1.0, trials - successes)
            .inverseSurvivalProbability((1 - certainty) / 2);
  }

  /** The chance of at most so many successes, each trial with a chance of its own. */
  static double atMost(int successes, double[] chances) {
    double[] distribution = distribution(chances);
    double sum = 0;
    for (int i = 0; i <= successes; i++) {
      sum += distribution[i];
    }
    return Math.min(1, sum);
  }

  /** The chance of at least so many. */
  static double atLeast(int successes, double[] chances) {
    double[] distribution = distribution(chances);
    double sum = 0;
    for (int i = successes; i < distribution.length; i++) {
      sum += distribution[i];
    }
    return Math.min(1, sum);
  }

  private static double[] distribution(double[] chances) {
    double[] distribution = new double[chances.length + 1];
    distribution[0] = 1;
    for (int trial = 0; trial < chances.length; trial++) {
      for (int i = trial + 1; i >= 0; i--) {
        distribution[i] =
            distribution[i] * (1 - chances[trial])
                + (i > 0 ? distribution[i - 1] * chances[trial] : 0);
      }
    }
    return distribution;
  }
}
