package quadrille.diary.booking;

import static java.util.Objects.requireNonNull;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningSolutionMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningVariableMetaModel;
import ai.timefold.solver.core.preview.api.neighborhood.Neighborhood;
import ai.timefold.solver.core.preview.api.neighborhood.NeighborhoodBuilder;
import ai.timefold.solver.core.preview.api.neighborhood.NeighborhoodProvider;
import quadrille.diary.booking.problem.Slot;

/**
 * The neighbourhood of the local search. It has one kind of move: take a course and some that lie
 * near it out of the diary, and book each again by the exact search.
 */
public final class BookingMoves implements NeighborhoodProvider<BookingSolution> {

  @Override
  public Neighborhood defineNeighborhood(NeighborhoodBuilder<BookingSolution> builder) {
    PlanningSolutionMetaModel<BookingSolution> model = builder.getSolutionMetaModel();
    PlanningVariableMetaModel<BookingSolution, BookedVisit, Slot> slot =
        model.genuineEntity(BookedVisit.class).basicVariable("slot", Slot.class);
    return builder
        .add(
            factory ->
                factory
                    .pick(factory.forEach(BookedVisit.class, false))
                    .pick(factory.forEach(Ruin.class, false))
                    .asMove(
                        (view, visit, ruin) -> {
                          requireNonNull(visit).within().scratch().moved();
                          return new RebookMove(slot, visit, requireNonNull(ruin));
                        }))
        .build();
  }
}
