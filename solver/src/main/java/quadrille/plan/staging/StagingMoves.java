package quadrille.plan.staging;

import static java.util.Objects.requireNonNull;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningListVariableMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningSolutionMetaModel;
import ai.timefold.solver.core.preview.api.neighborhood.Neighborhood;
import ai.timefold.solver.core.preview.api.neighborhood.NeighborhoodBuilder;
import ai.timefold.solver.core.preview.api.neighborhood.NeighborhoodProvider;
import ai.timefold.solver.core.preview.api.neighborhood.stream.joiner.NeighborhoodsJoiners;
import org.jspecify.annotations.Nullable;
import quadrille.plan.visit.Sequencer;
import quadrille.plan.visit.StepFact;

/**
 * The moves of the search: carry a load to another visit, exchange two small loads, and exchange
 * all that two visits hold. A load arrives with both visits put into a good order by the {@link
 * Sequencer}, since a load that is merely appended would nearly always look worse than it is.
 */
public final class StagingMoves implements NeighborhoodProvider<CourseSolution> {

  @Override
  public Neighborhood defineNeighborhood(NeighborhoodBuilder<CourseSolution> builder) {
    PlanningSolutionMetaModel<CourseSolution> model = builder.getSolutionMetaModel();
    PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> steps = stepsOf(model);
    return builder
        .add(
            factory ->
                factory
                    .pick(factory.forEach(Load.class, false))
                    .pick(
                        factory.forEach(VisitSlot.class, false),
                        NeighborhoodsJoiners.filtering(
                            (view, load, visit) -> free(visit) && !holdsAll(load, visit)))
                    .asMove(
                        (view, load, visit) ->
                            CarryMove.carry(steps, requireNonNull(load), requireNonNull(visit))))
        .add(
            factory ->
                factory
                    .pick(factory.forEach(Load.class, false))
                    .pick(
                        factory.forEach(Load.class, false),
                        NeighborhoodsJoiners.filtering((view, one, other) -> disjoint(one, other)))
                    .asMove(
                        (view, one, other) ->
                            CarryMove.exchange(steps, requireNonNull(one), requireNonNull(other))))
        .add(
            factory ->
                factory
                    .pick(factory.forEach(VisitSlot.class, false))
                    .pick(
                        factory.forEach(VisitSlot.class, false),
                        NeighborhoodsJoiners.lessThan(VisitSlot::number),
                        NeighborhoodsJoiners.filtering(
                            (view, one, other) -> free(one) && free(other)))
                    .asMove(
                        (view, one, other) ->
                            new SwapMove(steps, requireNonNull(one), requireNonNull(other))))
        .build();
  }

  private static boolean free(@Nullable VisitSlot visit) {
    return !requireNonNull(visit).pinned();
  }

  private static boolean holdsAll(@Nullable Load load, @Nullable VisitSlot visit) {
    return requireNonNull(load).steps().minus(requireNonNull(visit).stepSet()).isEmpty();
  }

  private static boolean disjoint(@Nullable Load one, @Nullable Load other) {
    return requireNonNull(one).small()
        && requireNonNull(other).small()
        && one.steps().intersection(other.steps()).isEmpty();
  }

  static PlanningListVariableMetaModel<CourseSolution, VisitSlot, StepFact> stepsOf(
      PlanningSolutionMetaModel<CourseSolution> model) {
    return model.genuineEntity(VisitSlot.class).listVariable("steps", StepFact.class);
  }
}
