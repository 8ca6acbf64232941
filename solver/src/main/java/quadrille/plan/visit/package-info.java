/**
 * The staging problem, and one visit of it evaluated: what follows from the steps of a visit, and
 * what the clock shows for an order of them. Which steps a visit holds is decided elsewhere; bound,
 * staging and planning come in, the audit never.
 *
 * <p>Begin with {@link quadrille.plan.visit.StagingCase}, which holds what is given; {@link
 * quadrille.plan.visit.VisitEvaluator} evaluates a visit, {@link quadrille.plan.visit.Sequencer}
 * finds a good order.
 */
@NullMarked
package quadrille.plan.visit;

import org.jspecify.annotations.NullMarked;
