package quadrille.plan.staging;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningListVariableMetaModel;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.MutableSolutionView;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;

/**
 * Exchanges all that two visits hold. A search that carries loads one by one would have to numb
 * both sides on the way.
 */
record SwapMove(
    PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> variable,
    VisitSlot one,
    VisitSlot other)
    implements Move<CourseSolution> {

  @Override
  public void execute(MutableSolutionView<CourseSolution> view) {
    StepSet steps = one.stepSet();
    StepSet others = other.stepSet();
    CarryMove.arrange(view, variable, one, others);
    CarryMove.arrange(view, variable, other, steps);
  }
}
