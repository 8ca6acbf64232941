package quadrille.plan.audit;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;

/**
 * How long a visit must be booked: its fixed part plus a lognormal working part whose mean is the
 * planned working time; and where an injection may fail, with its share of visits the repeat and
 * its onset. Two never fail in one visit.
 *
 * @param fixedSeconds all but the steps of work
 * @param workingSeconds the steps of work
 * @param failures the injections that may fail
 */
record BookedLength(
    int fixedSeconds, int workingSeconds, List<Failure> failures, Practice practice) {

  private static final int DAY_MINUTES = 24 * 60;

  /**
   * @param seconds what its repeat takes, until it is numb
   */
  record Failure(double share, double seconds) {}

  static BookedLength of(VisitParts visit, Practice practice) {
    int working = visit.workingSeconds();
    return new BookedLength(
        visit.visit().expectedSeconds() - working,
        working,
        visit.shots().stream().flatMap(shot -> failure(shot).stream()).toList(),
        practice);
  }

  private static List<Failure> failure(Shot shot) {
    Injection kind = shot.kind();
    Agent agent = shot.agent();
    if (kind == null || agent == null || shot.entry() == null || kind.failureShare() == null) {
      return List.of();
    }
    @Nullable Figure onset = agent.onsetMinutes().get(kind.technique());
    double minutes = onset == null ? 0 : onset.value();
    boolean pulp = !kind.pulp().isEmpty() || kind.mesiobuccalRoot();
    boolean tissue = !kind.facial().isEmpty() || !kind.lingual().isEmpty();
    if (pulp && kind.pulpOnsetMinutes() != null) {
      minutes = Math.max(minutes, kind.pulpOnsetMinutes().value());
    }
    if (tissue && kind.tissueOnsetMinutes() != null) {
      minutes = Math.max(minutes, kind.tissueOnsetMinutes().value());
    }
    return List.of(
        new Failure(
            kind.failureShare().value(), shot.entry().seconds() + Math.round(60 * minutes)));
  }

  /** The chance that the visit ends within so many minutes. */
  double chanceWithin(double minutes) {
    double left = 60 * minutes - fixedSeconds;
    double all = failures.stream().mapToDouble(Failure::share).sum();
    double none = 1 - Math.min(1, all);
    double chance = none * chanceOfWork(left);
    for (Failure failure : failures) {
      chance += failure.share() / Math.max(1, all) * chanceOfWork(left - failure.seconds());
    }
    return chance;
  }

  private double chanceOfWork(double left) {
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
