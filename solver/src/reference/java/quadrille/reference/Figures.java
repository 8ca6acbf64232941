package quadrille.reference;

import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;

/** Numbers of the practice as CP-SAT wants them: whole. */
final class Figures {
  private Figures() {}

  /** A weight that must be whole, since CP-SAT adds up whole seconds. */
  static long whole(double weight) {
    if (weight != Math.rint(weight) || weight < 0) {
      throw new IllegalArgumentException("The weight (" + weight + ") must be whole.");
    }
    return (long) weight;
  }

  /**
   * How many seconds a visit's working part must have, so that it ends in time with the practice's
   * certainty: working seconds are lognormal, their mean as planned, and at most one injection
   * fails, is repeated and waited for.
   */
  static double needed(Practice practice, int working, List<Shot> shots) {
    double low = 0;
    double high = 1000 * 3600;
    while (high - low > 1e-7) {
      double middle = (low + high) / 2;
      if (chance(practice, middle, working, shots) >= practice.appointments().certainty().value()) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }

  private static double chance(Practice practice, double left, int working, List<Shot> shots) {
    double none = 1;
    double chance = 0;
    for (Shot shot : shots) {
      Figure share = shot.kind().failureShare();
      if (share != null) {
        none -= share.value();
        double again = left - shot.seconds(practice) - shot.longestOnset();
        chance += share.value() * inTime(practice, again, working);
      }
    }
    return chance + none * inTime(practice, left, working);
  }

  private static double inTime(Practice practice, double left, int working) {
    double sigma = practice.minutes().spreadSigma().value();
    if (working == 0 || sigma == 0) {
      return left >= working ? 1 : 0;
    }
    double mu = Math.log(working) - sigma * sigma / 2;
    return left <= 0 ? 0 : NormalDistribution.of(mu, sigma).cumulativeProbability(Math.log(left));
  }
}
