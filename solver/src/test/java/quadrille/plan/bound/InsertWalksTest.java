package quadrille.plan.bound;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.finishing;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.work.StepAspect.FACIAL;

import org.junit.jupiter.api.Test;
import quadrille.plan.visit.Mouth;

final class InsertWalksTest {

  /**
   * All in one area, so that a change is the tip's 60 s, 30 s more than a move; the finishing pass
   * is of both aspects, which takes a turn of 15 s.
   */
  @Test
  void eachInsertBeyondTheFirstCostsATipChangeLessAMove() {
    InsertWalks walks =
        new InsertWalks(
            Mouth.of(
                    gross("UR posterior", FACIAL, 100),
                    fine("UR posterior", FACIAL, 100),
                    finishing("UR posterior", 100))
                .inVisits(1));
    assertEquals(3, walks.inserts());
    assertEquals(0, walks.cheapest(0b000));
    assertEquals(0, walks.cheapest(0b001));
    assertEquals(30, walks.cheapest(0b011));
    assertEquals(75, walks.cheapest(0b111));
  }

  /** The two inserts are in two areas, and a change takes the move as well. */
  @Test
  void aChangeTakesItsMoveAlong() {
    InsertWalks walks =
        new InsertWalks(
            Mouth.of(gross("UR posterior", FACIAL, 100), fine("UL posterior", FACIAL, 100))
                .inVisits(1));
    assertEquals(60, walks.cheapest(0b11));
  }
}
