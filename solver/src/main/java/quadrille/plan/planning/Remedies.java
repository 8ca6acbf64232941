package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.Remedy;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.work.Burden;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.seeking.SearchStop;

/**
 * Where no course was found: which rules clash, and the smallest changes that would help, each
 * tried.
 */
public final class Remedies {

  /** So many more visits are tried. Assumption. */
  private static final int MORE_VISITS = 4;

  /** Visits longer by so many of the diary's units are tried. Assumption. */
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
    List<Clash> clashes = clashes(visits, nearest);
    List<Remedy> remedies = new ArrayList<>();
    addIfAny(remedies, moreVisits(visits));
    addIfAny(remedies, fewerVisits(visits, nearest));
    addIfAny(remedies, longerVisit(visits));
    addIfAny(remedies, largerTray(visits));
    if (nearest != null && nearest.brokenRules().stream().anyMatch(HardRule::hangsOnTheAgent)) {
      addIfAny(remedies, otherAgents(visits));
    }
    addIfAny(remedies, passesApart(visits));
    return new NoPlan(clashes, remedies, stop.asked());
  }

  /** What stands in the way. */
  static List<Clash> clashes(VisitRange visits, @Nullable Staged nearest) {
    return clashes(visits, nearest, false);
  }

  /** The same for those who know how many visits were tried, where that was one number. */
  public static List<Clash> obstacles(VisitRange visits, @Nullable Staged nearest) {
    return clashes(visits, nearest, visits.fewest() == visits.most());
  }

  private static List<Clash> clashes(
      VisitRange visits, @Nullable Staged nearest, boolean visitsGiven) {
    if (nearest == null) {
      return List.of(new Clash.TooLittleWork(visits.fewest()));
    }
    Clash.Nearest tried =
        new Clash.Nearest(
            nearest.layouts().size(),
            visitsGiven,
            nearest.longestBookedMinutes(),
            nearest.staging().longestMinutes());
    return nearest.brokenRules().stream()
        .<Clash>map(rule -> new Clash.Broken(rule, tried))
        .toList();
  }

  /** No plan, since the visits are too short to hold any sensible part of the work. */
  NoPlan tooManyPieces(VisitRange visits) throws UnworkableException {
    List<Remedy> remedies = new ArrayList<>();
    addIfAny(remedies, longerVisit(visits));
    return new NoPlan(List.of(pieces(chart, practice)), remedies);
  }

  /** What stands in the way of a mouth that falls into too many pieces. */
  static Clash pieces(Chart chart, Practice practice) {
    return new Clash.TooManyPieces(
        PatientRules.of(practice, chart.patient()).longestVisitMinutes());
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
        return remedy(new Change.Visits(number), staged);
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
        return remedy(new Change.Visits(number), staged);
      }
    }
    return null;
  }

  private @Nullable Remedy longerVisit(VisitRange visits) throws UnworkableException {
    int longest = PatientRules.of(practice, chart.patient()).longestVisitMinutes();
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
        : remedy(
            new Change.LongerVisits(
                from + enough * unit,
                longest,
                LengthLimits.below(from + enough * unit, practice, chart.patient())),
            best);
  }

  private @Nullable Staged triedWithin(int minutes, int visits) throws UnworkableException {
    return tried(
        chart.withPatient(LengthLimits.patient(minutes, chart.patient())),
        LengthLimits.practice(minutes, practice),
        visits);
  }

  /** A tray that holds every insert tells whether any larger one helps. */
  private @Nullable Remedy largerTray(VisitRange visits) throws UnworkableException {
    Figure holds = practice.appointments().kitHolds();
    int all = practice.inserts().size();
    if (all <= holds.asInt() || tried(chart, withTray(all), visits.most()) == null) {
      return null;
    }
    for (int inserts = holds.asInt() + 1; inserts <= all; inserts++) {
      Staged staged = tried(chart, withTray(inserts), visits.most());
      if (staged != null) {
        return remedy(new Change.LargerTray(inserts, holds), staged);
      }
    }
    return null;
  }

  private Practice withTray(int inserts) {
    return practice.withAppointments(
        practice.appointments().withKitHolds(new Figure(inserts, Figure.OWN)));
  }

  private @Nullable Remedy passesApart(VisitRange visits) throws UnworkableException {
    if (!practice.appointments().passesTogether().sameVisit()) {
      return null;
    }
    Staged staged = tried(chart, passesApart(practice), visits.most());
    return staged == null ? null : remedy(new Change.PassesApart(), staged);
  }

  private @Nullable Remedy otherAgents(VisitRange visits) throws UnworkableException {
    for (Agent agent : practice.agents().values()) {
      if (practice.preferredAgents().contains(agent.name())) {
        continue;
      }
      Practice with = withAgent(practice, agent.name());
      Staged staged = tried(chart, with, visits.most());
      if (staged != null) {
        return remedy(new Change.AllowAgent(agent.name()), staged);
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
    List<Step> planned = DeferredWork.of(steps, changed, patient, patient.patient()).planned();
    if (planned.isEmpty() || planned.size() > StepSet.CAPACITY) {
      return null;
    }
    Map<AreaRef, Double> burdens =
        Burden.each(
            planned.stream().map(Step::area).distinct().toList(), patient, changed.minutes());
    StagingCase staging = new StagingCase(patient.patient(), changed, planned, burdens, visits);
    if (visits > staging.units() || staging.provablyInfeasible()) {
      return null;
    }
    Staged staged = stager.stage(staging, stager.exactWithin(staging));
    return staged != null && staged.feasible() ? staged : null;
  }

  /** The practice with each pass of an area in any visit, as a gross pass first asks for. */
  public static Practice passesApart(Practice practice) {
    return practice.withAppointments(
        practice.appointments().withPassesTogether(PassesTogether.FREE));
  }

  static Remedy remedy(Change change, Staged staged) {
    return new Remedy(change, staged.layouts().size(), staged.longestBookedMinutes());
  }

  static Practice withAgent(Practice practice, String agent) {
    List<String> preferred = new ArrayList<>(practice.preferredAgents());
    preferred.add(agent);
    return practice.withPreferredAgents(preferred);
  }
}
