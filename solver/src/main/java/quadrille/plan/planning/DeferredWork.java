package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Agents;
import quadrille.plan.course.HeldBack;
import quadrille.plan.work.ChartFirst;
import quadrille.plan.work.Step;

/**
 * Parts the work that can be planned from what must wait: without a history or a weight, or without
 * an agent that the patient may have, nothing that needs an injection is planned, and nothing in an
 * area where none must be; nor what must follow it in its area; nor anything in its area, where an
 * area that is begun is finished (H11). Where too much of the mouth is unprobed, what is not needed
 * to chart it waits for the new chart.
 *
 * @param planned steps that can be planned
 * @param held what waits, and why
 */
public record DeferredWork(List<Step> planned, List<HeldBack> held) {

  /**
   * @param patient the chart's, or as the patient is now that the course is under way
   */
  public static DeferredWork of(List<Step> all, Practice practice, Chart chart, Patient patient) {
    List<HeldBack> held = new ArrayList<>();
    List<Step> steps = new ArrayList<>(all);
    for (Step step : ChartFirst.of(chart, practice).waiting(all, chart)) {
      steps.remove(step);
      held.add(heldBack(step, new HeldBack.AwaitsChart()));
    }
    return parted(steps, held, practice, patient);
  }

  private static DeferredWork parted(
      List<Step> steps, List<HeldBack> held, Practice practice, Patient patient) {
    boolean noAgent = Agents.allowed(practice, patient).isEmpty();
    HeldBack.Reason reason = noAgent ? reason(practice, patient) : new HeldBack.NoInjectionWished();
    Map<Area, Set<Pass>> waiting = new HashMap<>();
    for (Step step : steps) {
      if (step.needsInjection() && (noAgent || noInjectionWished(step.area(), patient))) {
        waiting.computeIfAbsent(step.area(), area -> EnumSet.noneOf(Pass.class)).add(step.pass());
      }
    }
    boolean wholeAreas = practice.appointments().passesTogether().sameVisit();
    List<Step> planned = new ArrayList<>();
    for (Step step : steps) {
      Set<Pass> passes = waiting.getOrDefault(step.area(), Set.of());
      if (passes.stream().anyMatch(pass -> wholeAreas || holds(pass, step))) {
        held.add(heldBack(step, reason(step, passes, reason)));
      } else {
        planned.add(step);
      }
    }
    return new DeferredWork(planned, held);
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
