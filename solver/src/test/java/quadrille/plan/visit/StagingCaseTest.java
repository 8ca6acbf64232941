package quadrille.plan.visit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.finishing;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.work.StepAspect.FACIAL;
import static quadrille.plan.work.StepAspect.LINGUAL;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The problem as stated, without any search. */
final class StagingCaseTest {
  private static final StagingCase CASE =
      Mouth.of(
              gross("UR posterior", FACIAL, 100),
              fine("UR posterior", FACIAL, 200),
              fine("UR posterior", LINGUAL, 200),
              finishing("UR anterior", 60))
          .burden("UR posterior", 10)
          .burden("UR anterior", 5)
          .inVisits(2);

  @Test
  void oneChangeoverIsATipAndAMove() {
    assertEquals(60, CASE.change(0, 1), "another insert, the same place");
    assertEquals(15, CASE.change(1, 2), "the other aspect");
    assertEquals(90, CASE.change(2, 3), "another insert and another area");
  }

  @Test
  void aPassOfAnAreaIsABlock() {
    assertEquals(
        List.of("UR posterior gross", "UR posterior fine", "UR anterior finishing"),
        CASE.blocks().stream().map(Block::toString).toList());
    assertEquals(2, CASE.blocks().get(1).steps().size());
  }

  @Test
  void passesOfOneAreaHaveAnOrder() {
    List<StepFact> steps = CASE.steps();
    assertTrue(CASE.mustPrecede(steps.get(0), steps.get(1)));
    assertFalse(CASE.mustPrecede(steps.get(1), steps.get(0)));
    assertFalse(CASE.mustPrecede(steps.get(0), steps.get(3)), "another area");
  }

  @Test
  void moreSidesThanVisitsIsKnownBeforeAnySearch() {
    Mouth both =
        Mouth.of(
            fine("LR posterior", FACIAL, 300).numb("46 pulp"),
            fine("LL posterior", FACIAL, 300).numb("36 pulp"));
    assertTrue(both.inVisits(1).provablyInfeasible());
    assertFalse(both.inVisits(2).provablyInfeasible());
  }

  @Test
  void booksWholeUnits() {
    int unit = 60 * CASE.practice().appointments().unitMinutes().asInt();
    assertEquals(unit / 60, CASE.bookedMinutes(1));
    assertEquals(unit / 60, CASE.bookedMinutes(unit));
    assertEquals(2 * unit / 60, CASE.bookedMinutes(unit + 1));
  }

  @Test
  void waitsByTheShareOfTheWorstBurden() {
    int posterior = CASE.steps().get(0).areaIndex();
    int anterior = CASE.steps().get(3).areaIndex();
    assertEquals(0, CASE.lateCost(1L << posterior, 0));
    assertEquals(2 * CASE.lateCost(1L << anterior, 1), CASE.lateCost(1L << posterior, 1));
  }
}
