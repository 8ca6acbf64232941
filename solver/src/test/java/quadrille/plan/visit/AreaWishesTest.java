package quadrille.plan.visit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.work.StepAspect.FACIAL;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** What wishes cost, told of a whole course and visit by visit. */
class AreaWishesTest {

  private static Mouth mouth() {
    return Mouth.of(
        fine("UR posterior", FACIAL, 100),
        fine("UR anterior", FACIAL, 100),
        fine("UL posterior", FACIAL, 100),
        fine("UL anterior", FACIAL, 100),
        fine("LL posterior", FACIAL, 100));
  }

  @Test
  void bothTellTheSameOfAllCoursesThatKeepAreasWhole() {
    Random random = new Random(5);
    int broken = 0;
    int costly = 0;
    for (int round = 0; round < 3_000; round++) {
      int visits = 1 + random.nextInt(4);
      AreaWishes wishes = mouth().wishing(round).inVisits(visits).wishes();
      long[] areas = new long[visits];
      for (int area = 0; area < 5; area++) {
        areas[random.nextInt(visits)] |= 1L << area;
      }
      long cost = wishes.fixedCost();
      boolean kept = !wishes.impossible();
      long before = 0;
      for (int visit = 0; visit < visits; visit++) {
        kept &= wishes.mayBe(visit, areas[visit]);
        long after = wishes.costAfter(areas[visit], before);
        kept &= after != AreaWishes.NEVER;
        cost += wishes.mayBe(visit, areas[visit]) ? wishes.costAlone(visit, areas[visit]) : 0;
        cost += after == AreaWishes.NEVER ? 0 : after;
        before |= areas[visit];
      }
      assertEquals(wishes.breaches(areas) == 0, kept, "round " + round);
      if (kept) {
        assertEquals(wishes.cost(areas), cost, "round " + round);
        costly += cost > 0 ? 1 : 0;
      } else {
        broken++;
      }
    }
    assertTrue(broken > 300 && costly > 300, broken + " broken, " + costly + " costly");
  }

  @Test
  void aVisitThatThereIsNotCanBeToldBeforeAnythingIsSought() {
    assertTrue(mouth().wishing("must UR in 3").inVisits(2).provablyInfeasible());
    assertEquals(600, mouth().wishing("rather UR in 3").inVisits(2).wishes().fixedCost());
    assertEquals(0, mouth().wishing("rather UR in 3 of 4").inVisits(2).wishes().fixedCost());
  }
}
