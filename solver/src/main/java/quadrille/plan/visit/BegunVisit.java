package quadrille.plan.visit;

/**
 * A visit that has begun: what is over stays where it was, and injections stay where they were
 * given; the rest may come in another order, and what is still to be injected comes after what is
 * over, so that its onset is waited for.
 */
public final class BegunVisit {
  private static final int WIDTH = 200;

  private final VisitEvaluator evaluator;
  private final Begun begun;

  public BegunVisit(VisitEvaluator evaluator, Begun begun) {
    this.evaluator = evaluator;
    this.begun = begun;
  }

  /**
   * The visit with the best order that is found for what is free. Whether it keeps the rules, its
   * {@link VisitTimeline#broken()} says.
   *
   * @param order all steps of the visit, by index; where nothing better is found they stay so
   * @param first how many of them stay as they are, at the start
   */
  public VisitTimeline laidOut(int[] order, int first) {
    VisitTimeline best = evaluator.layoutBegun(order, begun);
    if (order.length > OrderProblem.MOST || order.length - first < 2) {
      return best;
    }
    StagingCase staging = evaluator.staging();
    for (SetEvaluation.Dosing dosing : best.set().dosings()) {
      OrderProblem problem = OrderProblem.of(staging, order, dosing).beginningWith(first);
      int[] found = OrderSearch.run(problem, WIDTH).order();
      if (found != null) {
        int[] other = new int[found.length];
        for (int i = 0; i < found.length; i++) {
          other[i] = order[found[i]];
        }
        VisitTimeline layout = evaluator.layoutBegun(other, begun);
        best = layout.betterThan(best) ? layout : best;
      }
    }
    return best;
  }
}
