package quadrille.treatment.calibration;

import java.util.List;
import org.apache.commons.statistics.distribution.LogNormalDistribution;

/**
 * How long a visit takes, as plans book it: a fixed part plus a lognormal working part whose mean
 * is the expected working time; and where an injection fails, of which no two do, what that takes.
 *
 * @param fixedSeconds all but the steps of work
 * @param workingSeconds the steps of work
 * @param sigma spread of the working seconds, in logs
 * @param failures of injections that may fail
 */
record VisitTime(double fixedSeconds, double workingSeconds, double sigma, List<Failure> failures) {

  private static final int DAY_MINUTES = 24 * 60;

  VisitTime {
    failures = List.copyOf(failures);
  }

  /**
   * An injection that may fail.
   *
   * @param share of visits in which it does
   * @param seconds to repeat it, until that is numb
   */
  record Failure(double share, double seconds) {}

  /** The chance that it ends within so many minutes. */
  double chanceWithin(double minutes) {
    double left = 60 * minutes - fixedSeconds;
    double all = failures.stream().mapToDouble(Failure::share).sum();
    double chance = (1 - Math.min(1, all)) * chanceOfWork(left);
    for (Failure failure : failures) {
      chance += failure.share() / Math.max(1, all) * chanceOfWork(left - failure.seconds());
    }
    return chance;
  }

  private double chanceOfWork(double left) {
    if (workingSeconds <= 0 || sigma <= 0) {
      return left >= workingSeconds ? 1 : 0;
    }
    if (left <= 0) {
      return 0;
    }
    return LogNormalDistribution.of(Math.log(workingSeconds) - sigma * sigma / 2, sigma)
        .cumulativeProbability(left);
  }

  /** The smallest whole number of units that holds it with a certainty. */
  int booked(int unitMinutes, double certainty) {
    int minutes = unitMinutes;
    while (chanceWithin(minutes) < certainty && minutes < DAY_MINUTES) {
      minutes += unitMinutes;
    }
    return minutes;
  }

  /** Fixed and working seconds together. */
  double expectedSeconds() {
    return fixedSeconds + workingSeconds;
  }
}
