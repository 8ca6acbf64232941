package quadrille.plan.visit;

import java.util.Map;
import quadrille.facts.chart.Quadrant;

/**
 * A visit that has begun: what is over stays where it was, and injections stay where they were
 * given; the rest may come in another order.
 */
public final class BegunVisit {
  private static final int WIDTH = 200;

  private final VisitEvaluator evaluator;
  private final Map<Quadrant, Integer> given;

  /**
   * @param given where injections have been given already: after how many steps
   */
  public BegunVisit(VisitEvaluator evaluator, Map<Quadrant, Integer> given) {
    this.evaluator = evaluator;
    this.given = Map.copyOf(given);
  }

  /**
   * The visit with the best order that is found for what is free. Whether it keeps the rules, its
   * {@link VisitTimeline#broken()} says.
   *
   * @param order all steps of the visit, by index; where nothing better is found they stay so
   * @param first how many of them stay as they are, at the start
   */
  public VisitTimeline laidOut(int[] order, int first) {
    VisitTimeline best = evaluator.layoutBegun(order, given);
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
        VisitTimeline layout = evaluator.layoutBegun(other, given);
        best = layout.betterThan(best) ? layout : best;
      }
    }
    return best;
  }
}
