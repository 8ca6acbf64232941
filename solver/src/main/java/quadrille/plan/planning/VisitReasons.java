package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.IntFunction;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.Reasons;
import quadrille.plan.course.Remedy;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.WhyVisit;
import quadrille.plan.course.WhyVisit.Because;
import quadrille.plan.course.WhyVisit.Known;
import quadrille.plan.exact.ExactCourses;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.SetEvaluation;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitTimeline;
import quadrille.plan.work.Step;
import quadrille.seeking.SearchStop;

/**
 * Why a course has the visits that it has, and the smallest single changes that would save one,
 * each verified by staging the same work in one visit fewer.
 */
final class VisitReasons {
  /** How wide a visit of two visits' work is ordered; a matter of the search alone. */
  private static final int WIDTH = 200;

  /** By so many of the diary's units a visit may be longer, to spare another. Assumption. */
  private static final int LONGER_UNITS = 6;

  /** By so many inserts a tray may be larger. Assumption. */
  private static final int MORE_INSERTS = 4;

  /** By so many steps, of so much each, visits may be less certain to end in time. Assumptions. */
  private static final int LESS_CERTAIN = 2;

  private static final double CERTAINTY_STEP = 0.1;
  private static final double LEAST_CERTAINTY = 0.5;

  private final Staged staged;
  private final StagingCase staging;
  private final Practice practice;
  private final Patient patient;
  private final List<Step> steps;
  private final Map<AreaRef, Double> burdens;
  private final ExactCourses exact;
  private final Stager stager;
  private final SearchStop stop;

  /**
   * @param burdens of the areas of the course
   * @param exact of the same mouth
   * @param stop once asked, no more is tried
   */
  VisitReasons(Staged staged, Map<AreaRef, Double> burdens, ExactCourses exact, SearchStop stop) {
    this.staged = staged;
    this.staging = staged.staging();
    this.practice = staging.practice();
    this.patient = staging.patient();
    this.steps = staging.steps().stream().map(StepFact::step).toList();
    this.burdens = burdens;
    this.exact = exact;
    this.stager = new Stager(Effort.QUICK, stop);
    this.stop = stop;
  }

  /**
   * @param visits how many were asked for
   */
  Reasons reasons(VisitRange visits) {
    List<WhyVisit> why = new ArrayList<>(why(visits));
    OneVisitFewer fewer = staging.visits() > 1 && exact.answers() ? oneVisitFewer(why) : null;
    if (fewer != null
        && fewer.remedies().stream().anyMatch(one -> one.change() instanceof Change.PassesApart)) {
      why.add(new WhyVisit(shortest(), List.of(), Known.BEGUN_IS_FINISHED));
    }
    return new Reasons(why, fewer);
  }

  /** The number of the visit that is booked for the shortest time; the last of several. */
  private int shortest() {
    int shortest = 0;
    for (int i = 1; i < staged.layouts().size(); i++) {
      if (booked(i) <= booked(shortest)) {
        shortest = i;
      }
    }
    return shortest + 1;
  }

  private int booked(int visit) {
    return staged.layouts().get(visit).bookedMinutes(staging);
  }

