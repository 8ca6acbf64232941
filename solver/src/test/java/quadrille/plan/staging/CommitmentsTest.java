package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.work.StepAspect.FACIAL;
import static quadrille.plan.work.StepAspect.LINGUAL;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.NumbSide;
import quadrille.plan.visit.Commitments;
import quadrille.plan.visit.Mouth;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.Sweep;
import quadrille.plan.visit.VisitTimeline;

/** Courses under way: visits that stay, lengths and sides that were promised, doses of the day. */
final class CommitmentsTest {
  private static final String[] AREAS = {
    "UR posterior", "UR anterior", "UL posterior", "UL anterior",
    "LR posterior", "LR anterior", "LL posterior", "LL anterior"
  };

  private static Mouth large() {
    List<Sweep> sweeps = new ArrayList<>();
    for (String area : AREAS) {
      sweeps.add(gross(area, FACIAL, 200));
      sweeps.add(gross(area, LINGUAL, 180));
      sweeps.add(fine(area, FACIAL, 400));
      sweeps.add(fine(area, LINGUAL, 300));
    }
    return Mouth.of(sweeps.toArray(new Sweep[0])).passesApart();
  }

  private static Commitments.Slot pinned(VisitTimeline layout) {
    return new Commitments.Slot(Arrays.stream(layout.order()).boxed().toList(), null, null);
  }

  private static void everyStepOnce(Staged staged) {
    List<Integer> all = new ArrayList<>();
    staged.layouts().forEach(l -> Arrays.stream(l.order()).forEach(all::add));
    assertEquals(staged.staging().steps().size(), all.size());
    assertEquals(all.size(), all.stream().distinct().count());
  }

  /** So many blocks that they are searched for and not looked at one by one. */
  @Test
  @Tag("slow")
  void pinnedVisitsStayWhileTheOthersAreSearched() {
    Stager stager = new Stager(Effort.QUICK);
    Staged before = stager.stage(large().inVisits(5));
    assertTrue(before.feasible());
    StagingCase again =
        large()
            .stands(
                Commitments.Slot.FREE,
                pinned(before.layouts().get(1)),
                Commitments.Slot.FREE,
                Commitments.Slot.FREE,
                pinned(before.layouts().get(4)))
            .inVisits(5);
    assertFalse(EveryCourse.few(again), "it is searched");
    Staged after = stager.stage(again);
    assertTrue(after.feasible());
    everyStepOnce(after);
    for (int visit : new int[] {1, 4}) {
      assertArrayEquals(
          before.layouts().get(visit).order(), after.layouts().get(visit).order(), "visit");
    }
  }

  @Test
  void aCourseThatIsPinnedWholeComesBackAsItWas() {
    Stager stager = new Stager(Effort.QUICK);
    Mouth mouth = Mouth.of(fine("UR posterior", FACIAL, 300), fine("UL posterior", FACIAL, 500));
    Staged staged =
        stager.stage(
            mouth
                .stands(
                    new Commitments.Slot(List.of(1), null, null),
                    new Commitments.Slot(List.of(0), null, null))
                .inVisits(2));
    assertTrue(staged.feasible());
    assertArrayEquals(new int[] {1}, staged.layouts().get(0).order());
    assertArrayEquals(new int[] {0}, staged.layouts().get(1).order());
  }

  /** Eight quadrants' worth on one side would fit, but the second visit was booked short. */
  @Test
  void bookedLengthAndSideAreKept() {
    Stager stager = new Stager(Effort.QUICK);
    Mouth mouth =
        Mouth.of(
            fine("LR posterior", FACIAL, 600).numb("46 pulp"),
            fine("LL posterior", FACIAL, 600).numb("36 pulp"),
            fine("UL posterior", FACIAL, 900));
    for (NumbSide side : List.of(NumbSide.LEFT, NumbSide.RIGHT)) {
      Staged staged =
          stager.stage(
              mouth
                  .stands(Commitments.Slot.FREE, new Commitments.Slot(null, 50, side))
                  .inVisits(2));
      assertTrue(staged.feasible());
      VisitTimeline second = staged.layouts().get(1);
      List<Integer> taken = Arrays.stream(second.order()).boxed().toList();
      assertTrue(taken.contains(side == NumbSide.LEFT ? 1 : 0), "of its side");
      assertFalse(taken.contains(side == NumbSide.LEFT ? 0 : 1), "not of the other");
      assertTrue(second.bookedMinutes(staged.staging()) <= 50);
    }
    Staged never =
        stager.stage(
            mouth
                .stands(new Commitments.Slot(null, 20, null), new Commitments.Slot(null, 20, null))
                .inVisits(2));
    assertEquals(List.of(HardRule.BOOKED_LENGTH), never.brokenRules());
  }

  /**
   * An adult of 70 kg may have 490 mg of articaine (7 mg/kg, the conservative rule set), 12.25 mL
   * of the 4 % solution. With 12 mL given that morning, the block of 1.5 mL is too much on that day
   * and is allowed on a later one.
   */
  @Test
  void whatWasGivenThatDayCountsInTheFirstVisitOnly() {
    Stager stager = new Stager(Effort.QUICK);
    Mouth mouth =
        Mouth.of(
                fine("LR posterior", FACIAL, 600).numb("46 pulp"),
                fine("UL posterior", FACIAL, 600))
            .practice("\"preferredAgents\": [\"articaine-4-200\"], \"epinephrineCapMg\": 0.2")
            .given("articaine-4-200", 12);
    Staged later = stager.stage(mouth.inVisits(2));
    assertTrue(later.feasible());
    assertArrayEquals(new int[] {1}, later.layouts().get(0).order());
    assertEquals(List.of(HardRule.DOSE), stager.stage(mouth.inVisits(1)).brokenRules());
    mouth.given("articaine-4-200", 10);
    assertTrue(stager.stage(mouth.inVisits(1)).feasible());
    mouth
        .practice(
            "\"preferredAgents\": [\"articaine-4-200\"], \"epinephrineCapMg\": 0.2,"
                + " \"appointments\": {\"gapMinDays\": 0}")
        .given("articaine-4-200", 12);
    assertEquals(List.of(HardRule.DOSE_OF_THE_DAY), stager.stage(mouth.inVisits(2)).brokenRules());
  }

  @Test
  void refusesPinsThatCannotBe() {
    Mouth mouth = Mouth.of(fine("UR posterior", FACIAL, 300), fine("UL posterior", FACIAL, 500));
    for (List<Integer> wrong : List.of(List.of(0), List.of(0, 0), List.of(2))) {
      mouth.stands(new Commitments.Slot(wrong, null, null));
      assertThrows(IllegalArgumentException.class, () -> mouth.inVisits(1));
    }
  }
}
