package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Remedy;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.SearchStop;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;

/**
 * Where no course was found: which rules clash, and the smallest changes that would help, each
 * tried.
 */
public final class Remedies {
  private static final int MORE_VISITS = 4;
  private static final int LONGER_UNITS = 12;

  private final Chart chart;
  private final Practice practice;
  private final Stager stager;
  private final SearchStop stop;

  /**
   * @param stop once asked, no more is tried
   */
  Remedies(Chart chart, Practice practice, SearchStop stop) {
    this.chart = chart;
    this.practice = practice;
    this.stager = new Stager(Effort.QUICK, stop);
    this.stop = stop;
  }

  NoPlan noPlan(VisitRange visits, @Nullable Staged nearest) throws UnworkableException {
    List<String> clashes = clashes(visits, nearest);
    List<Remedy> remedies = new ArrayList<>();
    addIfAny(remedies, moreVisits(visits));
    addIfAny(remedies, fewerVisits(visits, nearest));
    addIfAny(remedies, longerVisit(visits));
    if (nearest != null && nearest.brokenRules().stream().anyMatch(Remedies::hangsOnTheAgent)) {
      addIfAny(remedies, otherAgents(visits));
    }
    addIfAny(remedies, passesApart(visits));
    return new NoPlan(clashes, remedies, stop.asked());
  }

  /** The rules that stand in the way, in words. */
  static List<String> clashes(VisitRange visits, @Nullable Staged nearest) {
    if (nearest == null) {
      return List.of(
          "there is too little work for " + visits.fewest() + " visits, none of them empty");
    }
    return nearest.brokenRules().stream().map(rule -> clash(rule, nearest)).toList();
  }

  /** The same, shorter where one number of visits was tried and so need not be said. */
  public static List<String> obstacles(VisitRange visits, @Nullable Staged nearest) {
    if (nearest == null || visits.fewest() < visits.most()) {
      return clashes(visits, nearest);
    }
    return nearest.brokenRules().stream()
        .map(
            rule ->
                rule.startsWith("H4")
                    ? rule
                        + ": at most "
                        + nearest.staging().longestMinutes()
                        + " minutes may be booked, the nearest course tried needs "
                        + nearest.longestBookedMinutes()
                    : rule)
        .toList();
  }

  private static String clash(String rule, Staged nearest) {
    int visits = nearest.layouts().size();
    String where = " (nearest course tried: " + visits + (visits == 1 ? " visit" : " visits");
    if (rule.startsWith("H4")) {
      return rule
          + ": no visit may be booked longer than "
          + nearest.staging().longestMinutes()
          + " minutes"
          + where
          + ", "
          + nearest.longestBookedMinutes()
          + " minutes at the longest)";
    }
    return rule + where + ")";
  }

  /** No plan, since the visits are too short to hold any sensible part of the work. */
  NoPlan tooManyPieces(VisitRange visits) throws UnworkableException {
    List<Remedy> remedies = new ArrayList<>();
    addIfAny(remedies, longerVisit(visits));
    return new NoPlan(List.of(pieces(chart, practice)), remedies);
  }

  /** What stands in the way of a mouth that falls into too many pieces. */
  static String pieces(Chart chart, Practice practice) {
    return "H4 length: no visit may be booked longer than "
        + StagingCase.longest(practice, chart.patient())
        + " minutes, and so short a visit holds less than one area; cut between all its teeth,"
        + " the work falls into more pieces than can be staged";
  }

  private static boolean hangsOnTheAgent(String rule) {
    return rule.startsWith("H3") || rule.startsWith("H8") || rule.startsWith("H10");
  }

  private static void addIfAny(List<Remedy> remedies, @Nullable Remedy remedy) {
    if (remedy != null) {
      remedies.add(remedy);
    }
  }

  private @Nullable Remedy moreVisits(VisitRange visits) throws UnworkableException {
    for (int number = visits.most() + 1;
        number <= Math.min(VisitRange.LIMIT, visits.most() + MORE_VISITS);
        number++) {
      Staged staged = tried(chart, practice, number);
      if (staged != null) {
        return new Remedy("plan " + number + " visits", result(staged));
      }
    }
    return null;
  }

  private @Nullable Remedy fewerVisits(VisitRange visits, @Nullable Staged nearest)
      throws UnworkableException {
    if (nearest != null) {
      return null;
    }
    for (int number = visits.fewest() - 1; number >= 1; number--) {
      Staged staged = tried(chart, practice, number);
      if (staged != null) {
        return new Remedy("plan " + number + (number == 1 ? " visit" : " visits"), result(staged));
      }
    }
    return null;
  }

