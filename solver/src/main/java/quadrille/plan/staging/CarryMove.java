package quadrille.plan.staging;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningListVariableMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PositionInList;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.MutableSolutionView;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;

/**
 * Carries a load to another visit, or exchanges two loads, and puts every visit touched into a good
 * order.
 */
final class CarryMove implements Move<CourseSolution> {
  private final PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> variable;
  private final Load load;
  private final @Nullable Load back;
  private final @Nullable VisitSlot to;

  private CarryMove(
      PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> variable,
      Load load,
      @Nullable Load back,
      @Nullable VisitSlot to) {
    this.variable = variable;
    this.load = load;
    this.back = back;
    this.to = to;
  }

  /** All of a load to one visit. */
  static CarryMove carry(
      PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> variable,
      Load load,
      VisitSlot to) {
    return new CarryMove(variable, load, null, to);
  }

  /** One load to where the other starts, and the other to where the one starts. */
  static CarryMove exchange(
      PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> variable,
      Load one,
      Load other) {
    return new CarryMove(variable, one, other, null);
  }

  @Override
  public void execute(MutableSolutionView<CourseSolution> view) {
    Map<VisitSlot, StepSet> after = new LinkedHashMap<>();
    VisitSlot target = to;
    if (back != null) {
      target = visitOf(view, back.facts().get(0));
      place(view, back, visitOf(view, load.facts().get(0)), after);
    }
    if (target != null) {
      place(view, load, target, after);
    }
    for (Map.Entry<VisitSlot, StepSet> entry : after.entrySet()) {
      arrange(view, variable, entry.getKey(), entry.getValue());
    }
  }

  private void place(
      MutableSolutionView<CourseSolution> view,
      Load moved,
      VisitSlot destination,
      Map<VisitSlot, StepSet> after) {
    for (StepFact step : moved.facts()) {
      VisitSlot source = visitOf(view, step);
      after.putIfAbsent(source, source.stepSet());
      after.computeIfPresent(source, (visit, set) -> set.minus(moved.steps()));
    }
    after.putIfAbsent(destination, destination.stepSet());
    after.computeIfPresent(destination, (visit, set) -> set.union(moved.steps()));
  }

  /** Fills a visit with some steps, wherever they are, in a good order. */
  static void arrange(
      MutableSolutionView<CourseSolution> view,
      PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> variable,
      VisitSlot visit,
      StepSet steps) {
    int[] order = visit.order(steps);
    for (int index = 0; index < order.length; index++) {
      StepFact step = visit.staging().steps().get(order[index]);
      PositionInList from = view.getPositionOf(variable, step).ensureAssigned();
      VisitSlot source = from.entity();
      if (source != visit) {
        view.moveValueBetweenLists(variable, source, from.index(), visit, index);
      } else if (from.index() != index) {
        view.moveValueInList(variable, visit, from.index(), index);
      }
    }
  }

  private VisitSlot visitOf(MutableSolutionView<CourseSolution> view, StepFact step) {
    return view.getPositionOf(variable, step).ensureAssigned().entity();
  }
}
