package quadrille.plan.bound;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.work.StepAspect.FACIAL;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.plan.visit.Mouth;
import quadrille.plan.visit.RandomMouths;

final class LowerBoundTest {

  /** One step in one visit: set-up, work and close, and nothing else. */
  /** Set-up, history, rinse, instruction and close of the default practice. */
  private static final int FRAME_SECONDS = 900;

  @Test
  void isTheCostWhereThereIsNothingToChoose() {
    LowerBound bound = new LowerBound(Mouth.of(fine("UR posterior", FACIAL, 500)).inVisits(1));
    assertEquals(FRAME_SECONDS + 180 + 500, bound.seconds(), "consent and blood pressure first");
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2})
  void neverLiesAboveTheCheapestOfAllCourses(int visits) {
    int legal = 0;
    for (int seed = 0; seed < 40; seed++) {
      Mouth mouth = RandomMouths.of(seed, 6);
      long cheapest = mouth.enumerated(visits).lengthDecidesAgents().cheapest().seconds();
      long bound = new LowerBound(mouth.inVisits(visits)).seconds();
      assertTrue(cheapest < 0 || bound <= cheapest, () -> bound + " > " + cheapest + ": " + mouth);
      legal += cheapest < 0 ? 0 : 1;
    }
    assertTrue(legal >= 10, "legal: " + legal);
  }
}
