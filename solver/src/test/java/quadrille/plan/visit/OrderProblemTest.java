package quadrille.plan.visit;

import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Side;

final class OrderProblemTest {

  /** What is told without a search must be so, and is to be told often enough to be worth it. */
  @Test
  void numbnessLastsWhereThatIsTold() {
    int told = 0;
    int all = 0;
    for (int seed = 0; seed < 60; seed++) {
      StagingCase staging = RandomMouths.of(seed, 9).inVisits(1);
      for (Side side : Side.values()) {
        StepSet steps = staging.stepsOf(area -> area.quadrant().side() == side);
        SetEvaluation.Dosing dosing = new VisitEvaluator(staging).set(steps).dosings().get(0);
        OrderProblem problem = OrderProblem.of(staging, steps.members(), dosing);
        if (dosing.groupSeconds().length > 0) {
          all++;
          if (problem.lastsByQuadrants()) {
            told++;
            assertNotNull(OrderSearch.run(problem, 1000).order(), "seed " + seed + ", " + side);
          }
        }
      }
    }
    assertTrue(told >= 20 && told < all, told + " of " + all);
  }
}
