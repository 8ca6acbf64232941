package quadrille.plan.visit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.finishing;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.work.StepAspect.FACIAL;
import static quadrille.plan.work.StepAspect.LINGUAL;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.plan.anaesthesia.Cover;

/**
 * Orders of one visit against all orders and all places of the injections, counted by the {@link
 * Enumeration}.
 */
final class SequencerTest {
  private static final int WIDE = 100_000;

  @ParameterizedTest
  @MethodSource("seeds")
  void noOrderIsShorter(int seed) {
    Mouth mouth = RandomMouths.oneSided(seed, 8);
    StagingCase staging = mouth.inVisits(1);
    int all = (1 << staging.steps().size()) - 1;
    Enumeration.Done shortest = mouth.enumerated(1).visit(all);

    Sequencer.Sequence sequence =
        new Sequencer(new VisitEvaluator(staging), WIDE).sequence(staging.allSteps());
    VisitTimeline layout = new VisitEvaluator(staging).layout(sequence.order());

    assertEquals(shortest.legal(), layout.broken() == 0, mouth::toString);
    if (shortest.legal()) {
      assertTrue(sequence.exact(), mouth::toString);
      assertEquals(shortest.chair(), layout.chairSeconds(), mouth::toString);
      assertEquals(shortest.order(), layout.orderSeconds(), mouth::toString);
      assertEquals(
          shortest.agent(),
          layout.dosing().agents().isEmpty()
              ? null
              : String.join(
                  "+", layout.dosing().agents().stream().map(Agent::name).sorted().toList()),
          mouth::toString);
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void narrowSearchKeepsTheOrderOfPassesAndEveryStep(int seed) {
    StagingCase staging = RandomMouths.oneSided(500 + seed, 14).inVisits(1);
    for (int width : new int[] {1, 6, 50}) {
      int[] order =
          new Sequencer(new VisitEvaluator(staging), width).sequence(staging.allSteps()).order();
      assertArrayEquals(
          IntStream.range(0, staging.steps().size()).toArray(),
          Arrays.stream(order).sorted().toArray());
      assertEquals(0, new VisitEvaluator(staging).layout(order).outOfOrder());
    }
  }

  static IntStream seeds() {
    return IntStream.range(0, 60);
  }

  /** As a person would do it: the wait for the block is filled, and each insert is put on once. */
  @Test
  void fillsTheOnsetAndGroupsInserts() {
    StagingCase staging = backAndForth("\"weights\": {\"returnToQuadrant\": 0}");
    Sequencer.Sequence sequence =
        new Sequencer(new VisitEvaluator(staging), WIDE).sequence(staging.allSteps());
    VisitTimeline layout = new VisitEvaluator(staging).layout(sequence.order());
    // Set-up 600, block 150, gross 500 + 30 + 200 (LR then UR), tip 60 to slim, 140 in UR: 930 s
    // after the block, so numb at 900; 30 to LR, 300 + 15 + 300; tip 60 and 30 back to UR, 100;
    // close 300.
    assertEquals(
        600 + 150 + 500 + 30 + 200 + 60 + 140 + 30 + 300 + 15 + 300 + 60 + 30 + 100 + 300,
        layout.chairSeconds());
    assertEquals(0, layout.waitSeconds());
    assertTrue(sequence.exact());
    assertEquals(2, layout.returns());
  }

  /** The same visit, for 75 s more without the two returns, 60 s each. */
  @Test
  void staysInAQuadrantWhereGoingBackAndForthGainsLittle() {
    StagingCase staging = backAndForth("\"weights\": {\"returnToQuadrant\": 60}");
    VisitTimeline layout =
        new VisitEvaluator(staging)
            .layout(
                new Sequencer(new VisitEvaluator(staging), WIDE)
                    .sequence(staging.allSteps())
                    .order());
    assertEquals(0, layout.returns());
    assertEquals(2815 + 75, layout.chairSeconds());
  }

  private static StagingCase backAndForth(String weights) {
    return Mouth.of(
            fine("LR posterior", FACIAL, 300).numb("46 pulp"),
            fine("LR posterior", LINGUAL, 300).numb("46 pulp"),
            gross("LR posterior", FACIAL, 500),
            gross("UR posterior", FACIAL, 200),
            fine("UR posterior", FACIAL, 140),
            finishing("UR posterior", 100))
        .practice(weights)
        .inVisits(1);
  }

  @Test
  void beginsInTheWorstAreaWhereNothingSpeaksAgainstIt() {
    Mouth mouth =
        Mouth.of(fine("UR posterior", FACIAL, 300), fine("LR posterior", FACIAL, 300))
            .burden("UR posterior", 10)
            .burden("LR posterior", 40);
    StagingCase staging = mouth.inVisits(1);
    assertArrayEquals(
        new int[] {1, 0},
        new Sequencer(new VisitEvaluator(staging), 1).sequence(staging.allSteps()).order());
    // A minute of waiting speaks against it.
    StagingCase numb =
        Mouth.of(
                fine("UR posterior", FACIAL, 300),
                fine("LR posterior", FACIAL, 300).numb("46 pulp"))
            .burden("UR posterior", 10)
            .burden("LR posterior", 40)
            .inVisits(1);
    assertArrayEquals(
        new int[] {0, 1},
        new Sequencer(new VisitEvaluator(numb), 1).sequence(numb.allSteps()).order());
  }

  /** What fits the longest visit goes before what costs less. */
  @Test
  void goesBackAndForthWhereTheVisitWouldElseBeTooLong() {
    StagingCase free = backAndForth("\"weights\": {\"returnToQuadrant\": 60}");
    VisitTimeline any = new VisitEvaluator(free).layout(0, 1, 2, 3, 4, 5);
    int fits = 2815 - any.set().workSeconds() + any.dosing().neededWorkSeconds();
    StagingCase staging =
        backAndForth(
            "\"weights\": {\"returnToQuadrant\": 60}, \"appointments\": {\"unitMinutes\": 1,"
                + " \"longestVisitMinutes\": "
                + (fits + 59) / 60
                + "}");
    VisitTimeline layout =
        new VisitEvaluator(staging)
            .layout(
                new Sequencer(new VisitEvaluator(staging), WIDE)
                    .sequence(staging.allSteps())
                    .order());
    assertEquals(0, layout.broken());
    assertTrue(layout.returns() > 0);
  }

  @Test
  void givesAQuadrantLaterWhereItsNumbnessIsNeededLater() {
    // The infiltration lasts 10 minutes; the pass before the step that needs it takes longer. The
    // block takes 15 minutes, which that pass fills.
    StagingCase staging =
        Mouth.of(
                fine("UR anterior", FACIAL, 1000),
                finishing("UR anterior", 60).numb("11 pulp"),
                fine("LR posterior", FACIAL, 400).numb("46 pulp"))
            .practice("\"preferredAgents\": [\"prilocaine-4\"]")
            .inVisits(1);
    VisitTimeline layout =
        new VisitEvaluator(staging)
            .layout(
                new Sequencer(new VisitEvaluator(staging), WIDE)
                    .sequence(staging.allSteps())
                    .order());
    assertEquals(0, layout.broken());
    assertEquals(0, layout.waitSeconds());
    List<Quadrant> quadrants =
        layout.dosing().cover().groups().stream().map(Cover.Group::quadrant).toList();
    assertEquals(List.of(Quadrant.UR, Quadrant.LR), quadrants);
    assertTrue(layout.giveAt()[0] > 0);
    assertEquals(0, layout.giveAt()[1]);
  }
}
