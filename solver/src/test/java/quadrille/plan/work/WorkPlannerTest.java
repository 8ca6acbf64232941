package quadrille.plan.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;

final class WorkPlannerTest {

  private static final Practice PRACTICE = PracticeReader.defaults();

  private static WorkList plan(ToothChart... teeth) throws UnworkableException {
    Chart chart = Teeth.chart(teeth);
    return WorkPlanner.plan(chart, PRACTICE, Area.of(chart));
  }

  private static List<String> words(WorkList work) {
    return work.steps().stream()
        .map(step -> step.words() + ", " + step.power().word() + ", " + step.seconds() + " s")
        .toList();
  }

  /** Reckoned by hand from the default minutes. */
  @Test
  void stepsFollowAreaPassAspectAndInsert() throws UnworkableException {
    WorkList work =
        plan(
            Teeth.even(16, Deposit.MODERATE, 6),
            Teeth.even(15, Deposit.LIGHT, 3),
            Teeth.implant(14, Deposit.LIGHT, 3, 3),
            Teeth.even(41, Deposit.HEAVY, 7, Feature.CALCULUS_BRIDGE),
            Teeth.even(42, Deposit.HEAVY, 3));
    assertEquals(
        List.of(
            // 45 s x 1.5 / 2
            "UR posterior, gross, facial (16), standard bent, medium, 34 s",
            "UR posterior, gross, lingual (16), standard bent, medium, 34 s",
            // 3 x 32.3 s x 433/222 + 3 x 4 s x 220/222
            "UR posterior, fine, facial (15 16), slim curved right, low, 201 s",
            "UR posterior, fine, lingual (15 16), slim curved left, low, 201 s",
            "UR posterior, implant-care, both (14), sleeved for implants, low, 120 s",
            // 2 x 90 s / 2
            "LR anterior, gross, facial (41 42), standard straight, medium, 90 s",
            "LR anterior, gross, lingual (42), standard straight, medium, 45 s",
            "LR anterior, gross, lingual (41), broad flat, medium, 45 s",
            // 3 x 32.3 s x 154/195.4 + 3 x 4 s x 168/195.4
            "LR anterior, fine, facial (41 42), slim straight, low, 87 s",
            "LR anterior, fine, lingual (41 42), slim straight, low, 87 s",
            "LR anterior, finishing, both (41), finest straight, low, 30 s"),
        words(work));
    for (int i = 0; i < work.steps().size(); i++) {
      assertEquals(i, work.steps().get(i).id());
    }
    assertEquals("gross, bridge or stain, lower front lingual", work.steps().get(7).rule());
  }

  @Test
  void passesAreDueByThePracticesRules() {
    DuePasses due = new DuePasses(PRACTICE);
    assertEquals(Set.of(), due.of(Teeth.even(11, Deposit.NONE, 3)));
    assertEquals(EnumSet.of(Pass.FINE), due.of(Teeth.even(11, Deposit.NONE, 4)));
    assertEquals(EnumSet.of(Pass.FINE), due.of(Teeth.even(11, Deposit.LIGHT, 3)));
    assertEquals(EnumSet.of(Pass.GROSS, Pass.FINE), due.of(Teeth.even(11, Deposit.MODERATE, 3)));
    assertEquals(EnumSet.of(Pass.FINE, Pass.FINISHING), due.of(Teeth.even(11, Deposit.NONE, 7)));
    assertEquals(
        EnumSet.of(Pass.GROSS), due.of(Teeth.even(11, Deposit.NONE, 3, Feature.HEAVY_STAIN)));
    assertEquals(
        EnumSet.of(Pass.FINISHING), due.of(Teeth.even(11, Deposit.NONE, 3, Feature.CROWDED)));
    AspectReading bleeding =
        new AspectReading(Site.ofDepth(2), new Site(2, 0, true), Site.ofDepth(2));
    assertEquals(
        EnumSet.of(Pass.FINE),
        due.of(Teeth.tooth(11, Deposit.NONE, AspectReading.even(2), bleeding)));
    assertEquals(EnumSet.of(Pass.FINE), due.of(Teeth.even(11, Deposit.NONE, null)));
    assertEquals(Set.of(), due.of(Teeth.implant(11, Deposit.NONE, 3, 3)));
    assertEquals(EnumSet.of(Pass.IMPLANT_CARE), due.of(Teeth.implant(11, Deposit.HEAVY, 3, 3)));
    assertEquals(EnumSet.of(Pass.IMPLANT_CARE), due.of(Teeth.implant(11, Deposit.NONE, 3, 8)));
    assertEquals(Set.of(), due.of(Teeth.gone(11, ToothStatus.PLANNED_EXTRACTION)));
  }

