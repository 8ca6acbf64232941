package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Agents;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.HeldBack;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.work.ChartFirst;
import quadrille.plan.work.Step;

/**
 * Parts the work that can be planned from what must wait: without a history or a weight, or without
 * an agent that the patient may have, nothing that needs an injection is planned, nor in an area
 * where none must be, or where none of the agents that may be given lasts or suffices; nor what
 * must follow it in its area; nor anything in its area, where an area that is begun is finished
 * (H11). Where too much of the mouth is unprobed, what is not needed to chart it waits for the new
 * chart.
 *
 * @param planned steps that can be planned
 * @param held what waits, and why
 */
public record DeferredWork(List<Step> planned, List<HeldBack> held) {

  /**
   * @param patient the chart's, or as the patient is now that the course is under way
   */
  public static DeferredWork of(List<Step> all, Practice practice, Chart chart, Patient patient) {
    return of(all, practice, chart, patient, true);
  }

  /** The same, but work for which no agent serves is planned all the same, and breaks the rules. */
  static DeferredWork asGiven(List<Step> all, Practice practice, Chart chart, Patient patient) {
    return of(all, practice, chart, patient, false);
  }

  private static DeferredWork of(
      List<Step> all, Practice practice, Chart chart, Patient patient, boolean ofUnserved) {
    List<HeldBack> held = new ArrayList<>();
    List<Step> steps = new ArrayList<>(all);
    for (Step step : ChartFirst.of(chart, practice).waiting(all, chart)) {
      steps.remove(step);
      held.add(heldBack(step, new HeldBack.AwaitsChart()));
    }
    return parted(steps, held, practice, patient, ofUnserved);
  }

  private static DeferredWork parted(
      List<Step> steps,
      List<HeldBack> held,
      Practice practice,
      Patient patient,
      boolean ofUnserved) {
    boolean noAgent = Agents.allowed(practice, patient).isEmpty();
    boolean wholeAreas = practice.appointments().passesTogether().sameVisit();
    Map<Area, HeldBack.Reason> reasons = new HashMap<>();
    Map<Area, Set<Pass>> waiting = new HashMap<>();
    for (Step step : steps) {
      Area area = step.area();
      if (step.needsInjection()) {
        HeldBack.Reason reason =
            noAgent
                ? reason(practice, patient)
                : noInjectionWished(area, patient)
                    ? new HeldBack.NoInjectionWished()
                    : ofUnserved
                        ? unserved(
                            steps.stream()
                                .filter(one -> one.area().equals(area))
                                .filter(one -> wholeAreas || one.pass() == step.pass())
                                .toList(),
                            practice,
                            patient)
                        : null;
        if (reason != null) {
          reasons.put(area, reason);
          waiting.computeIfAbsent(area, one -> EnumSet.noneOf(Pass.class)).add(step.pass());
        }
      }
    }
    List<Step> planned = new ArrayList<>();
    for (Step step : steps) {
      Set<Pass> passes = waiting.getOrDefault(step.area(), Set.of());
      HeldBack.Reason reason = reasons.get(step.area());
      if (reason != null && passes.stream().anyMatch(pass -> wholeAreas || holds(pass, step))) {
        held.add(heldBack(step, reason(step, passes, reason)));
      } else {
        planned.add(step);
      }
    }
    return new DeferredWork(planned, held);
  }

  /**
   * Why no agent serves some work in a visit of its own, however long; null where one does, or
   * where no injection numbs it with any.
   */
  static HeldBack.@Nullable NoAgentServes unserved(
      List<Step> some, Practice practice, Patient patient) {
    if (some.stream().noneMatch(Step::needsInjection)) {
      return null;
    }
    HardRule broken =
        Stager.unserved(
            new StagingCase(patient.withWishes(List.of()), practice, some, Map.of(), 1));
    return broken == null
        ? null
        : new HeldBack.NoAgentServes(
            Agents.allowed(practice, patient).stream().map(Agent::name).toList(),
            broken == HardRule.DOSE);
  }

  private static boolean noInjectionWished(Area area, Patient patient) {
    return patient.wishes().stream()
        .anyMatch(
            wish ->
                wish.must() && wish.ask() instanceof Wish.NoInjection && wish.about(area.teeth()));
  }

  private static HeldBack heldBack(Step step, HeldBack.Reason reason) {
    return new HeldBack(step.area().ref(), step.pass(), step.aspect(), step.teeth(), reason);
  }

  /**
   * A pass of which a part waits, waits whole (H6), and so do the passes that come after it (H5).
   */
  private static boolean holds(Pass waiting, Step step) {
    if (step.pass() == Pass.IMPLANT_CARE || waiting == Pass.IMPLANT_CARE) {
      return step.pass() == waiting;
    }
    return step.pass().compareTo(waiting) >= 0;
  }

  private static HeldBack.Reason reason(Step step, Set<Pass> waiting, HeldBack.Reason reason) {
    if (step.needsInjection()) {
      return reason;
    }
    return waiting.stream().anyMatch(pass -> holds(pass, step))
        ? new HeldBack.Follows(reason)
        : new HeldBack.WholeArea(reason);
  }

  private static HeldBack.Reason reason(Practice practice, Patient patient) {
    if (!patient.history().taken()) {
      return new HeldBack.NoHistory();
    }
    if (patient.weightKg() == null) {
      return new HeldBack.NoWeight();
    }
    List<HeldBack.Refused> refused = new ArrayList<>();
    for (Agents.Choice choice : Agents.choices(practice, patient)) {
      refused.add(new HeldBack.Refused(choice.agent().name(), choice.objections()));
    }
    return new HeldBack.NoAgent(refused);
  }
}
