package quadrille.plan.visit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.work.StepAspect.FACIAL;

import org.junit.jupiter.api.Test;

/**
 * The clock on hand-made visits. By the default practice set-up takes 600 s and close 300 s, a
 * block of the lower jaw 150 s with its handling, its pulp is numb 600 s after that with lidocaine.
 */
final class VisitEvaluatorTest {

  /** Gross work of 700 s on the other jaw, then a step that wants the block. */
  private static VisitEvaluator blocked() {
    return new VisitEvaluator(
        Mouth.of(
                gross("UR posterior", FACIAL, 1000),
                fine("LR posterior", FACIAL, 300).numb("46 pulp"))
            .inVisits(1));
  }

  @Test
  void givesTheBlockBeforeTheWorkThatFillsItsOnset() {
    VisitTimeline layout = blocked().layout(0, 1);
    assertArrayEquals(new int[] {0}, layout.giveAt());
    assertEquals(0, layout.waitSeconds());
    // 60 s for the tip, 30 s to the other area less the wait: the tip is changed once.
    assertEquals(600 + 150 + 1000 + 60 + 30 + 300 + 300, layout.chairSeconds());
  }

  @Test
  void waitsWhereNothingFillsTheOnset() {
    VisitTimeline layout = blocked().layout(1, 0);
    assertEquals(900, layout.waitSeconds());
    assertEquals(600 + 150 + 900 + 300 + 60 + 30 + 1000 + 300, layout.chairSeconds());
  }

  @Test
  void givesAllBeforeTheFirstStepWhereThatIsAskedFor() {
    VisitEvaluator evaluator =
        new VisitEvaluator(
            Mouth.of(
                    gross("UR posterior", FACIAL, 3000),
                    fine("LR posterior", FACIAL, 300).numb("46 pulp"))
                .inVisits(1));
    int[] order = {0, 1};
    assertArrayEquals(new int[] {0}, evaluator.layoutNumbedFirst(order).giveAt());
    assertEquals(0, evaluator.layoutNumbedFirst(order).wornOffSeconds());
  }

  @Test
  void countsPassesOutOfOrder() {
    VisitEvaluator evaluator =
        new VisitEvaluator(
            Mouth.of(gross("UR posterior", FACIAL, 100), fine("UR posterior", FACIAL, 100))
                .inVisits(1));
    assertEquals(0, evaluator.layout(0, 1).outOfOrder());
    assertEquals(1, evaluator.layout(1, 0).outOfOrder());
    assertTrue(evaluator.layout(0, 1).betterThan(evaluator.layout(1, 0)));
  }

  @Test
  void aVisitThatWantsBothSidesNumbIsHopeless() {
    StagingCase staging =
        Mouth.of(
                fine("LR posterior", FACIAL, 300).numb("46 pulp"),
                fine("LL posterior", FACIAL, 300).numb("36 pulp"))
            .inVisits(2);
    VisitEvaluator evaluator = new VisitEvaluator(staging);
    assertTrue(evaluator.set(staging.allSteps()).hopeless(staging));
    assertFalse(evaluator.set(StepSet.EMPTY.with(0)).hopeless(staging));
  }

  @Test
  void whatWasGivenThatDayTellsInTheFirstVisitOnly() {
    StagingCase staging =
        Mouth.of(fine("LR posterior", FACIAL, 600).numb("46 pulp"))
            .practice("\"preferredAgents\": [\"articaine-4-200\"]")
            .given("articaine-4-200", 12)
            .inVisits(2);
    CaseEvaluator evaluator = new CaseEvaluator(staging);
    StepSet all = staging.allSteps();
    assertTrue(evaluator.visit(1).set(all).dosings().get(0).excess() > 0);
    assertEquals(0, evaluator.visit(2).set(all).dosings().get(0).excess());
  }
}
