package quadrille.plan.audit;

import quadrille.facts.practice.Practice;

/**
 * How long a visit must be booked: its fixed part plus a lognormal working part whose mean is the
 * planned working time.
 *
 * @param fixedSeconds all but the steps of work
 * @param workingSeconds the steps of work
 */
record BookedLength(int fixedSeconds, int workingSeconds, Practice practice) {

  private static final int DAY_MINUTES = 24 * 60;

  static BookedLength of(VisitParts visit, Practice practice) {
    int working = visit.workingSeconds();
    return new BookedLength(visit.visit().expectedSeconds() - working, working, practice);
  }

  /** The chance that the visit ends within so many minutes. */
  double chanceWithin(double minutes) {
    double left = 60 * minutes - fixedSeconds;
    double sigma = practice.minutes().spreadSigma().value();
    if (workingSeconds == 0 || sigma == 0) {
      return left >= workingSeconds ? 1 : 0;
    }
    if (left <= 0) {
      return 0;
    }
    // ln W is normal with mean ln(m) - sigma^2 / 2, so that W has the mean m.
    return Normal.below((Math.log(left / workingSeconds) + sigma * sigma / 2) / sigma);
  }

  /** The smallest whole number of units that holds the visit with the practice's certainty. */
  int minutes() {
    int unit = Math.max(1, practice.appointments().unitMinutes().asInt());
    double certainty = practice.appointments().certainty().value();
    int minutes = unit;
    while (chanceWithin(minutes) < certainty && minutes < DAY_MINUTES) {
      minutes += unit;
    }
    return minutes;
  }
}
