/**
 * The staging problem, and one visit of it evaluated: {@link quadrille.plan.visit.StagingCase}
 * holds what is given, {@link quadrille.plan.visit.VisitEvaluator} says what follows from the steps
 * of a visit and what the clock shows for an order of them, {@link quadrille.plan.visit.Sequencer}
 * finds a good order. Which steps a visit holds is decided elsewhere.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.visit;