  private @Nullable Remedy longerVisit(VisitRange visits) throws UnworkableException {
    int longest = StagingCase.longest(practice, chart.patient());
    int unit = practice.appointments().unitMinutes().asInt();
    int from = longest / unit * unit;
    // A longer visit never hurts, so the shortest that helps can be closed in on.
    int tooShort = 0;
    int enough = LONGER_UNITS + 1;
    Staged best = null;
    while (enough - tooShort > 1) {
      int units = best == null ? LONGER_UNITS : (tooShort + enough) / 2;
      Staged staged = triedWithin(from + units * unit, visits.most());
      if (staged == null && best == null) {
        return null;
      }
      if (staged == null) {
        tooShort = units;
      } else {
        enough = units;
        best = staged;
      }
    }
    return best == null
        ? null
        : new Remedy(
            "allow visits of " + (from + enough * unit) + " minutes instead of " + longest,
            result(best));
  }

  private @Nullable Staged triedWithin(int minutes, int visits) throws UnworkableException {
    Chart patient = withLongest(minutes);
    Practice longer = withLongestVisit(minutes);
    // Where an alert keeps visits short, that is not for the desk to change.
    return StagingCase.longest(longer, patient.patient()) < minutes
        ? null
        : tried(patient, longer, visits);
  }

  private @Nullable Remedy passesApart(VisitRange visits) throws UnworkableException {
    if (!practice.appointments().passesTogether().sameVisit()) {
      return null;
    }
    Staged staged = tried(chart, CoursePlanner.passesApart(practice), visits.most());
    return staged == null
        ? null
        : new Remedy("let an area that is begun be finished in a later visit", result(staged));
  }

  private @Nullable Remedy otherAgents(VisitRange visits) throws UnworkableException {
    for (Agent agent : practice.agents().values()) {
      if (practice.preferredAgents().contains(agent.name())) {
        continue;
      }
      Practice with = withAgent(agent.name());
      Staged staged = tried(chart, with, visits.most());
      if (staged != null) {
        return new Remedy("allow " + agent.words(), result(staged));
      }
    }
    return null;
  }

  private @Nullable Staged tried(Chart patient, Practice changed, int visits)
      throws UnworkableException {
    if (stop.asked()) {
      return null;
    }
    List<Step> steps = new AreaCutter(patient, changed, stager).work().steps();
    List<Step> planned = DeferredWork.of(steps, changed, patient.patient()).planned();
    if (planned.isEmpty() || planned.size() > StepSet.CAPACITY) {
      return null;
    }
    Map<String, Double> burdens =
        CoursePlanner.burdens(
            patient, changed, planned.stream().map(Step::area).distinct().toList());
    StagingCase staging = new StagingCase(patient.patient(), changed, planned, burdens, visits);
    if (visits > staging.units() || staging.provablyInfeasible()) {
      return null;
    }
    Staged staged = stager.stage(staging);
    return staged.feasible() ? staged : null;
  }

  private static String result(Staged staged) {
    return staged.layouts().size()
        + (staged.layouts().size() == 1 ? " visit, " : " visits, ")
        + staged.longestBookedMinutes()
        + " minutes at the longest";
  }

  private Chart withLongest(int minutes) {
    Patient old = chart.patient();
    Integer own = old.longestVisitMinutes();
    Patient patient =
        new Patient(
            old.ageYears(),
            old.weightKg(),
            own == null ? null : Integer.valueOf(Math.max(own, minutes)),
            old.alerts(),
            old.startWith(),
            old.wishesNumbness());
    return new Chart(chart.caseName(), chart.charted(), chart.numbering(), patient, chart.teeth());
  }

  private Practice withLongestVisit(int minutes) {
    Appointments old = practice.appointments();
    double longest = Math.max(minutes, old.longestVisitMinutes().value());
    Appointments longer =
        new Appointments(
            old.unitMinutes(),
            new Figure(longest, Figure.OWN),
            old.certainty(),
            old.gapMinDays(),
            old.gapMaxDays(),
            old.reevaluateFromWeeks(),
            old.reevaluateToWeeks(),
            old.kitHolds(),
            old.oneNumbSide(),
            old.passesTogether());
    return practice.with(longer);
  }

  private Practice withAgent(String agent) {
    List<String> preferred = new ArrayList<>(practice.preferredAgents());
    preferred.add(agent);
    return practice.withPreferredAgents(preferred);
  }
}