  @Test
  void withoutTheSleevedInsertEachImplantIsNamed() throws InvalidDocumentException {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            "{ \"schema\": \"quadrille/practice/1\", \"inserts\": { \"sleeved for implants\": null } }");
    Chart chart =
        Teeth.chart(
            Teeth.implant(14, Deposit.LIGHT, 3, 3),
            Teeth.implant(36, Deposit.NONE, 6, 3),
            Teeth.implant(46, Deposit.NONE, 3, 3),
            Teeth.even(11, Deposit.LIGHT, 3));
    UnworkableException thrown =
        assertThrows(
            UnworkableException.class, () -> WorkPlanner.plan(chart, practice, Area.of(chart)));
    assertEquals(
        List.of(List.of(Tooth.ofIso(14)), List.of(Tooth.ofIso(36))),
        thrown.work().stream().map(Unworkable::teeth).toList());
  }

  @Test
  void notesSayWhatAReaderMustKnow() throws UnworkableException {
    List<ToothChart> teeth = new ArrayList<>();
    for (Tooth tooth : Tooth.values()) {
      if (tooth.position() < 8) {
        teeth.add(Teeth.even(tooth.iso(), Deposit.LIGHT, 3));
      }
    }
    teeth.set(0, Teeth.even(11, Deposit.NONE, 3));
    teeth.set(1, Teeth.even(12, Deposit.LIGHT, 3, Feature.RESTORATION_MARGIN));
    teeth.set(5, Teeth.even(16, Deposit.HEAVY, null));
    teeth.set(6, Teeth.even(17, Deposit.HEAVY, null));
    teeth.set(7, Teeth.even(21, Deposit.LIGHT, null));
    teeth.set(13, Teeth.gone(27, ToothStatus.PLANNED_EXTRACTION));
    Chart chart = new Chart("T-2", null, Numbering.UNIVERSAL, Teeth.ADULT, teeth);
    assertEquals(
        List.of(
            new WorkNote.Unprobed(teeth(16, 17), Figure.written(5, "assumption"), true),
            new WorkNote.Unprobed(teeth(21), Figure.written(5, "assumption"), false),
            new WorkNote.Of(WorkNote.Kind.PLANNED_EXTRACTION, teeth(27)),
            new WorkNote.Of(WorkNote.Kind.UNLISTED, teeth(18, 28, 38, 48)),
            new WorkNote.Of(WorkNote.Kind.NOTHING_DUE, teeth(11)),
            new WorkNote.Of(WorkNote.Kind.RESTORATION_MARGIN, teeth(12))),
        WorkPlanner.plan(chart, PRACTICE, Area.of(chart)).notes());
  }

  @Test
  void delicateTeethAreSweptAtLowPowerInAStepOfTheirOwn() throws UnworkableException {
    List<String> facial =
        words(
                plan(
                    Teeth.even(14, Deposit.MODERATE, 3),
                    Teeth.even(15, Deposit.MODERATE, 3, Feature.DEMINERALISED)))
            .subList(0, 2);
    assertEquals(
        List.of(
            "UR posterior, gross, facial (15), standard bent, low, 27 s",
            "UR posterior, gross, facial (14), standard bent, medium, 27 s"),
        facial);
  }

  @Test
  void gelTakesThePlaceOfInjectionsWithinItsLimit() throws Exception {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            "{ \"schema\": \"quadrille/practice/1\", \"gel\": { \"owned\": true } }");
    Chart chart = Teeth.chart(Teeth.even(14, Deposit.LIGHT, 6), Teeth.even(13, Deposit.LIGHT, 6));
    List<Step> steps = WorkPlanner.plan(chart, practice, Area.of(chart)).steps();
    assertEquals(4, steps.size());
    // One cartridge a quadrant (product label), half of one for an aspect of an area.
    for (Step step : steps) {
      assertEquals(step.area().posterior(), step.gel(), step.words());
      assertEquals(!step.gel(), step.needsInjection(), step.words());
    }
  }

  @Test
  void gelStaysWithinTheLimitOfAVisit() throws Exception {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            "{ \"schema\": \"quadrille/practice/1\","
                + " \"gel\": { \"owned\": true, \"cartridgesVisit\": 1.5 } }");
    Chart chart = Teeth.chart(Teeth.even(14, Deposit.LIGHT, 6), Teeth.even(34, Deposit.LIGHT, 6));
    assertEquals(
        List.of(true, true, true, false),
        WorkPlanner.plan(chart, practice, Area.of(chart)).steps().stream().map(Step::gel).toList());
  }

  @Test
  void anUnprobedSiteIsDueTheFinePassHoweverShallowItIsTaken() throws Exception {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            "{ \"schema\": \"quadrille/practice/1\", \"minutes\": { \"provisionalDepthMm\": 2 } }");
    assertEquals(
        EnumSet.of(Pass.FINE), new DuePasses(practice).of(Teeth.even(11, Deposit.NONE, null)));
  }

  @Test
  void areasMustHoldEveryToothOnce() {
    Chart chart = Teeth.chart(Teeth.even(14, Deposit.LIGHT, 3), Teeth.even(15, Deposit.LIGHT, 3));
    Area whole = Area.of(chart).get(0);
    List<Area> parts = whole.cutAfter(1);
    assertThrows(
        IllegalArgumentException.class,
        () -> WorkPlanner.plan(chart, PRACTICE, List.of(parts.get(0))));
    assertThrows(
        IllegalArgumentException.class,
        () -> WorkPlanner.plan(chart, PRACTICE, List.of(whole, parts.get(0))));
  }

  @Test
  void aCutAreaHasTheSameWorkInItsParts() throws UnworkableException {
    Chart chart =
        Teeth.chart(Teeth.even(14, Deposit.MODERATE, 6), Teeth.even(16, Deposit.MODERATE, 6));
    Area whole = Area.of(chart).get(0);
    List<Step> uncut = WorkPlanner.plan(chart, PRACTICE, List.of(whole)).steps();
    List<Step> cut = WorkPlanner.plan(chart, PRACTICE, whole.cutAfter(1)).steps();
    assertEquals(2 * uncut.size(), cut.size());
    assertEquals(
        uncut.stream().mapToInt(Step::seconds).sum(),
        cut.stream().mapToInt(Step::seconds).sum(),
        uncut.size());
    assertTrue(cut.stream().allMatch(step -> step.teeth().size() == 1));
    assertFalse(cut.get(0).area().equals(cut.get(cut.size() - 1).area()));
  }

  @Test
  void theBurdenIsTheDepthAboveThreeMillimetres() {
    Chart chart =
        Teeth.chart(
            Teeth.tooth(14, Deposit.LIGHT, AspectReading.even(6), AspectReading.even(2)),
            Teeth.even(15, Deposit.LIGHT, null));
    assertEquals(3 * 3 + 6 * 2, Burden.of(Area.of(chart).get(0), chart, PRACTICE.minutes()));
  }

  private static List<Tooth> teeth(int... codes) {
    return Arrays.stream(codes).mapToObj(Tooth::ofIso).toList();
  }
}