  private List<WhyVisit> why(VisitRange visits) {
    CaseEvaluator evaluator = new CaseEvaluator(staging).ofWidth(WIDTH);
    List<StepSet> sets = staged.sets();
    List<Map<Because, TreeSet<Integer>>> all = new ArrayList<>();
    sets.forEach(set -> all.add(new LinkedHashMap<>()));
    for (int i = 0; i < sets.size(); i++) {
      for (int j = i + 1; j < sets.size() && !stop.asked(); j++) {
        for (Because because : against(evaluator, i + 1, sets.get(i).union(sets.get(j)), visits)) {
          all.get(i).computeIfAbsent(because, b -> new TreeSet<>()).add(j + 1);
          all.get(j).computeIfAbsent(because, b -> new TreeSet<>()).add(i + 1);
        }
      }
    }
    List<WhyVisit> why = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      int number = i + 1;
      all.get(i)
          .forEach(
              (because, others) -> why.add(new WhyVisit(number, List.copyOf(others), because)));
    }
    return why;
  }

  /**
   * What stands against doing the work of two visits in one; not empty.
   *
   * @param number of the earlier of the two
   */
  private List<Because> against(
      CaseEvaluator evaluator, int number, StepSet both, VisitRange visits) {
    SetEvaluation set = evaluator.visits().set(both);
    if (set.hopeless(staging)) {
      boolean sides =
          practice.appointments().oneNumbSide() && set.dosings().get(0).secondSide() > 0;
      return List.of(sides ? Known.NUMB_SIDE : Known.DOUBLE_BLOCK);
    }
    List<Because> against = new ArrayList<>();
    VisitTimeline layout = evaluator.visit(number).layout(evaluator.order(both, number));
    if (layout.neededSeconds() > staging.longestSeconds()) {
      int minutes = layout.bookedMinutes(staging);
      against.add(
          new WhyVisit.TooLong(
              minutes,
              staging.longestMinutes(),
              LengthLimits.below(minutes, practice, patient).stream()
                  .filter(limit -> limit.minutes().asInt() == staging.longestMinutes())
                  .toList()));
    }
    Figure tray = practice.appointments().kitHolds();
    if (set.distinctInserts() > tray.asInt()) {
      against.add(new WhyVisit.Tray(set.distinctInserts(), tray));
    }
    if (layout.dosing().excess() > 0) {
      against.add(Known.DOSE);
    } else if (layout.wornOffSeconds() > 0) {
      against.add(Known.NUMBNESS_ENDS);
    }
    if (against.isEmpty() && !staging.wishes().mayBe(number - 1, set.areas())) {
      against.add(Known.WISHED);
    } else if (against.isEmpty()) {
      against.add(visits.fewest() < staging.visits() ? Known.COSTS_LESS : Known.ASKED_FOR);
    }
    return against;
  }

  private @Nullable OneVisitFewer oneVisitFewer(List<WhyVisit> why) {
    int number = staging.visits() - 1;
    List<Remedy> remedies = new ArrayList<>();
    if (add(remedies, new Change.Visits(number), staging(patient, practice), exact)) {
      return new OneVisitFewer(number, remedies);
    }
    longer(remedies);
    largerTray(remedies);
    lessCertainty(remedies);
    frontAcrossMidline(remedies);
    if (why.stream()
        .anyMatch(one -> one.because() == Known.DOSE || one.because() == Known.NUMBNESS_ENDS)) {
      otherAgents(remedies);
    }
    if (remedies.isEmpty()) {
      // Such a case has to be searched, which takes long.
      passesApart(remedies);
    }
    return stop.asked() ? null : new OneVisitFewer(number, remedies);
  }

  private void longer(List<Remedy> remedies) {
    int unit = practice.appointments().unitMinutes().asInt();
    int from = staging.longestMinutes() / unit * unit;
    IntFunction<StagingCase> by =
        units -> {
          int minutes = from + units * unit;
          return staging(
              LengthLimits.patient(minutes, patient), LengthLimits.practice(minutes, practice));
        };
    if (by.apply(LONGER_UNITS).provablyInfeasible()) {
      return;
    }
    ExactCourses loosened = exact.loosened(by.apply(LONGER_UNITS));
    int units = least(LONGER_UNITS, by, loosened);
    int minutes = from + units * unit;
    if (units > 0) {
      Change change =
          new Change.LongerVisits(
              minutes, staging.longestMinutes(), LengthLimits.below(minutes, practice, patient));
      add(remedies, change, by.apply(units), loosened);
    }
  }

  private void largerTray(List<Remedy> remedies) {
    Figure holds = practice.appointments().kitHolds();
    IntFunction<StagingCase> by =
        more -> staging(patient, with(old -> old.withKitHolds(own(holds.asInt() + more))));
    if (by.apply(MORE_INSERTS).provablyInfeasible()) {
      return;
    }
    ExactCourses loosened = exact.loosened(by.apply(MORE_INSERTS));
    int more = least(MORE_INSERTS, by, loosened);
    if (more > 0) {
      int inserts = holds.asInt() + more;
      Change change = new Change.LargerTray(inserts, holds);
      add(remedies, change, by.apply(more), loosened);
    }
  }

  /** The orders of a visit hang on how its time is stretched, so that all is priced anew. */
  private void lessCertainty(List<Remedy> remedies) {
    Figure certainty = practice.appointments().certainty();
    for (int i = 1; i <= LESS_CERTAIN; i++) {
      double less = Math.round(100 * (certainty.value() - i * CERTAINTY_STEP)) / 100.0;
      StagingCase looser = staging(patient, with(old -> old.withCertainty(own(less))));
      Change change = new Change.LessCertainty(less, certainty);
      if (less < LEAST_CERTAINTY
          || (!looser.provablyInfeasible()
              && add(remedies, change, looser, stager.exactWithin(looser)))) {
        return;
      }
    }
  }

  private void frontAcrossMidline(List<Remedy> remedies) {
    StagingCase across = staging(patient, with(old -> old.withMidlineInfiltration(true)));
    if (!practice.appointments().midlineInfiltration() && !across.provablyInfeasible()) {
      add(remedies, new Change.FrontAcrossMidline(), across, stager.exactWithin(across));
    }
  }

  private void otherAgents(List<Remedy> remedies) {
    for (Agent agent : practice.agents().values()) {
      if (!practice.preferredAgents().contains(agent.name())) {
        StagingCase with = staging(patient, Remedies.withAgent(practice, agent.name()));
        if (add(remedies, new Change.AllowAgent(agent.name()), with, stager.exactWithin(with))) {
          return;
        }
      }
    }
  }

  private void passesApart(List<Remedy> remedies) {
    StagingCase apart = staging(patient, Remedies.passesApart(practice));
    if (practice.appointments().passesTogether().sameVisit()
        && !apart.provablyInfeasible()
        && !stop.asked()) {
      Staged found = stager.searched(apart);
      if (found.feasible()) {
        remedies.add(Remedies.remedy(new Change.PassesApart(), found));
      }
    }
  }

  /** The least step at which a course of one visit fewer exists; 0 where none does. */
  private int least(int most, IntFunction<StagingCase> by, ExactCourses loosened) {
    if (!feasible(by.apply(most), loosened)) {
      return 0;
    }
    int tooLittle = 0;
    int enough = most;
    while (enough - tooLittle > 1) {
      int middle = (tooLittle + enough) / 2;
      if (feasible(by.apply(middle), loosened)) {
        enough = middle;
      } else {
        tooLittle = middle;
      }
    }
    return enough;
  }

  private boolean feasible(StagingCase looser, ExactCourses courses) {
    return !stop.asked()
        && courses.answers()
        && !looser.provablyInfeasible()
        && stager.some(looser, courses) != null;
  }

  private boolean add(
      List<Remedy> remedies, Change change, StagingCase looser, ExactCourses courses) {
    Staged found = feasible(looser, courses) ? stager.some(looser, courses) : null;
    return found != null && remedies.add(Remedies.remedy(change, found));
  }

  private StagingCase staging(Patient changed, Practice looser) {
    return new StagingCase(
        changed, looser, steps, burdens, staging.visits() - 1, staging.grossFirst());
  }

  private Practice with(UnaryOperator<Appointments> change) {
    return practice.withAppointments(change.apply(practice.appointments()));
  }

  private static Figure own(double value) {
    return new Figure(value, Figure.OWN);
  }
}
