package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.facts.practice.Pass.FINE;
import static quadrille.facts.practice.Pass.FINISHING;
import static quadrille.facts.practice.Pass.GROSS;
import static quadrille.facts.practice.Pass.IMPLANT_CARE;
import static quadrille.plan.audit.SmallPractice.figure;
import static quadrille.plan.work.StepAspect.BOTH;
import static quadrille.plan.work.StepAspect.FACIAL;
import static quadrille.plan.work.StepAspect.LINGUAL;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.chart.Wish;
import quadrille.facts.chart.WishSentences;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.InsertClass;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.SelectionRule;
import quadrille.facts.practice.Shank;
import quadrille.plan.course.AtAnotherTime;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Before;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.work.DoneWork;
import quadrille.plan.work.StepAspect;

/** A plan worked out by hand is clean; broken in one way, it has just that one finding. */
class AuditTest {

  private static final String LR = "LR posterior";
  private static final String LL = "LL posterior";
  private static final String UR = "UR anterior";
  private static final String UL = "UL posterior";

  private final SmallChart chart = new SmallChart();
  private final SmallPractice practice = new SmallPractice();

  /** Burden of LL 6 (six sites of 4 mm), of LR 18 (46, six of 6 mm): 120 s x 6/18 x 1 visit. */
  private static final long LATE = 40;

  private PlanBuilder builder() {
    return new PlanBuilder(chart.build(), practice.build());
  }

  /** Injections at 600 and 720 s; 46 facial is numb at 768 + 240, its pulp at 720 + 600. */
  private static PlanBuilder.VisitBuilder lowerRight(PlanBuilder.VisitBuilder visit) {
    return visit
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, GROSS, FACIAL, 240)
        .step(LR, GROSS, LINGUAL)
        .step(LR, FINE, LINGUAL, 137)
        .step(LR, FINE, FACIAL);
  }

  private static PlanBuilder.VisitBuilder rest(PlanBuilder.VisitBuilder visit) {
    return visit
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
  }

  private Course plan() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    rest(plan.visit());
    return plan.course();
  }

  private List<String> audit(Course course) {
    return Audit.audit(course, chart.build(), practice.build()).stream()
        .map(Finding::line)
        .toList();
  }

  private void assertClean(Course course) {
    assertEquals(List.of(), audit(course));
  }

  private void assertOne(Course course, String finding) {
    assertEquals(List.of(finding), audit(course));
  }

  // ---- plans that keep every rule

  @Test
  void aPlanWorkedOutByHandIsClean() {
    Course course = plan();
    assertClean(course);
    // The arithmetic, once by hand. Visit 1: set-up 600, injections 90 + 30 and 18 + 30, wait 240,
    // gross 50, aspect 15, gross 50, tip 60, wait 137, fine 102 (44: 3 x 4, 46: 3 x 30), aspect 15,
    // fine 102, close 300.
    assertEquals(1839, course.visits().get(0).expectedSeconds());
    // Visit 2: 600 + 48 + 15 + 48 + 30 + 12 + 15 + 12 + 60 + 15 + 60 + 60 + 30 + 120 + 300.
    assertEquals(1425, course.visits().get(1).expectedSeconds());
    // Working 304 s, fixed 1535 s; 80 % by z = 0.8416 (normal table): 304 exp(0.8416 x 0.2 - 0.02)
    // = 352.6, so 1887.6 s, 31.5 minutes.
    assertEquals(32, course.visits().get(0).bookedMinutes());
    // Working 300 s, fixed 1125 s: 300 x 1.1599 = 348.0, so 1473.0 s, 24.6 minutes; in 25 minutes
    // z = (ln(375 / 300) + 0.02) / 0.2 = 1.2157, of which 0.1120 lies above.
    assertEquals(25, course.visits().get(1).bookedMinutes());
    assertEquals(0.1120, course.visits().get(1).overrunRisk(), 0.00005);
    // 1.8 mL of 20 mg/mL: 36 mg of 300 (70 kg x 4.4 = 308, cap 300); epinephrine 1.8 x 0.01.
    assertEquals(
        List.of(new Dose("lidocaine-2-100", 36, 300, 0.12)), course.visits().get(0).doses());
    assertEquals(0.018, course.visits().get(0).epinephrineMg(), 1e-12);
    // 3264 + 0.5 x (1839 - 1632) + 0 + 40 + 2 x 60 + 20.
    assertEquals(3264 + 104 + 40 + 120 + 20, course.cost().seconds());
  }

  @Test
  void aPlanFileWithItsOwnSumsIsClean() {
    assertEquals(List.of(), Audit.audit(PlanFile.of(plan()), chart.build(), practice.build()));
  }

  @Test
  void anAreaMayBeCutBetweenAnyTwoTeeth() {
    List<Area> areas = new ArrayList<>();
    for (Area area : Area.of(chart.build())) {
      areas.addAll(area.ref().equals(AreaRef.of(LR)) ? area.cutAfter(1) : List.of(area));
    }
    PlanBuilder plan = new PlanBuilder(chart.build(), practice.build(), areas).worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step("LR posterior 44", FINE, FACIAL)
        .step("LR posterior 44", FINE, LINGUAL)
        .step("LR posterior 46", GROSS, LINGUAL, 123)
        .step("LR posterior 46", GROSS, FACIAL)
        .step("LR posterior 46", FINE, FACIAL, 125)
        .step("LR posterior 46", FINE, LINGUAL);
    rest(plan.visit());
    assertClean(plan.course());
  }

  @Test
  void withoutAWeightTheNumbWorkAndWhatMustFollowItIsHeldBack() {
    chart.weightKg = null;
    PlanBuilder plan = builder();
    rest(plan.visit());
    for (Pass pass : List.of(GROSS, FINE)) {
      for (StepAspect aspect : List.of(FACIAL, LINGUAL)) {
        plan.holdBack(LR, pass, aspect);
      }
    }
    assertClean(plan.course());
  }

  @Test
  void gelMayStandForAnInjection() {
    practice.gelOwned = true;
    practice.passesTogether = PassesTogether.FREE;
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .gel()
        .step(LR, GROSS, FACIAL)
        .gel()
        .step(LR, GROSS, LINGUAL)
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL);
    PlanBuilder.VisitBuilder second = plan.visit();
    second.gel().step(LR, FINE, FACIAL).gel().step(LR, FINE, LINGUAL);
    second.step(UR, FINE, LINGUAL).step(UR, FINE, FACIAL).step(UR, FINISHING, BOTH);
    second.step(UL, IMPLANT_CARE, BOTH);
    // LR waits one visit, at full burden; LL none.
    assertClean(plan.worstLate(120).course());
  }

  // ---- the order of a visit

  @Test
  void returnsToAQuadrantArePriced() {
    practice.order(60, 0);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(UR, FINE, LINGUAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertOne(
        plan.course(),
        "REPORT true report: The plan states as cost term returns to a quadrant nothing;"
            + " worked out again: 120 s.");
    assertClean(plan());
  }

  @Test
  void aVisitThatBeginsElsewhereThanInItsWorstAreaIsPriced() {
    practice.order(0, 30);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(UL, IMPLANT_CARE, BOTH)
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH);
    assertOne(
        plan.course(),
        "REPORT true report: The plan states as cost term worst area first nothing; worked out"
            + " again: 30 s.");
  }

  @Test
  void aNeedleBetweenTwoStepsOfOnePassIsPriced() {
    practice.needles(30);
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .step(LR, GROSS, LINGUAL)
        .inject("long buccal", Quadrant.LR)
        .step(LR, GROSS, FACIAL, 240)
        .step(LR, FINE, LINGUAL, 137)
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    assertTrue(
        audit(plan.course())
            .contains(
                "REPORT true report: The plan states as cost term needles within an area nothing;"
                    + " worked out again: 30 s."));
    assertClean(plan());
  }

  @Test
  void aDeepBlockBeforeTheLookIsPriced() {
    looks(1);
    practice.alert(
        AlertRule.of(Alert.ANTICOAGULANT, "a test")
            .withTeethBeforeLook(SmallPractice.figure(1))
            .withBlockBeforeLookSeconds(SmallPractice.figure(600)));
    String priced =
        "REPORT true report: The plan states as cost term blocks before the look nothing;"
            + " worked out again: 600 s.";
    assertFalse(audit(plan()).contains(priced));
    int last = plan().visits().get(0).sequence().size() - 1;
    assertTrue(audit(looked(plan(), 1, last)).contains(priced));
    assertFalse(audit(looked(plan(), 1, 1)).contains(priced));
  }

  /** The superficial block before the look, the deep one after it. */
  @Test
  void aSuperficialBlockBeforeTheLookIsNotPriced() {
    looks(1);
    practice.alert(
        AlertRule.of(Alert.ANTICOAGULANT, "a test")
            .withTeethBeforeLook(SmallPractice.figure(1))
            .withBlockBeforeLookSeconds(SmallPractice.figure(600)));
    for (int index : List.of(2, 3)) {
      PlanBuilder plan = builder();
      plan.visit()
          .inject("long buccal", Quadrant.LR)
          .inject("inferior alveolar", Quadrant.LR)
          .step(LR, GROSS, FACIAL, 60)
          .step(LR, GROSS, LINGUAL)
          .step(LR, FINE, LINGUAL, index == 2 ? 365 : 305)
          .step(LR, FINE, FACIAL);
      rest(plan.visit());
      List<String> found = audit(looked(plan.course(), 1, index));
      assertEquals(
          index == 3,
          found.stream().anyMatch(one -> one.contains("blocks before the look")),
          found.toString());
    }
  }

  /** Right before the first of two steps it parts no area. */
  @Test
  void aNeedleBeforeAPassIsNotPriced() {
    practice.needles(30);
    PlanBuilder plan = builder();
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(LR, GROSS, FACIAL, 39)
        .step(LR, GROSS, LINGUAL)
        .step(LR, FINE, LINGUAL, 137)
        .step(LR, FINE, FACIAL);
    plan.visit()
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertClean(plan.course());
  }

  // ---- what stands around the work

  private void frame(Frame.Task task, double minutes, Frame.Visits visits, Alert... alerts) {
    practice.frame.put(
        task, new Frame.Part(SmallPractice.figure(minutes), visits, Set.of(alerts), null));
  }

  /** With parts of the frame put in before a visit's entry of a place; the sums are its own. */
  private static Course framed(Course course, int number, int index, Frame.Task... tasks) {
    Course framed =
        relaid(
            course,
            number,
            sequence -> {
              for (int i = 0; i < tasks.length; i++) {
                sequence.add(index + i, new Entry.OfFrame(0, 60, tasks[i]));
              }
              return sequence;
            });
    return framed;
  }

  private List<String> clock(Course course) {
    return audit(course).stream().filter(line -> line.startsWith("CLOCK")).toList();
  }

  @Test
  void whatIsDueInTheFirstVisitIsDueThereOnly() {
    frame(Frame.Task.CONSENT, 1, Frame.Visits.FIRST);
    assertEquals(
        List.of(
            "CLOCK minutes, visit 1: Around the work are due consent, but the visit has nothing."),
        clock(plan()));
    Course course = framed(plan(), 1, 1, Frame.Task.CONSENT);
    assertEquals(List.of(), clock(course));
    assertEquals(
        List.of(
            "CLOCK minutes, visit 2: Around the work are due nothing, but the visit has consent."),
        clock(framed(course, 2, 1, Frame.Task.CONSENT)));
  }

  @Test
  void aPartOfTheFrameTakesItsTimeAndComesInItsPlace() {
    frame(Frame.Task.HISTORY, 1, Frame.Visits.FIRST);
    frame(Frame.Task.INSTRUCTION, 2, Frame.Visits.FIRST);
    Course course = framed(plan(), 1, 1, Frame.Task.HISTORY);
    int before = course.visits().get(0).sequence().size() - 1;
    assertEquals(
        List.of(
            "CLOCK minutes, visit 1: The instruct at minute 26.65 takes 60 s, but 120 s are due."),
        clock(framed(course, 1, before, Frame.Task.INSTRUCTION)));
    frame(Frame.Task.INSTRUCTION, 1, Frame.Visits.FIRST);
    assertEquals(
        List.of(
            "CLOCK minutes, visit 1: The instruct at minute 11.00 comes before the work has"
                + " begun."),
        clock(framed(course, 1, 2, Frame.Task.INSTRUCTION)));
  }

  @Test
  void anAlertAsksForBloodPressureInEveryVisit() {
    frame(Frame.Task.BLOOD_PRESSURE, 1, Frame.Visits.NONE, Alert.HIGH_BLOOD_PRESSURE);
    assertEquals(List.of(), clock(plan()));
    chart.alert(Alert.HIGH_BLOOD_PRESSURE);
    assertEquals(2, clock(plan()).size());
    Course first = framed(plan(), 1, 1, Frame.Task.BLOOD_PRESSURE);
    assertEquals(List.of(), clock(framed(first, 2, 1, Frame.Task.BLOOD_PRESSURE)));
  }

  @Test
  void whatIsDueInTheLastVisitIsDueAtItsEnd() {
    frame(Frame.Task.CHARTING, 1, Frame.Visits.LAST);
    assertEquals(
        List.of(
            "CLOCK minutes, visit 2: Around the work are due charting, but the visit has nothing."),
        clock(plan()));
    int end = plan().visits().get(1).sequence().size() - 1;
    assertEquals(List.of(), clock(framed(plan(), 2, end, Frame.Task.CHARTING)));
    assertEquals(
        List.of(
            "CLOCK minutes, visit 2: The charting at minute 10.00 comes before the work has"
                + " begun."),
        clock(framed(plan(), 2, 1, Frame.Task.CHARTING)));
  }

  @Test
  void chartingOfEveryVisitComesBeforeTheWorkAndTheLastLookAfterIt() {
    for (Frame.Task task :
        List.of(Frame.Task.CHARTING, Frame.Task.INSTRUCTION, Frame.Task.LAST_LOOK)) {
      frame(task, 1, Frame.Visits.EVERY);
    }
    Course course = plan();
    for (int visit : List.of(1, 2)) {
      int end = course.visits().get(visit - 1).sequence().size() - 1;
      course = framed(course, visit, end, Frame.Task.INSTRUCTION, Frame.Task.LAST_LOOK);
      course = framed(course, visit, 1, Frame.Task.CHARTING);
    }
    assertEquals(List.of(), clock(course));
  }

  @Test
  void aRinseIsLeftOutWhereAnAlertForbidsWhatIsInIt() {
    practice.frame.put(
        Frame.Task.RINSE,
        new Frame.Part(SmallPractice.figure(1), Frame.Visits.EVERY, Set.of(), "iodine"));
    chart.alert(Alert.DIABETES);
    for (String forbidden : List.of("chlorhexidine", "iodine")) {
      practice.alert(AlertRule.of(Alert.DIABETES, "a test").withForbidsRinses(List.of(forbidden)));
      assertEquals(forbidden.equals("iodine") ? 0 : 2, clock(plan()).size(), forbidden);
    }
  }

  // ---- H10, how a visit begins

  /** 46 at 137 + 30 s of lingual and facial work; here all of LR, two teeth, comes first anyway. */
  private void looks(int teeth) {
    chart.alert(Alert.ANTICOAGULANT);
    practice.alert(
        AlertRule.of(Alert.ANTICOAGULANT, "a test")
            .withTeethBeforeLook(SmallPractice.figure(teeth)));
  }

  private static Course looked(Course course, int number, int index) {
    return relaid(
        course,
        number,
        sequence -> {
          sequence.add(index, new Entry.Look(0, 60));
          return sequence;
        });
  }

  private List<String> h10(Course course) {
    return audit(course).stream().filter(line -> line.startsWith("H10")).toList();
  }

  @Test
  void fewTeethBeforeTheLookAtTheBleeding() {
    looks(1);
    // Visit 1: 46 and 44; 46 is finished by its four steps, the fine ones take 44 with them.
    assertEquals(
        List.of(
            "H10 alerts, visit 1: The visit works on 2 teeth before the first look at the"
                + " bleeding; it must be 1 to 1.",
            "H10 alerts, visit 2: The visit works on 3 teeth before the first look at the"
                + " bleeding; it must be 1 to 1."),
        h10(plan()));
    // Set-up, two steps of 36 with a move between them, then the look.
    assertEquals(
        List.of(
            "H10 alerts, visit 1: The visit works on 2 teeth before the first look at the"
                + " bleeding; it must be 1 to 1."),
        h10(looked(plan(), 2, 4)));
    assertEquals(
        "H10 alerts, visit 2: The look at the bleeding comes before all is done at 36.",
        h10(looked(plan(), 2, 2)).get(1));
  }

  @Test
  void aVisitWithNoMoreTeethThanMayComeFirstNeedsNoLook() {
    looks(2);
    assertEquals(
        List.of(
            "H10 alerts, visit 2: The visit works on 3 teeth before the first look at the"
                + " bleeding; it must be 1 to 2."),
        h10(plan()));
  }

  @Test
  void theStrictestAlertSaysHowManyTeethComeBeforeTheLook() {
    chart.alert(Alert.ANTICOAGULANT).alert(Alert.WARFARIN);
    for (int one : List.of(1, 3)) {
      practice.alert(AlertRule.of(Alert.ANTICOAGULANT, "a test").withTeethBeforeLook(figure(one)));
      practice.alert(AlertRule.of(Alert.WARFARIN, "a test").withTeethBeforeLook(figure(4 - one)));
      List<String> found = h10(plan());
      assertEquals(2, found.size(), found.toString());
      assertTrue(found.stream().allMatch(line -> line.endsWith("1 to 1.")), found.toString());
    }
  }

  @Test
  void clockWithALookAsLongAsItTakes() {
    looks(1);
    List<String> found =
        clock(
            relaid(looked(plan(), 2, 4), 2, sequence -> lengthen(sequence, Entry.Look.class, 30)));
    assertEquals(
        List.of("CLOCK minutes, visit 2: The look at minute 11.85 takes 90 s, but 60 s are due."),
        found);
  }

  @Test
  void aLookThatNothingAsksForIsReported() {
    assertEquals(
        List.of(
            "H10 alerts, visit 2: The visit has a look at the bleeding, for which nothing asks."),
        h10(looked(plan(), 2, 4)));
  }

  @Test
  void nothingIsTouchedBeforeItIsNumb() {
    practice.numbFirst = true;
    // The gross pass needs the facial tissue of 46 alone, the pulp takes until 1320.
    assertEquals(
        List.of(
            "H10 alerts, visit 1: The step LR posterior, gross, facial (46) starts at minute 16.80,"
                + " before the pulp of 46 is numb."),
        h10(plan()));
  }

  /** All of the quadrant is numb at 1320. */
  private Course numbAtOnce() {
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, GROSS, FACIAL, 552)
        .step(LR, GROSS, LINGUAL)
        .step(LR, FINE, LINGUAL)
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    return plan.course();
  }

  @Test
  void aVisitThatBeginsNumbIsClean() {
    practice.numbFirst = true;
    assertClean(numbAtOnce());
  }

  @Test
  void aVisitThatNumbsBeginsWhereItNumbs() {
    practice.numbFirst = true;
    PlanBuilder plan = builder();
    lowerRight(plan.visit().step(LL, FINE, FACIAL).step(LL, FINE, LINGUAL));
    plan.visit()
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertEquals(
        List.of(
            "H10 alerts, visit 1: The visit begins with the step LL posterior, fine, facial (36),"
                + " before anything is numb."),
        h10(plan.course()));
  }

  @Test
  void aVisitBeginsNumbWhereThatIsWishedForAndMustBe() {
    assertEquals(1, h10(stated(plan(), "must numb first", WishOutcome.State.KEPT)).size());
    assertEquals(List.of(), h10(stated(plan(), "rather numb first", WishOutcome.State.NOT_KEPT)));
  }

  // ---- H1

  @Test
  void oneNumbSide() {
    practice.passesTogether = PassesTogether.FREE;
    chart.natural(24, Deposit.LIGHT, 6);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit())
        .inject("upper infiltration", Quadrant.UL, 24, "lidocaine-2-100")
        .inject("greater palatine", Quadrant.UL)
        .step(UL, FINE, FACIAL, 30)
        .step(UL, FINE, LINGUAL, 75);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H1 one numb side, visit 1: Work that needs an injection lies on both sides: "
            + "on the right LR posterior, gross, facial (46); "
            + "on the left UL posterior, fine, facial (24).");
  }

  @Test
  void oneNumbSideBesideANasopalatineToo() {
    practice.passesTogether = PassesTogether.FREE;
    chart.natural(24, Deposit.LIGHT, 6).implant(12, 5);
    PlanBuilder plan = builder();
    lowerRight(plan.visit())
        .inject("upper infiltration", Quadrant.UL, 24, "lidocaine-2-100")
        .inject("greater palatine", Quadrant.UL)
        .inject("nasopalatine", Quadrant.UR)
        .step(UL, FINE, FACIAL, 30)
        .step(UL, FINE, LINGUAL, 75)
        .step(UR, IMPLANT_CARE, BOTH);
    rest(plan.visit());
    assertEquals(
        List.of(
            "H1 one numb side, visit 1: Work that needs an injection lies on both sides: "
                + "on the right LR posterior, gross, facial (46); "
                + "on the left UL posterior, fine, facial (24)."),
        h1(plan.course()));
  }

  /** The exception: 21 infiltrated beside a numb right side, where the practice allows it. */
  @Test
  void aFrontToothAcrossTheMidlineIsNoSecondSide() {
    practice.passesTogether = PassesTogether.FREE;
    chart.natural(21, Deposit.LIGHT, 6);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit())
        .inject("upper infiltration", Quadrant.UL, 21, "lidocaine-2-100")
        .inject("nasopalatine", Quadrant.UL)
        .step("UL anterior", FINE, FACIAL, 30)
        .step("UL anterior", FINE, LINGUAL, 75);
    rest(plan.visit());
    List<String> across = h1(plan.course());
    practice.midlineInfiltration = false;
    assertEquals(List.of(), across);
    assertEquals(1, h1(plan.course()).size());
  }

  private List<String> h1(Course course) {
    return audit(course).stream().filter(line -> line.startsWith("H1")).toList();
  }

  @Test
  void theNasopalatineAloneIsNoSecondSide() {
    chart.implant(12, 5).implant(22, 5);
    // Burden of UR 6 now, three sites of 5 mm: 40 s more.
    PlanBuilder plan = builder().worstLate(LATE + 40);
    lowerRight(plan.visit());
    // 27 + 30 s, then 4 minutes of onset, filled with work that needs none.
    PlanBuilder.VisitBuilder second = plan.visit().inject("nasopalatine", Quadrant.UR);
    rest(second).step(UR, IMPLANT_CARE, BOTH).step("UL anterior", IMPLANT_CARE, BOTH);
    Course course = Courses.parts(plan.course(), 2, v -> v.numbSide = NumbSide.NONE);
    assertClean(course);
    // Left out, it is missed once for each implant, and nothing else is.
    assertEquals(
        List.of(Rule.H8, Rule.H8),
        Audit.audit(without(course, 2), chart.build(), practice.build()).stream()
            .map(Finding::rule)
            .filter(rule -> rule != Rule.REPORT)
            .toList());
  }

  private static Course without(Course course, int number) {
    return relaid(
        Courses.parts(
            course,
            number,
            v -> {
              v.injections.clear();
              v.doses.clear();
              v.epinephrineMg = 0;
              v.cartridges = 0;
            }),
        number,
        sequence -> {
          sequence.remove(first(sequence, Entry.Inject.class));
          return sequence;
        });
  }

  @Test
  void oneNumbSideForANeedlessInjectionToo() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).inject("upper infiltration", Quadrant.UL, 25, "lidocaine-2-100");
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H1 one numb side, visit 1: The injection upper infiltration 25 numbs a second side; "
            + "the work that needs one lies on the right.");
  }

  @Test
  void twoNumbSidesWhereThePracticeAllowsThem() {
    practice.oneNumbSide = false;
    practice.passesTogether = PassesTogether.FREE;
    chart.natural(24, Deposit.LIGHT, 6);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit())
        .inject("upper infiltration", Quadrant.UL, 24, "lidocaine-2-100")
        .inject("greater palatine", Quadrant.UL)
        .step(UL, FINE, FACIAL, 30)
        .step(UL, FINE, LINGUAL, 75);
    rest(plan.visit());
    assertClean(plan.course());
  }

  /** What the nasopalatine numbs anyway is no leave to block the other side for it. */
  @Test
  void oneNumbSideThoughTheOtherBlockNumbsWhatIsNumbAnyway() {
    chart.implant(22, 5);
    Practice built = practice.build();
    Map<String, Injection> injections = new LinkedHashMap<>(built.injections());
    injections.computeIfPresent(
        "greater palatine", (name, one) -> one.withLingual(List.of(1, 2, 3, 4, 5, 6, 7, 8)));
    PlanBuilder plan = builder();
    lowerRight(plan.visit())
        .inject("nasopalatine", Quadrant.UR)
        .inject("greater palatine", Quadrant.UL)
        .step("UL anterior", IMPLANT_CARE, BOTH);
    rest(plan.visit());
    assertEquals(
        List.of(
            "H1 one numb side, visit 1: Injections numb both sides: inferior alveolar right and"
                + " greater palatine left."),
        audit(plan.course(), built.withInjections(injections)).stream()
            .filter(line -> line.startsWith("H1 "))
            .toList());
  }

  private List<String> afterOnOneDay(GivenInjection... given) {
    Before before =
        new Before(
            new TreeSet<>(), DoneWork.NONE, List.of(given), new TreeMap<>(), new TreeMap<>());
    return audit(plan(), before).stream().filter(line -> line.startsWith("H1 ")).toList();
  }

  private static GivenInjection given(String injection, Quadrant quadrant, int iso) {
    return new GivenInjection(
        injection, quadrant, iso == 0 ? null : Tooth.ofIso(iso), "lidocaine-2-100", 0.3);
  }

  /** The midline's injections bind no side, one that the practice does not know binds its own. */
  @Test
  void oneNumbSideOverTheDay() {
    List<String> other =
        List.of(
            "H1 one numb side, visit 1: The injection inferior alveolar right numbs the right;"
                + " earlier that day something was numbed on the other side.");
    GivenInjection right = given("long buccal", Quadrant.LR, 0);
    GivenInjection left = given("long buccal", Quadrant.LL, 0);
    assertEquals(List.of(), afterOnOneDay());
    assertEquals(List.of(), afterOnOneDay(right));
    assertEquals(List.of(), afterOnOneDay(given("nasopalatine", Quadrant.UL, 0)));
    assertEquals(List.of(), afterOnOneDay(given("upper infiltration", Quadrant.UL, 21)));
    assertEquals(other, afterOnOneDay(left));
    assertEquals(other, afterOnOneDay(right, left));
    assertEquals(other, afterOnOneDay(given("upper infiltration", Quadrant.UL, 24)));
    assertEquals(other, afterOnOneDay(given("lip block", Quadrant.LL, 0)));
    practice.oneNumbSide = false;
    assertEquals(List.of(), afterOnOneDay(left));
  }

  // ---- H2

  @Test
  void noDoubleBlock() {
    practice.oneNumbSide = false;
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).inject("inferior alveolar", Quadrant.LL);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H2 no double block, visit 1: The visit gives a right and a left inferior alveolar.");
  }

  // ---- H3

  @Test
  void dose() {
    chart.weightKg = 5.0;
    assertOne(
        plan(),
        "H3 dose, visit 1: The doses come to 163.6 % of the maximum: 36 of 22 of lidocaine-2-100.");
  }

  @Test
  void doseOfSeveralAgentsAddsUp() {
    // 1.5 mL x 20 = 30 of 10 x 4.4 = 44, and 0.3 mL x 40 = 12 of 10 x 6 = 60: 68.2 and 20 %.
    chart.weightKg = 10.0;
    PlanBuilder plan = builder().worstLate(LATE);
    twoAgents(plan.visit());
    rest(plan.visit());
    assertClean(plan.course());
    // 30 of 35.2 and 12 of 48: 85.2 and 25 %.
    chart.weightKg = 8.0;
    plan = builder().worstLate(LATE);
    twoAgents(plan.visit());
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H3 dose, visit 1: The doses come to 110.2 % of the maximum: "
            + "30 of 35.2 of lidocaine-2-100, 12 of 48 of prilocaine-4.");
  }

  private static void twoAgents(PlanBuilder.VisitBuilder visit) {
    visit
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR, 0, "prilocaine-4")
        .step(LR, GROSS, FACIAL, 240)
        .step(LR, GROSS, LINGUAL)
        .step(LR, FINE, LINGUAL, 137)
        .step(LR, FINE, FACIAL);
  }

  @Test
  void doseOfOneDayAddsUp() {
    chart.natural(36, Deposit.LIGHT, 6);
    practice.gapMinDays = 0;
    chart.weightKg = 16.0; // 70.4 mg a day; each visit gives 36.
    PlanBuilder plan = builder().worstLate(120);
    lowerRight(plan.visit());
    lowerLeft(plan.visit());
    assertOne(
        plan.course(),
        "H3 dose, visit 2: The doses come to 102.3 % of the maximum: "
            + "72 of 70.4 of lidocaine-2-100.");
  }

  /** Numb at 1320; the rest of the work in the meantime. */
  private static void lowerLeft(PlanBuilder.VisitBuilder visit) {
    visit
        .inject("inferior alveolar", Quadrant.LL)
        .inject("long buccal", Quadrant.LL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(LL, FINE, FACIAL, 483)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
  }

  @Test
  void doseOfEpinephrine() {
    practice.epinephrineCapMg = 0.01;
    assertOne(
        plan(),
        "H3 dose, visit 1: The visit gives 0.018 mg of epinephrine; the practice's cap is 0.01"
            + " mg.");
  }

  /** The plan gives 36 mg of lidocaine with 0.018 mg of epinephrine: exactly what is allowed. */
  @Test
  void aDoseExactlyAtItsMaximumIsClean() {
    practice.epinephrineCapMg = 0.018;
    chart.weightKg = 36 / 4.4;
    assertClean(plan());
    practice.epinephrineCapMg = 0.2;
    practice.alert(
        AlertRule.of(Alert.HEART_DISEASE, "made up for a test")
            .withEpinephrineCapMg(figure(0.018)));
    chart.alert(Alert.HEART_DISEASE);
    assertClean(plan());
  }

  /** Beside one that has a cap, and alone. */
  @Test
  void anAlertWithoutACapCapsNothing() {
    practice.alert(AlertRule.of(Alert.DIABETES, "made up for a test"));
    chart.alert(Alert.DIABETES);
    assertClean(plan());
    assertClean(mayFail(plan(), true));
  }

  private static Course mayFail(Course course, boolean room) {
    Caution caution =
        new Caution.BlockMayFail(
            course.visits().get(0).injections().get(0).ref(),
            new Caution.Rescue("lidocaine-2-100", 1.5, room));
    return Courses.visit(course, 1, visit -> visit.withCautions(List.of(caution)));
  }

  private void assertRoom(boolean room) {
    assertClean(mayFail(plan(), room));
    assertOne(
        mayFail(plan(), !room),
        room
            ? "REPORT true report, visit 1: The plan says that there is no room for a second "
                + "inferior alveolar right, but there is some."
            : "REPORT true report, visit 1: The plan says that there is room for a second "
                + "inferior alveolar right, but there is none.");
  }

  /** A second block is 30 mg more, 66 in all, with 0.015 mg of epinephrine more, 0.033 in all. */
  @Test
  void aBlockMayBeRepeatedOnlyWhereTheDayLeavesRoom() {
    assertRoom(true);
    chart.weightKg = 66 / 4.4;
    assertRoom(true);
    chart.weightKg = 14.9;
    assertRoom(false);
    chart.weightKg = 70.0;
    practice.epinephrineCapMg = 0.033;
    assertRoom(true);
    practice.epinephrineCapMg = 0.032;
    assertRoom(false);
    practice.epinephrineCapMg = 0.2;
    practice.alert(
        AlertRule.of(Alert.HEART_DISEASE, "made up for a test").withEpinephrineCapMg(figure(0.03)));
    chart.alert(Alert.HEART_DISEASE);
    assertRoom(false);
  }

  @Test
  void whatWasGivenEarlierMustBeAnAgentOfThePractice() {
    Before before =
        new Before(
            new TreeSet<>(),
            DoneWork.NONE,
            List.of(new GivenInjection("long buccal", Quadrant.LR, null, "unheard-of", 0.3)),
            new TreeMap<>(),
            new TreeMap<>());
    assertEquals(
        List.of(
            "H3 dose: The practice does not know unheard-of, which was given earlier that day, so"
                + " no maximum dose holds."),
        Audit.audit(plan(), before, chart.build(), practice.build()).stream()
            .map(Finding::line)
            .toList());
  }

  @Test
  void doseOfGelInAQuadrant() {
    practice.gelOwned = true;
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .gel()
        .step(LR, GROSS, FACIAL)
        .gel()
        .step(LR, GROSS, LINGUAL)
        .gel()
        .step(LR, FINE, LINGUAL)
        .gel()
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H3 dose, visit 1: 2 cartridges of pocket gel go into LR; a quadrant may have 1.");
  }

  /** A cartridge into LR in each visit; and 4.5 that went into LL before. */
  @Test
  void doseOfGelOverTheDay() {
    Before before =
        new Before(
            new TreeSet<>(),
            DoneWork.NONE,
            List.of(),
            new TreeMap<>(Map.of(Quadrant.LL, 4.5)),
            new TreeMap<>());
    List<String> found = audit(gelled(), before);
    assertTrue(
        found.contains(
            "H3 dose, visit 1: The doses come to 110.0 % of the maximum: 5.5 of 5 of pocket gel."),
        found.toString());
    practice.gapMinDays = 0;
    found = audit(gelled());
    assertTrue(
        found.contains(
            "H3 dose, visit 2: 2 cartridges of pocket gel go into LR; a quadrant may have 1."),
        found.toString());
  }

  @Test
  void doseOfAnAgentThatThePracticeDoesNotGive() {
    practice.preferredAgents = List.of("prilocaine-4");
    assertOne(
        plan(),
        "H3 dose, visit 1: The practice does not give lidocaine-2-100, "
            + "so no maximum dose of it holds here.");
  }

  // ---- H4

  @Test
  void length() {
    practice.longestVisitMinutes = 31;
    assertOne(
        plan(),
        "H4 length, visit 1: The visit must be booked for 32 minutes; "
            + "the practice's longest visit is 31.");
  }

  /** As long as may be; and of equal limits the practice's own is named. */
  @Test
  void lengthUpToTheLimit() {
    practice.longestVisitMinutes = 32;
    assertClean(plan());
    practice.longestVisitMinutes = 31;
    chart.longestVisitMinutes = 31;
    practice.alert(AlertRule.of(Alert.PREGNANCY, "made up").withLongestVisitMinutes(figure(31)));
    chart.alert(Alert.PREGNANCY);
    assertOne(
        plan(),
        "H4 length, visit 1: The visit must be booked for 32 minutes; "
            + "the practice's longest visit is 31.");
  }

  @Test
  void lengthForThePatientAndUnderAnAlert() {
    chart.longestVisitMinutes = 30;
    assertOne(
        plan(),
        "H4 length, visit 1: The visit must be booked for 32 minutes; "
            + "the longest that the patient can sit through is 30.");
    practice.alert(AlertRule.of(Alert.PREGNANCY, "made up").withLongestVisitMinutes(figure(28)));
    chart.alert(Alert.PREGNANCY);
    assertOne(
        plan(),
        "H4 length, visit 1: The visit must be booked for 32 minutes; "
            + "the longest under the alert pregnancy is 28.");
  }

  // ---- H5

  @Test
  void orderOfPasses() {
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, FINE, LINGUAL, 552)
        .step(LR, FINE, FACIAL)
        .step(LR, GROSS, FACIAL)
        .step(LR, GROSS, LINGUAL);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H5 order of passes, visit 1: In LR posterior the fine pass starts before the gross pass "
            + "has ended.");
  }

  @Test
  void orderOfPassesOverVisits() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).step(UR, FINISHING, BOTH);
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UL, IMPLANT_CARE, BOTH);
    assertOne(
        plan.course(),
        "H5 order of passes, visit 1: In UR anterior the finishing pass starts before the fine "
            + "pass has ended.");
  }

  // ---- H6

  @Test
  void together() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).step(UR, FINE, LINGUAL);
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertOne(
        plan.course(), "H6 together: The fine pass of UR anterior is split over the visits 1, 2.");
  }

  // ---- wishes

  private static Course stated(Course course, String wish, WishOutcome.State state) {
    return course.withWishes(List.of(new WishOutcome(wish(wish), state)));
  }

  private static Wish wish(String sentence) {
    return WishSentences.read(sentence, Numbering.ISO3950, (found, allowed) -> {}).orElseThrow();
  }

  private static Course costing(Course course, long wishes) {
    Map<CourseTerm, Long> terms = new LinkedHashMap<>(course.cost().terms());
    terms.put(CourseTerm.WISHES, wishes);
    return course.withCost(
        new Cost(course.cost().seconds() + wishes, course.cost().lowerBoundSeconds(), terms));
  }

  /** LR lies in the first visit, all else in the second. */
  @Test
  void eachWishThatMustBeKeptIsHeld() {
    for (String kept :
        List.of(
            "must LR posterior in visit 1",
            "must 36 and 11 together",
            "must LR and LL apart",
            "must LR first",
            "must no injection in LL",
            "must LR and LL first",
            "must not finest right-curved")) {
      assertClean(stated(plan(), kept, WishOutcome.State.KEPT));
    }
    for (String broken :
        List.of(
            "must LR posterior in visit 2",
            "must LR and LL together",
            "must UR and LL apart",
            "must UL first",
            "must no injection in LR posterior 46")) {
      List<String> findings = audit(stated(plan(), broken, WishOutcome.State.KEPT));
      assertTrue(
          findings.contains(
              "WISH wishes: A wish that must be kept is not: "
                  + wish(broken).words(Numbering.ISO3950)
                  + "."),
          findings::toString);
      assertTrue(
          audit(stated(plan(), broken, WishOutcome.State.NOT_KEPT)).toString().contains("WISH"));
    }
  }

  @Test
  void whatIsNotKeptCostsAndIsSaid() {
    String second = "rather LR in visit 2";
    assertClean(costing(stated(plan(), second, WishOutcome.State.NOT_KEPT), 600));
    assertOne(
        stated(plan(), second, WishOutcome.State.NOT_KEPT),
        "REPORT true report: The plan states as cost term wishes nothing; worked out again: 600"
            + " s.");
    assertOne(
        stated(plan(), second, WishOutcome.State.KEPT),
        "REPORT true report: The plan states of the wish (rather LR in visit 2) that it is kept,"
            + " which is not so.");
    assertOne(
        stated(plan(), "rather LR in visit 1", WishOutcome.State.NOT_KEPT),
        "REPORT true report: The plan states of the wish (rather LR in visit 1) that it is not"
            + " kept, which is not so.");
    assertOne(
        stated(plan(), second, WishOutcome.State.DROPPED),
        "REPORT true report: The plan states of the wish (rather LR in visit 2) that it is"
            + " dropped, which is not so.");
    assertOne(
        stated(plan(), second, WishOutcome.State.OTHER_NUMBER),
        "REPORT true report: The plan states of the wish (rather LR in visit 2) that it is other"
            + " number, which is not so.");
    assertOne(
        stated(plan(), second, WishOutcome.State.NOTHING_THERE),
        "REPORT true report: The plan states of the wish (rather LR in visit 2) that it is nothing"
            + " there, which is not so.");
    assertClean(costing(stated(plan(), "rather by hand", WishOutcome.State.NOT_KEPT), 600));
    assertTrue(
        audit(stated(plan(), "rather by hand", WishOutcome.State.KEPT), withHands())
            .contains(
                "REPORT true report: The plan states of the wish (rather by hand) that it is kept,"
                    + " which is not so."));
    assertClean(costing(stated(plan(), "rather numb first", WishOutcome.State.NOT_KEPT), 600));
    assertClean(stated(numbAtOnce(), "rather numb first", WishOutcome.State.KEPT));
    assertClean(stated(plan(), "must LR in visit 2 of 3", WishOutcome.State.OTHER_NUMBER));
    assertClean(stated(plan(), "must UR posterior in visit 1", WishOutcome.State.NOTHING_THERE));
    assertClean(stated(plan(), "rather not broad straight", WishOutcome.State.NOTHING_THERE));
    assertOne(
        stated(plan(), "rather not finest straight", WishOutcome.State.NOTHING_THERE),
        "REPORT true report: The plan states of the wish (rather not finest straight) that it is"
            + " nothing there, which is not so.");
  }

  /** Where another insert does as well, so that the work can be done without. */
  @Test
  void anInsertThatIsNotWishedIsNotUsed() {
    Practice built = practice.build();
    Map<String, Insert> inserts = new LinkedHashMap<>(built.inserts());
    inserts.put(
        "other slim",
        new Insert(
            "other slim",
            InsertClass.SLIM,
            Shank.STRAIGHT,
            Set.of(FINE),
            Set.of(Power.LOW),
            4,
            "made up"));
    List<SelectionRule> rows =
        built.selection().stream()
            .map(
                row ->
                    row.pass() == FINE
                        ? SmallPractice.row(FINE, List.of("slim straight", "other slim"), Power.LOW)
                        : row)
            .toList();
    List<String> found =
        audit(
            stated(plan(), "rather not slim straight", WishOutcome.State.KEPT),
            built.withInserts(inserts).withSelection(rows));
    assertTrue(
        found.contains(
            "REPORT true report: The plan states of the wish (rather not slim straight) that it is"
                + " kept, which is not so."),
        found.toString());
  }

  @Test
  void aWishOfTheChartThatThePlanDoesNotKnowIsFound() {
    Chart asked =
        chart
            .build()
            .withPatient(chart.build().patient().withWishes(List.of(wish("must LR in visit 2"))));
    assertEquals(
        List.of("WISH wishes: The plan does not know a wish: must LR in visit 2."),
        Audit.audit(plan(), asked, practice.build()).stream().map(Finding::line).toList());
  }

  /** Visits of a course that carries on have other numbers than those asked for. */
  @Test
  void aCourseThatCarriesOnMayDropAVisitsNumberAndNothingElse() {
    for (String sentence : List.of("must LR in visit 2", "must LR first")) {
      Chart asked =
          chart.build().withPatient(chart.build().patient().withWishes(List.of(wish(sentence))));
      List<String> found =
          Audit.audit(plan(), Before.NOTHING, asked, practice.build()).stream()
              .map(Finding::line)
              .toList();
      assertEquals(
          sentence.endsWith("first")
              ? List.of("WISH wishes: The plan does not know a wish: must LR first.")
              : List.of(),
          found);
    }
  }

  // ---- what was done before

  private static Before done(List<Integer> visits, double share) {
    return new Before(
        new TreeSet<>(visits),
        new DoneWork(
            new TreeMap<>(Map.of(new DoneWork.Part(Tooth.ofIso(36), FINE, Aspect.FACIAL), share))),
        List.of(),
        new TreeMap<>(),
        new TreeMap<>());
  }

  private List<String> audit(Course course, Before before) {
    return Audit.audit(PlanFile.of(course), before, chart.build(), practice.build()).stream()
        .map(Finding::line)
        .toList();
  }

  @Test
  void whatWasDoneIsNotDoneAgain() {
    String again =
        "WORK all work once, visit 2: The step LL posterior, fine, facial (36) was done at tooth 36"
            + " before.";
    assertTrue(audit(plan(), done(List.of(), 1)).contains(again));
    assertFalse(audit(plan(), done(List.of(), 0.5)).contains(again));
  }

  @Test
  void visitsOfACourseThatCarriesOnHaveNumbersOfTheirOwn() {
    String taken =
        "REPORT true report, visit 1: The plan states as number of the visit 1; worked out again:"
            + " one after 0 that is not used.";
    assertTrue(audit(plan(), done(List.of(1), 0.5)).contains(taken));
    Course later = Courses.parts(plan(), 2, visit -> visit.number = 4);
    assertTrue(
        audit(later, done(List.of(3), 0.5)).stream().noneMatch(one -> one.contains("number of")));
    Course twice = Courses.parts(later, 1, visit -> visit.number = 4);
    assertTrue(
        audit(twice, done(List.of(3), 0.5))
            .contains(
                "REPORT true report, visit 2: The plan states as number of the visit 4; worked out"
                    + " again: one after 4 that is not used."));
  }

  // ---- H11

  private Course finishedLater() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UL, IMPLANT_CARE, BOTH);
    plan.visit().step(UR, FINISHING, BOTH);
    return plan.course();
  }

  @Test
  void begunIsFinished() {
    assertOne(
        finishedLater(),
        "H11 begun is finished: The passes of UR anterior lie in the visits 2 to 3, not in one.");
  }

  @Test
  void begunIsFinishedWithinDays() {
    practice.gapMinDays = 7;
    practice.passesTogether = new PassesTogether(6);
    assertOne(
        finishedLater(),
        "H11 begun is finished: The passes of UR anterior lie in the visits 2 to 3, which take "
            + "more than 6 days.");
    practice.passesTogether = new PassesTogether(7);
    assertClean(finishedLater());
  }

  @Test
  void begunNeedNotBeFinishedWhereThePracticeSaysSo() {
    practice.passesTogether = PassesTogether.FREE;
    assertClean(finishedLater());
  }

  @Test
  void whatIsLeftOpenIsPriced() {
    practice.passesTogether = PassesTogether.FREE;
    practice.areaLeftOpen = 300;
    assertOne(
        finishedLater(),
        "REPORT true report: The plan states as cost term areas left open nothing; worked out "
            + "again: 300 s.");
    practice.passesTogether = PassesTogether.SAME_VISIT;
    assertClean(plan());
  }

  /** Where the gross pass comes first, areas are left open whatever the practice asks else. */
  @Test
  void whatIsLeftOpenIsPricedWhereTheGrossPassComesFirst() {
    practice.areaLeftOpen = 300;
    assertOne(
        finishedLater().withPassesTogether(PassesTogether.FREE).withGrossFirst(true),
        "REPORT true report: The plan states as cost term areas left open nothing; worked out "
            + "again: 300 s.");
  }

  @Test
  void aPlanMadeBeforeTheRuleIsNotHeldToIt() {
    Course course = finishedLater().withPassesTogether(null);
    assertFalse(Audit.heldToFinish(course));
    assertClean(course);
  }

  @Test
  void aPlanStatesTheRuleThatThePracticeAsksFor() {
    assertOne(
        plan().withPassesTogether(PassesTogether.FREE),
        "REPORT true report: The plan states as rule for the passes of an area free; asked for: "
            + "same-visit.");
  }

  @Test
  void aPlanThatTakesTheGrossPassFirstDoes() {
    Course stated = finishedLater().withPassesTogether(PassesTogether.FREE).withGrossFirst(true);
    assertFalse(Audit.heldToFinish(stated));
    assertClean(stated);
    PlanBuilder late = builder().worstLate(120);
    rest(late.visit());
    lowerRight(late.visit());
    assertOne(
        late.course().withPassesTogether(PassesTogether.FREE).withGrossFirst(true),
        "H5 order of passes, visit 1: A later pass starts before the gross pass of the whole mouth "
            + "has ended, which was to come first.");
  }

  // ---- H7

  @Test
  void implantsTakeOneNewSleeve() {
    assertOne(
        Courses.parts(plan(), 2, visit -> visit.sleeves = 0),
        "H7 implants, visit 2: The visit has 0 implant sleeves, where 1 new one is due.");
    assertOne(
        Courses.parts(plan(), 1, visit -> visit.sleeves = 1),
        "H7 implants, visit 1: The visit has 1 implant sleeves, where 0 are due.");
  }

  @Test
  void implantsTakeTheSleevedInsertAtLowPowerOnly() {
    String only =
        "; only a sleeved insert at low power may, or hand instruments made for implants.";
    assertOne(
        step(plan(), UL, BOTH, step -> tool(step, "finest straight", Power.LOW)),
        "H7 implants, visit 2: The step UL posterior, implant-care, both (26) touches an implant "
            + "with finest straight at low power"
            + only);
    assertOne(
        step(plan(), UL, BOTH, step -> tool(step, "sleeved for implants", Power.MEDIUM)),
        "H7 implants, visit 2: The step UL posterior, implant-care, both (26) touches an implant "
            + "with sleeved for implants at medium power"
            + only);
  }

  @Test
  void implantsAreLeftOutOfOtherSteps() {
    chart.natural(25, Deposit.LIGHT, 3);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    rest(plan.visit()).step(UL, FINE, LINGUAL).step(UL, FINE, FACIAL);
    assertClean(plan.course());
    assertOne(
        step(plan.course(), UL, FACIAL, step -> teeth(step, 25, 26)),
        "H7 implants, visit 2: The step UL posterior, fine, facial (25 26) touches an implant with"
            + " slim straight at low power; only a sleeved insert at low power may, or hand"
            + " instruments made for implants.");
  }

  @Test
  void implantsTakeWhatIsMadeForThem() {
    Practice built = practice.build();
    Entry.Debride step =
        plan().visits().get(1).steps().stream()
            .filter(one -> one.pass() == IMPLANT_CARE)
            .findFirst()
            .orElseThrow();
    for (InsertClass type : InsertClass.values()) {
      for (Power power : Power.values()) {
        boolean good =
            type == InsertClass.SLEEVED && power == Power.LOW
                || type == InsertClass.HAND_IMPLANT && power == Power.NONE;
        assertEquals(
            !good,
            WorkCheck.touchesImplantBadly(
                tool(step, step.insert(), power),
                new Facts(chart.build(), built.withInserts(classed(built, type)))),
            type + " " + power);
      }
    }
  }

  private static Map<String, Insert> classed(Practice built, InsertClass type) {
    Map<String, Insert> inserts = new LinkedHashMap<>();
    built
        .inserts()
        .forEach(
            (name, one) ->
                inserts.put(
                    name,
                    new Insert(
                        name,
                        type,
                        one.shank(),
                        one.passes(),
                        one.powers(),
                        one.sterileSets(),
                        one.source())));
    return inserts;
  }

  /** With instruments and rows for work by hand beside those of the unit. */
  private Practice withHands() {
    Practice built = practice.build();
    Map<String, Insert> inserts = new LinkedHashMap<>(built.inserts());
    List<SelectionRule> rows = new ArrayList<>(built.selection());
    for (Pass pass : Pass.values()) {
      String name = pass == IMPLANT_CARE ? "hand for implants" : "hand scaler";
      inserts.put(
          name,
          new Insert(
              name,
              pass == IMPLANT_CARE ? InsertClass.HAND_IMPLANT : InsertClass.HAND,
              Shank.STRAIGHT,
              Set.of(Pass.values()),
              Set.of(Power.NONE),
              4,
              "made up"));
      rows.add(SmallPractice.row(pass, name, Power.NONE));
    }
    return built.withInserts(inserts).withSelection(rows);
  }

  @Test
  void workByHandIsWhatAnAlertOrAWishAsksFor() {
    String step = "H10 alerts, visit 2: The step LL posterior, fine, facial (36) is done ";
    String byHand = step + "by hand, which no alert or wish asks for.";
    String byUnit = step + "with the unit, though an alert or a wish asks for work by hand.";
    assertEquals(List.of(), audit(plan(), withHands()));
    List<String> found =
        audit(step(plan(), LL, FACIAL, s -> tool(s, "hand scaler", Power.NONE)), withHands());
    assertTrue(found.contains(byHand), found.toString());
    Course rather = stated(plan(), "rather by hand", WishOutcome.State.NOT_KEPT);
    assertFalse(audit(rather, withHands()).contains(byUnit));
    Course must = stated(plan(), "must by hand", WishOutcome.State.NOT_KEPT);
    assertTrue(audit(must, withHands()).contains(byUnit), audit(must, withHands()).toString());
    Course course = plan();
    practice.alert(AlertRule.of(Alert.PACEMAKER, "made up").withByHand(true));
    chart.alert(Alert.PACEMAKER);
    assertTrue(audit(course, withHands()).contains(byUnit));
    assertTrue(
        audit(course)
            .contains(
                "WORK all work once: LL posterior, fine, facial (36): the practice owns no insert"
                    + " that may be used."),
        audit(course).toString());
  }

  /** Instruments in the hand are laid down and taken up without the minute of a tip. */
  @Test
  void workByHandChangesNoTip() {
    practice.alert(AlertRule.of(Alert.PACEMAKER, "made up").withByHand(true));
    chart.alert(Alert.PACEMAKER);
    PlanBuilder plan = new PlanBuilder(chart.build(), withHands());
    rest(plan.visit());
    List<String> found = audit(plan.course(), withHands());
    assertTrue(
        found.contains(
            "CLOCK minutes, visit 1: The tip change before the step UL posterior, implant-care,"
                + " both (26) takes 60 s, but 0 s are due."),
        found.toString());
    assertTrue(
        found.contains("H7 implants, visit 1: The visit has 1 implant sleeves, where 0 are due."),
        found.toString());
    assertTrue(found.stream().noneMatch(one -> one.startsWith("H10")), found.toString());
  }

  // ---- H8

  @Test
  void numbnessIsGiven() {
    chart.natural(24, Deposit.LIGHT, 6);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    rest(plan.visit())
        .inject("upper infiltration", Quadrant.UL, 24, "lidocaine-2-100")
        .step(UL, FINE, FACIAL, 45)
        .step(UL, FINE, LINGUAL);
    // Burden of UL 18 too: 120 s more.
    assertOne(
        plan.worstLate(160).course(),
        "H8 numbness lasts, visit 2: The step UL posterior, fine, lingual (24) has no injection "
            + "that numbs the lingual gingiva of 24.");
  }

  @Test
  void numbnessHasTaken() {
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, GROSS, FACIAL, 239)
        .step(LR, GROSS, LINGUAL)
        .step(LR, FINE, LINGUAL, 138)
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H8 numbness lasts, visit 1: The step LR posterior, gross, facial (46) starts at minute "
            + "16.78, but the facial gingiva of 46, by long buccal right, is numb only from minute "
            + "16.80.");
  }

  @Test
  void numbnessLasts() {
    practice.pulpalMinutes = 12;
    assertOne(
        plan(),
        "H8 numbness lasts, visit 1: The step LR posterior, fine, facial (44 46) ends at minute "
            + "25.65, but the pulp of 46, by inferior alveolar right, is numb only until minute "
            + "24.00.");
  }

  /** The facial step ends at 1539 s, 819 s after the block was in. */
  @Test
  void numbnessLastsUntilTheStepEnds() {
    practice.pulpalMinutes = 819 / 60.0;
    assertClean(plan());
  }

  @Test
  void numbnessByGelOnlyWhereItReaches() {
    practice.gelOwned = true;
    chart.natural(46, Deposit.HEAVY, 7);
    PlanBuilder plan = builder();
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .gel()
        .step(LR, GROSS, FACIAL)
        .step(LR, GROSS, LINGUAL, 7)
        .step(LR, FINE, LINGUAL, 137)
        .step(LR, FINE, FACIAL)
        .step(LR, FINISHING, BOTH);
    rest(plan.visit());
    // Burden of LR 24: 120 s x 6/24.
    assertEquals(
        "H8 numbness lasts, visit 1: The step LR posterior, gross, facial (46) has pocket gel, but "
            + "a site of 46 is 7 mm deep.",
        audit(plan.worstLate(30).course()).get(0));
  }

  /** Gel at 600 to 660 s, with 30 s of onset and 14 minutes of lasting. */
  private Course gelled() {
    practice.gelOwned = true;
    practice.passesTogether = PassesTogether.FREE;
    PlanBuilder plan = builder();
    plan.visit()
        .gel()
        .step(LR, GROSS, FACIAL)
        .gel()
        .step(LR, GROSS, LINGUAL)
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL);
    PlanBuilder.VisitBuilder second = plan.visit();
    second.gel().step(LR, FINE, FACIAL).gel().step(LR, FINE, LINGUAL);
    second.step(UR, FINE, LINGUAL).step(UR, FINE, FACIAL).step(UR, FINISHING, BOTH);
    second.step(UL, IMPLANT_CARE, BOTH);
    return plan.worstLate(120).course();
  }

  private static Course firstGelWaits(Course course, int seconds) {
    return relaid(
        course,
        1,
        sequence -> {
          Entry wait = first(sequence, Entry.Wait.class);
          sequence.set(sequence.indexOf(wait), AtAnotherTime.entry(wait, 0, seconds));
          return sequence;
        });
  }

  @Test
  void numbnessByGelOnceItHasTaken() {
    assertClean(gelled());
    assertEquals(
        "H8 numbness lasts, visit 1: The step LR posterior, gross, facial (46) starts at minute"
            + " 11.48, but the gel is numb only from minute 11.50.",
        audit(firstGelWaits(gelled(), 29)).get(0));
  }

  /** A clock that does not hold is told as that alone, since no time in it can be judged. */
  @Test
  void numbnessByGelIsNotJudgedByAClockThatDoesNotHold() {
    Course course =
        Courses.parts(
            gelled(),
            1,
            visit -> {
              Entry wait = first(visit.sequence, Entry.Wait.class);
              visit.sequence.remove(wait);
            });
    List<String> findings = audit(course);
    assertTrue(findings.stream().anyMatch(one -> one.startsWith("CLOCK")), findings.toString());
    assertTrue(findings.stream().noneMatch(one -> one.startsWith("H8")), findings.toString());
  }

  @Test
  void gelIsPutWhereAStepRightAfterItMustBeNumb() {
    practice.gelOwned = true;
    Course course =
        relaid(
            plan(),
            2,
            sequence -> {
              sequence.add(
                  1, new Entry.ApplyGel(0, 60, "pocket gel", AreaRef.of(LL), StepAspect.FACIAL));
              return sequence;
            });
    assertTrue(
        audit(course)
            .contains(
                "WORK all work once, visit 2: pocket gel LL posterior facial serves no step right"
                    + " after it that must be numb."),
        audit(course).toString());
  }

  @Test
  void clockWithGelAsLongAsItTakes() {
    List<String> findings =
        audit(relaid(gelled(), 1, sequence -> lengthen(sequence, Entry.ApplyGel.class, 30)));
    assertEquals(1, findings.size(), findings.toString());
    assertTrue(findings.get(0).contains("takes 90 s, but 60 s are due"), findings.get(0));
  }

  /** The wait of a gel names the gel, and a wait for injections says whose. */
  @Test
  void aWaitSaysWhatItWaitsFor() {
    List<String> findings =
        audit(
            relaid(
                gelled(),
                1,
                sequence -> {
                  Entry wait = first(sequence, Entry.Wait.class);
                  sequence.set(
                      sequence.indexOf(wait), new Entry.Wait(0, 30, new Awaited.Gel("other gel")));
                  return sequence;
                }));
    assertEquals(1, findings.size(), findings.toString());
    assertTrue(findings.get(0).contains("is for something else"), findings.get(0));
    List<String> none =
        audit(
            relaid(
                plan(),
                1,
                sequence -> {
                  Entry wait = first(sequence, Entry.Wait.class);
                  sequence.set(
                      sequence.indexOf(wait),
                      new Entry.Wait(0, wait.seconds(), new Awaited.Numbness(List.of())));
                  return sequence;
                }));
    assertEquals(1, none.size(), none.toString());
    assertTrue(none.get(0).contains("is for something else"), none.get(0));
  }

  /**
   * The palate of 11 by the nasopalatine on the left, numb before the wait; pulp and facial side by
   * the infiltration on the right, which alone is waited for.
   */
  @Test
  void aWaitNeedNotNameWhatIsNumbAlready() {
    practice.passesTogether = PassesTogether.FREE;
    chart.natural(11, Deposit.LIGHT, 6);
    PlanBuilder plan = builder();
    lowerRight(plan.visit());
    plan.visit()
        .inject("nasopalatine", Quadrant.UL)
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UL, IMPLANT_CARE, BOTH)
        .inject("upper infiltration", Quadrant.UR, 11, "lidocaine-2-100")
        .step(UR, FINE, LINGUAL, 30)
        .step(UR, FINE, FACIAL);
    for (Quadrant named : List.of(Quadrant.UR, Quadrant.UL)) {
      List<String> found =
          clock(
              relaid(
                  plan.course(),
                  2,
                  sequence -> {
                    Entry wait = first(sequence, Entry.Wait.class);
                    sequence.set(
                        sequence.indexOf(wait),
                        new Entry.Wait(0, 30, new Awaited.Numbness(List.of(named))));
                    return sequence;
                  }));
      assertEquals(named == Quadrant.UR ? 0 : 1, found.size(), found.toString());
    }
  }

  // ---- practices whose agents and injections say more of themselves

  private Practice agents(UnaryOperator<Agent> change) {
    Practice built = practice.build();
    Map<String, Agent> agents = new LinkedHashMap<>(built.agents());
    agents.replaceAll((name, agent) -> change.apply(agent));
    return built.withAgents(agents);
  }

  private Practice alveolar(UnaryOperator<Injection> change) {
    Practice built = practice.build();
    Map<String, Injection> injections = new LinkedHashMap<>(built.injections());
    injections.computeIfPresent("inferior alveolar", (name, one) -> change.apply(one));
    return built.withInjections(injections);
  }

  private List<String> audit(Course course, Practice by) {
    return Audit.audit(course, chart.build(), by).stream().map(Finding::line).toList();
  }

  private static Agent fromAgeAndAt(Agent agent, Double fromAge, Double price) {
    return new Agent(
        agent.name(),
        agent.words(),
        agent.drug(),
        agent.vasoconstrictor(),
        agent.mgPerMl(),
        agent.epinephrineMgPerMl(),
        agent.cartridgeMl(),
        agent.limits(),
        agent.pulpalMinutes(),
        agent.softTissueMinutes(),
        agent.onsetMinutes(),
        fromAge == null ? null : figure(fromAge),
        price == null ? null : figure(price),
        agent.lowerBlockPulpalMinutes(),
        agent.amide());
  }

  @Test
  void anAgentForPatientsFromAnAgeOn() {
    Practice adults = agents(agent -> fromAgeAndAt(agent, 18.0, null));
    chart.ageYears = 18;
    assertEquals(List.of(), audit(plan(), adults));
    chart.ageYears = 17;
    String finding =
        "H10 alerts, visit 1: The visit gives lidocaine-2-100, which is for patients from 18 years"
            + " on; the patient's age is ";
    assertEquals(List.of(finding + "17."), audit(plan(), adults));
    chart.ageYears = null;
    assertEquals(List.of(finding + "not known."), audit(plan(), adults));
  }

  /** The deep lower block has the price, the superficial one beside it has none. */
  @Test
  void theCostHoldsAStrongAgentInALowerBlock() {
    assertEquals(
        List.of(
            "REPORT true report: The plan states as cost term injections 120 s; worked out again:"
                + " 220 s."),
        audit(plan(), agents(agent -> fromAgeAndAt(agent, null, 100.0))));
    PlanBuilder upper = builder();
    lowerRight(upper.visit()).inject("greater palatine", Quadrant.UR);
    rest(upper.visit());
    assertTrue(
        audit(upper.course(), agents(agent -> fromAgeAndAt(agent, null, 100.0)))
            .contains(
                "REPORT true report: The plan states as cost term injections 180 s; worked out"
                    + " again: 280 s."));
  }

  @Test
  void theCostHoldsABlockThatCouldNotBeRepeated() {
    practice.noRoomToRepeat = 50;
    Practice mayFail = alveolar(one -> one.withFailureShare(figure(0.2)));
    List<String> found = audit(plan(), mayFail);
    assertTrue(found.stream().noneMatch(one -> one.contains("cost term")), found.toString());
    // 66 mg with a second one.
    chart.weightKg = 14.9;
    assertNoRoom(mayFail, 50);
    // Of 39.6 mg 36 are given; neither a second block fits, nor 6 mg by the long buccal.
    chart.weightKg = 9.0;
    Map<String, Injection> both = new LinkedHashMap<>(mayFail.injections());
    both.computeIfPresent("long buccal", (name, one) -> one.withFailureShare(figure(0.2)));
    assertNoRoom(mayFail.withInjections(both), 100);
  }

  private void assertNoRoom(Practice by, int seconds) {
    List<String> found = audit(plan(), by);
    assertTrue(
        found.stream()
            .anyMatch(
                one -> one.contains("cost term") && one.endsWith("again: " + seconds + " s.")),
        found.toString());
  }

  @Test
  void numbnessIsNotCountedOnWhereItIsNotDependable() {
    String finding =
        "H8 numbness lasts, visit 1: The step LR posterior, fine, lingual (44 46) has no injection"
            + " that numbs the pulp of 46.";
    for (List<String> drugs : List.of(List.<String>of(), List.of("lidocaine"))) {
      List<String> found = audit(plan(), undependable(Injection.Tissue.PULP, 6, drugs));
      assertTrue(found.contains(finding), found.toString());
    }
    assertEquals(
        List.of(), audit(plan(), undependable(Injection.Tissue.PULP, 6, List.of("prilocaine"))));
    assertEquals(List.of(), audit(plan(), undependable(Injection.Tissue.PULP, 7, List.of())));
    assertFalse(audit(plan(), undependable(Injection.Tissue.LINGUAL, 6, List.of())).isEmpty());
    assertEquals(List.of(), audit(plan(), undependable(Injection.Tissue.FACIAL, 6, List.of())));
  }

  private Practice undependable(Injection.Tissue tissue, int position, List<String> drugs) {
    return alveolar(
        one ->
            one.withNotDependable(
                List.of(new Injection.NotDependable(tissue, List.of(position), drugs, "made up"))));
  }

  /** 1.5 mL that numb the pulp for 12 minutes, from 720 s on; another volume says nothing of it. */
  @Test
  void numbnessLastsAsLongAsItsVolume() {
    assertTrue(
        audit(
                plan(),
                alveolar(
                    one -> one.withVolumes(List.of(new Injection.Volume(figure(1.5), figure(12))))))
            .get(0)
            .endsWith("by inferior alveolar right, is numb only until minute 24.00."));
    assertEquals(
        List.of(),
        audit(
            plan(),
            alveolar(
                one ->
                    one.withVolumes(
                        List.of(
                            new Injection.Volume(figure(1.5), null),
                            new Injection.Volume(figure(1.8), figure(12)))))));
  }

  @Test
  void reportOfAVolumeThatThePracticeDoesNotGive() {
    assertEquals(
        List.of(
            "REPORT true report, visit 1: The plan states as volume of the injection inferior"
                + " alveolar right 1.5 mL; worked out again: 1.2 or 1.8 mL."),
        audit(
            plan(),
            alveolar(
                one ->
                    one.withVolumes(
                        List.of(
                            new Injection.Volume(figure(1.2), null),
                            new Injection.Volume(figure(1.8), null))))));
  }

  @Test
  void reportOfInjectionsInTheOrderOfTheClock() {
    Course course =
        Courses.parts(plan(), 1, visit -> java.util.Collections.swap(visit.injections, 0, 1));
    assertOne(
        course,
        "REPORT true report, visit 1: The plan states as order of the injections long buccal right,"
            + " inferior alveolar right; worked out again: the clock's order.");
  }

  // ---- H9

  @Test
  void kits() {
    practice.kitHolds = 2;
    assertOne(
        plan(),
        "H9 kits, visit 2: The visit uses 3 inserts (slim straight, finest straight, sleeved for "
            + "implants), but a kit holds 2.");
  }

  @Test
  void kitsOfOneDay() {
    practice.gapMinDays = 0;
    practice.slimSets = 1;
    assertOne(
        plan(),
        "H9 kits: 2 visits on one day use slim straight, of which 1 is sterilised at the start of "
            + "the day.");
    practice.slimSets = 2;
    assertClean(plan());
  }

  /** The visits are on other days, but the first of them comes after another on its day. */
  @Test
  void kitsOpenedEarlierThatDay() {
    practice.slimSets = 1;
    Before before =
        new Before(
            new TreeSet<>(),
            DoneWork.NONE,
            List.of(),
            new TreeMap<>(),
            new TreeMap<>(Map.of("slim straight", 1)));
    Course course = plan();
    assertEquals(
        List.of(
            "H9 kits: 2 visits on one day, 1 of them earlier, use slim straight, of which 1 is"
                + " sterilised at the start of the day."),
        Audit.audit(course, before, chart.build(), practice.build()).stream()
            .map(Finding::line)
            .toList());
  }

  // ---- H10

  private static AlertRule forbids(Alert alert, List<String> what, boolean gel) {
    return AlertRule.of(alert, "made up for a test").withForbids(what).withForbidsGel(gel);
  }

  @Test
  void alertsForbidDrugs() {
    practice.alert(forbids(Alert.HEART_DISEASE, List.of("epinephrine"), false));
    chart.alert(Alert.HEART_DISEASE);
    assertOne(
        plan(),
        "H10 alerts, visit 1: The alert heart-disease forbids epinephrine, as in lidocaine-2-100.");
  }

  @Test
  void alertsCapEpinephrine() {
    practice.alert(
        AlertRule.of(Alert.HEART_DISEASE, "made up for a test")
            .withEpinephrineCapMg(figure(0.012)));
    chart.alert(Alert.HEART_DISEASE);
    assertOne(
        plan(),
        "H10 alerts, visit 1: The visit gives 0.018 mg of epinephrine; the cap of the alert "
            + "heart-disease is 0.012 mg.");
  }

  @Test
  void alertsSpaceVisits() {
    practice.alert(
        AlertRule.of(Alert.ENDOCARDITIS_RISK, "made up for a test").withMinGapDays(figure(10)));
    chart.alert(Alert.ENDOCARDITIS_RISK);
    assertOne(
        plan(),
        "H10 alerts: The alert endocarditis-risk asks for 10 days between visits; "
            + "the plan allows 7.");
    Course spaced = Courses.gap(plan(), 10, 14);
    assertClean(spaced);
    assertOne(
        spaced.withGapLeastDays(9),
        "H10 alerts: The alert endocarditis-risk asks for 10 days between visits; "
            + "the plan lets a deadline bring them down to 9.");
  }

  @Test
  void alertsForbidOneDay() {
    assertOne(
        plan().withGapLeastDays(0),
        "REPORT true report: The plan lets a deadline bring visits of several days to one day.");
    practice.gapMinDays = 0;
    practice.alert(AlertRule.of(Alert.DIABETES, "made up for a test").withForbidsOneDay(true));
    chart.alert(Alert.DIABETES);
    assertOne(plan(), "H10 alerts: The alert diabetes forbids all visits on one day.");
  }

  @Test
  void alertsForbidGelAndSoDoesAge() {
    practice.gelOwned = true;
    chart.ageYears = 17;
    PlanBuilder plan = new PlanBuilder(chart.build(), practice.build()).worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .gel()
        .step(LR, GROSS, FACIAL)
        .step(LR, GROSS, LINGUAL, 97)
        .step(LR, FINE, LINGUAL, 190)
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "H10 alerts, visit 1: The visit uses pocket gel, which is for patients from 18 years on; "
            + "the patient's age is 17.");
    chart.ageYears = 18;
    practice.alert(forbids(Alert.METHAEMOGLOBINAEMIA_RISK, List.of(), true));
    chart.alert(Alert.METHAEMOGLOBINAEMIA_RISK);
    assertOne(
        plan.course(),
        "H10 alerts, visit 1: The alert methaemoglobinaemia-risk forbids pocket gel.");
  }

  /** By a word for gel, by an amide, or by a drug that is in it; and by nothing else. */
  @Test
  void alertsForbidGelByItsDrugsToo() {
    Course course = gelled();
    practice.alert(AlertRule.of(Alert.DIABETES, "made up for a test"));
    chart.alert(Alert.DIABETES);
    assertClean(course);
    for (AlertRule rule :
        List.of(
            forbids(Alert.DIABETES, List.of(), true),
            forbids(Alert.DIABETES, List.of("prilocaine"), false),
            AlertRule.of(Alert.DIABETES, "made up").withForbidsAmides(true))) {
      practice.alert(rule);
      assertEquals(
          List.of(
              "H10 alerts, visit 1: The alert diabetes forbids pocket gel.",
              "H10 alerts, visit 2: The alert diabetes forbids pocket gel."),
          audit(course));
    }
  }

  @Test
  void gelThatThePracticeDoesNotHaveIsNotUsed() {
    Course course = gelled();
    practice.gelOwned = false;
    assertTrue(
        audit(course)
            .contains(
                "WORK all work once, visit 1: The visit uses pocket gel, which the practice does"
                    + " not have."),
        audit(course).toString());
  }

  @Test
  void alertsShowTheirCautions() {
    practice.alert(
        AlertRule.of(Alert.PACEMAKER, "made up for a test")
            .withCautions(List.of("Ask the cardiologist.")));
    chart.alert(Alert.PACEMAKER);
    assertOne(
        plan(),
        "H10 alerts: The plan does not show the caution of the alert pacemaker: "
            + "Ask the cardiologist.");
    List<Caution> shown = List.of(new Caution.AsWritten("Ask the cardiologist."));
    assertClean(plan().withCautions(shown));
    assertClean(Courses.visit(plan(), 2, visit -> visit.withCautions(shown)));
  }

  private Course asking(Course course, StopQuestion... questions) {
    return course.withVisits(
        course.visits().stream()
            .map(visit -> visit.withStopQuestions(List.of(questions)))
            .toList());
  }

  @Test
  void noAnaestheticWithoutAHistory() {
    chart.history = History.UNKNOWN;
    assertEquals(
        List.of(
            "H10 alerts, visit 1: The visit gives an anaesthetic, but nobody has taken the "
                + "patient's medical history."),
        audit(asking(plan(), StopQuestion.Known.TAKE_THE_HISTORY)));
  }

  @Test
  void everyVisitBeginsWithAHistoryThatNobodyHasTaken() {
    chart.history = History.UNKNOWN;
    assertEquals(
        List.of(1, 2),
        Audit.audit(plan(), chart.build(), practice.build()).stream()
            .filter(finding -> finding.line().contains("does not begin with taking"))
            .map(Finding::visit)
            .toList());
  }

  @Test
  void everyVisitAsksWhatStopsIt() {
    practice.alert(
        AlertRule.of(Alert.PACEMAKER, "made up").withStopQuestions(List.of("Which device?")));
    chart.alert(Alert.PACEMAKER);
    StopQuestion question = new StopQuestion.OfAlert(Alert.PACEMAKER, "Which device?");
    assertClean(asking(plan(), question));
    Course once =
        plan()
            .withVisits(
                List.of(
                    plan().visits().get(0).withStopQuestions(List.of(question)),
                    plan().visits().get(1)));
    assertOne(
        once,
        "H10 alerts, visit 2: The visit does not ask what stops it under the alert pacemaker: "
            + "Which device?");
  }

  @Test
  void alertsIncludeOthers() {
    practice.alert(
        AlertRule.of(Alert.ANTICOAGULANT, "made up").withIncludes(List.of(Alert.WARFARIN)));
    practice.alert(AlertRule.of(Alert.WARFARIN, "made up").withMinGapDays(figure(10)));
    chart.alert(Alert.ANTICOAGULANT);
    assertOne(
        plan(),
        "H10 alerts: The alert warfarin asks for 10 days between visits; the plan allows 7.");
  }

  @Test
  void alertsKeepVisitsTogether() {
    practice.alert(AlertRule.of(Alert.DIALYSIS, "made up").withMaxGapDays(figure(8)));
    chart.alert(Alert.DIALYSIS);
    assertOne(
        plan(),
        "H10 alerts: The alert dialysis allows at most 8 days between visits; the plan allows 14.");
    assertClean(Courses.gap(plan(), 7, 8));
  }

  @Test
  void alertsForbidAmides() {
    practice.alert(AlertRule.of(Alert.AMIDE_ALLERGY, "made up").withForbidsAmides(true));
    chart.alert(Alert.AMIDE_ALLERGY);
    assertOne(
        plan(),
        "H10 alerts, visit 1: The alert amide-allergy forbids amide anaesthetics, as "
            + "lidocaine-2-100 is.");
  }

  @Test
  void alertsWarnOfADrug() {
    practice.alert(
        AlertRule.of(Alert.LIVER_DISEASE, "made up").withWarns(Map.of("lidocaine", "Give less.")));
    chart.alert(Alert.LIVER_DISEASE);
    assertOne(
        plan(),
        "H10 alerts, visit 1: The visit gives lidocaine and does not warn of it under the alert "
            + "liver-disease: Give less.");
    practice.alert(
        AlertRule.of(Alert.LIVER_DISEASE, "made up").withWarns(Map.of("prilocaine", "Give less.")));
    assertClean(plan());
  }

  @Test
  void antibioticCoversAreCounted() {
    practice.alert(AlertRule.of(Alert.ENDOCARDITIS_RISK, "made up").withCountsCovers(true));
    chart.alert(Alert.ENDOCARDITIS_RISK);
    Caution two = new Caution.AntibioticCovers(Alert.ENDOCARDITIS_RISK, 2);
    assertClean(plan().withCautions(List.of(two)));
    assertOne(
        plan().withCautions(List.of(new Caution.AntibioticCovers(Alert.ENDOCARDITIS_RISK, 1))),
        "H10 alerts: The plan does not say that the alert endocarditis-risk takes an antibiotic "
            + "cover in each of its 2 visits.");
  }

  @Test
  void theCostHoldsWhatAlertsPrice() {
    // One of the two blocks is superficial.
    practice.alert(AlertRule.of(Alert.WARFARIN, "made up").withBlockPriceSeconds(figure(10)));
    practice.alert(
        AlertRule.of(Alert.ENDOCARDITIS_RISK, "made up").withVisitPriceSeconds(figure(100)));
    chart.alert(Alert.WARFARIN).alert(Alert.ENDOCARDITIS_RISK);
    List<String> findings = audit(plan());
    assertEquals(
        List.of(
            "REPORT true report: The plan states as cost term injections 120 s; worked out again:"
                + " 130 s.",
            "REPORT true report: The plan states as cost term visits nothing; worked out again: 200"
                + " s."),
        findings);
  }

  @Test
  void noAnaestheticWithoutAWeight() {
    chart.weightKg = null;
    assertOne(
        plan(),
        "H10 alerts, visit 1: The visit gives an anaesthetic, but the patient's weight is not "
            + "known.");
  }

  @Test
  void theFirstVisitStartsWhereAsked() {
    chart.startWith = Quadrant.LL;
    assertOne(
        plan(),
        "H10 alerts, visit 1: The first visit has no work in LL, the quadrant to start with.");
    chart.startWith = Quadrant.LR;
    assertClean(plan());
  }

  // ---- CLOCK

  @Test
  void clockWithoutGaps() {
    Course course = plan();
    int last = course.visits().get(1).sequence().size() - 1;
    assertOne(
        Courses.parts(
            course,
            2,
            v -> v.sequence.set(last, AtAnotherTime.entry(v.sequence.get(last), 1131, 300))),
        "CLOCK minutes, visit 2: The close entry starts at minute 18.85, but the one before it ends"
            + " at minute 18.75.");
  }

  @Test
  void clockWithStepsAsLongAsDue() {
    Course course = relaid(plan(), 2, sequence -> lengthen(sequence, Entry.Debride.class, 10));
    assertOne(
        course,
        "CLOCK minutes, visit 2: The step LL posterior, fine, facial (36) at minute 10.00 takes 58"
            + " s, but 48 s are due.");
  }

  @Test
  void clockWithTipChangesWhereDue() {
    Course without =
        relaid(
            plan(),
            2,
            sequence -> {
              sequence.remove(first(sequence, Entry.ChangeTip.class));
              return sequence;
            });
    assertOne(
        without,
        "CLOCK minutes, visit 2: The tip change before the step UR anterior, finishing, both (11) "
            + "takes 0 s, but 60 s are due.");
  }

  @Test
  void aTipChangeIsToTheInsertOfTheNextStep() {
    assertOne(
        relaid(
            plan(),
            2,
            sequence -> {
              Entry tip = first(sequence, Entry.ChangeTip.class);
              sequence.set(sequence.indexOf(tip), new Entry.ChangeTip(0, 60, "standard straight"));
              return sequence;
            }),
        "CLOCK minutes, visit 2: The tip change at minute 13.00 is to standard straight, but the "
            + "step after it uses finest straight.");
  }

  @Test
  void clockWithoutWorkAfterTheLastStep() {
    List<String> findings =
        audit(
            relaid(
                plan(),
                2,
                sequence -> {
                  sequence.add(sequence.size() - 1, new Entry.ChangeTip(0, 60, "slim straight"));
                  return sequence;
                }));
    assertTrue(
        findings.contains(
            "CLOCK minutes, visit 2: The tip change after the last step takes 60 s, but 0 s are"
                + " due."),
        findings.toString());
  }

  @Test
  void clockWithSetUpAsLongAsItTakes() {
    List<String> findings =
        audit(relaid(plan(), 2, sequence -> lengthen(sequence, Entry.SetUp.class, 60)));
    assertTrue(
        findings.stream().anyMatch(one -> one.contains("660 s, but 600 s are due")),
        findings.toString());
  }

  @Test
  void clockWithoutASetUpThatTakesNoTime() {
    practice.setUpMinutes = 0;
    String none = "The visit has a set-up, for which the practice takes no time.";
    assertEquals(
        List.of("CLOCK minutes, visit 1: " + none, "CLOCK minutes, visit 2: " + none),
        clock(plan()));
    Course without = plan();
    for (int visit : List.of(1, 2)) {
      without = relaid(without, visit, sequence -> sequence.subList(1, sequence.size()));
    }
    assertEquals(List.of(), clock(without));
  }

  /** 1.5 mL at half a millilitre a minute, and 30 s. */
  @Test
  void clockWithInjectionsAsSlowAsTheyAreGiven() {
    assertTrue(
        audit(plan(), alveolar(one -> one.withMlPerMinute(figure(0.5))))
            .contains(
                "CLOCK minutes, visit 1: The injection inferior alveolar right at minute 10.00"
                    + " takes 120 s, but 210 s are due."));
  }

  @Test
  void clockWithRepositioningWhereDue() {
    assertOne(
        relaid(plan(), 2, sequence -> lengthen(sequence, Entry.Reposition.class, 15)),
        "CLOCK minutes, visit 2: The repositioning before the step LL posterior, fine, lingual (36)"
            + " takes 30 s, but 15 s are due.");
  }

  @Test
  void clockWithoutNeedlessWaits() {
    assertOne(
        relaid(
            plan(),
            1,
            sequence -> {
              int last =
                  sequence.lastIndexOf(
                      new Entry.Wait(1183, 137, new Awaited.Numbness(List.of(Quadrant.LR))));
              sequence.set(last, AtAnotherTime.entry(sequence.get(last), 0, 157));
              return sequence;
            }),
        "CLOCK minutes, visit 1: The wait at minute 19.72 goes on until minute 22.33, but all is "
            + "numb at minute 22.00.");
    assertEquals(
        List.of(
            "CLOCK minutes, visit 1: The wait at minute 19.72 goes on until minute 22.02, but all"
                + " is numb at minute 22.00."),
        clock(
            relaid(
                plan(),
                1,
                sequence -> {
                  int last =
                      sequence.lastIndexOf(
                          new Entry.Wait(1183, 137, new Awaited.Numbness(List.of(Quadrant.LR))));
                  sequence.set(last, AtAnotherTime.entry(sequence.get(last), 0, 138));
                  return sequence;
                })));
    assertOne(
        relaid(
            plan(),
            2,
            sequence -> {
              sequence.add(1, new Entry.Wait(0, 30, new Awaited.Gel("pocket gel")));
              return sequence;
            }),
        "CLOCK minutes, visit 2: The wait at minute 10.00 waits for nothing.");
  }

  @Test
  void clockWithSetUpAndClose() {
    assertOne(
        relaid(
            plan(),
            2,
            sequence -> {
              sequence.remove(sequence.size() - 1);
              return sequence;
            }),
        "CLOCK minutes, visit 2: The visit must have one close, with which it ends.");
  }

  @Test
  void clockWithEveryInjectionOfTheList() {
    assertOne(
        relaid(
            plan(),
            1,
            sequence -> {
              sequence.remove(first(sequence, Entry.Inject.class));
              return sequence;
            }),
        "CLOCK minutes, visit 1: The clock never gives the injection inferior alveolar right.");
  }

  @Test
  void clockWithInjectionsAsLongAsTheirVolume() {
    assertOne(
        relaid(plan(), 1, sequence -> lengthen(sequence, Entry.Inject.class, -60)),
        "CLOCK minutes, visit 1: The injection inferior alveolar right at minute 10.00 takes 60 s, "
            + "but 120 s are due.");
  }

  // ---- WORK

  @Test
  void workIsAllDone() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UL, IMPLANT_CARE, BOTH);
    assertOne(
        plan.course(),
        "WORK all work once: The step UR anterior, finishing, both (11), finest straight, is"
            + " missing.");
  }

  @Test
  void workIsDoneOnce() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    rest(plan.visit()).step(UL, IMPLANT_CARE, BOTH);
    assertOne(
        plan.course(),
        "WORK all work once, visit 2: The step UL posterior, implant-care, both (26), sleeved for"
            + " implants is done twice.");
  }

  @Test
  void workIsOnlyWhatIsDue() {
    Course course =
        relaid(
            plan(),
            2,
            sequence -> {
              Entry.Debride step = (Entry.Debride) sequence.get(1);
              sequence.add(1, new Entry.Reposition(0, 30, AreaRef.of(LL), FACIAL));
              sequence.add(1, teeth(area(step, "UR posterior"), 18));
              return sequence;
            });
    // 78 s more: 1503 s in all, 348 of them working.
    Map<CourseTerm, Long> terms = new LinkedHashMap<>(course.cost().terms());
    terms.put(CourseTerm.CHAIR_TIME, 3342L);
    terms.put(CourseTerm.BALANCE, 84L);
    long sum = terms.values().stream().mapToLong(Long::longValue).sum();
    course =
        Courses.parts(
            Courses.cost(course, c -> new Cost(sum, 0, terms)),
            2,
            v -> {
              v.bookedMinutes = 26;
              v.overrunRisk = 0.1953;
            });
    assertOne(
        course,
        "WORK all work once, visit 2: The step UR posterior, fine, facial (18), slim straight is"
            + " not in the work: tooth 18 is planned-extraction.");
  }

  @Test
  void workIsDoneAsDue() {
    assertOne(
        step(plan(), UR, FACIAL, step -> tool(step, "standard straight", Power.LOW)),
        "WORK all work once, visit 2: The step UR anterior, fine, facial (11), standard straight"
            + " should be with slim straight.");
    assertOne(
        step(plan(), UR, FACIAL, step -> tool(step, "slim straight", Power.HIGH)),
        "WORK all work once, visit 2: The step UR anterior, fine, facial (11), slim straight should"
            + " be at low power.");
    assertOne(
        step(plan(), UR, FACIAL, step -> teeth(step, 11, 12)),
        "WORK all work once, visit 2: The step UR anterior, fine, facial (11 12), slim straight"
            + " should be on 11.");
    assertOne(
        step(plan(), UR, FACIAL, step -> area(step, "UR anterior 13-12")),
        "WORK all work once, visit 2: The step UR anterior 13-12, fine, facial (11), slim straight"
            + " should be in UR anterior.");
  }

  @Test
  void workIsHeldBackForATrueReasonOnly() {
    PlanBuilder plan = builder();
    rest(plan.visit());
    for (StepAspect aspect : List.of(FACIAL, LINGUAL)) {
      plan.holdBack(LR, GROSS, aspect);
      plan.holdBack(LR, FINE, aspect);
    }
    assertEquals(4, audit(plan.course()).size());
    assertEquals(
        "WORK all work once: The step LR posterior, gross, facial (46) is held back, but "
            + "nothing that it waits for is missing.",
        audit(plan.course()).get(0));
    chart.weightKg = null;
    assertClean(plan.course());
    Course more = plan.course();
    List<HeldBack> held = new ArrayList<>(more.heldBack());
    held.add(
        0,
        new HeldBack(
            AreaRef.of(LL), GROSS, FACIAL, List.of(Tooth.ofIso(36)), new HeldBack.NoWeight()));
    assertOne(
        Courses.with(more, more.visits(), more.cost(), held),
        "WORK all work once: The work held back (LL posterior, gross, facial, 36) is not in the"
            + " work.");
  }

  private static List<String> needless(List<String> found) {
    return found.stream().filter(one -> one.endsWith("waits for is missing.")).toList();
  }

  private PlanBuilder withoutLowerRight() {
    PlanBuilder plan = builder();
    for (StepAspect aspect : List.of(FACIAL, LINGUAL)) {
      plan.holdBack(LR, GROSS, aspect);
      plan.holdBack(LR, FINE, aspect);
    }
    return plan;
  }

  @Test
  void workThatNeedsNothingNumbIsNotHeldBackForWhatDoes() {
    chart.weightKg = null;
    PlanBuilder plan = withoutLowerRight().holdBack(LL, FINE, FACIAL).holdBack(LL, FINE, LINGUAL);
    plan.visit()
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertEquals(
        List.of(
            "WORK all work once: The step LL posterior, fine, facial (36) is held back, but nothing"
                + " that it waits for is missing.",
            "WORK all work once: The step LL posterior, fine, lingual (36) is held back, but"
                + " nothing that it waits for is missing."),
        needless(audit(plan.course())));
  }

  /** A gross pass that needs nothing numb may come before a fine one that waits, where it may. */
  @Test
  void aPassWaitsForLaterOnesOnlyWithItsWholeArea() {
    chart.weightKg = null;
    chart.natural(46, Deposit.MODERATE, 6);
    PlanBuilder plan = withoutLowerRight();
    rest(plan.visit());
    assertEquals(List.of(), needless(audit(plan.course())));
    practice.passesTogether = PassesTogether.FREE;
    assertEquals(2, needless(audit(plan.course())).size());
    PlanBuilder begun = builder();
    begun.holdBack(LR, FINE, FACIAL).holdBack(LR, FINE, LINGUAL);
    rest(begun.visit().step(LR, GROSS, FACIAL).step(LR, GROSS, LINGUAL));
    assertClean(begun.course());
    practice.passesTogether = PassesTogether.SAME_VISIT;
    assertOne(
        begun.course().withPassesTogether(PassesTogether.SAME_VISIT),
        "H11 begun is finished, visit 1: Work begins in LR posterior, of which a part is held"
            + " back.");
  }

  @Test
  void orderOfPassesOfWhichTheFirstIsHeldBack() {
    PlanBuilder plan = builder();
    plan.holdBack(LR, GROSS, FACIAL).holdBack(LR, GROSS, LINGUAL);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, FINE, LINGUAL, 552)
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    List<String> found = audit(plan.course());
    assertTrue(
        found.contains(
            "H5 order of passes, visit 1: In LR posterior the fine pass starts before the gross"
                + " pass is done, which is held back."),
        found.toString());
    // What is held back elsewhere holds nothing here.
    chart.weightKg = null;
    PlanBuilder elsewhere = withoutLowerRight();
    rest(elsewhere.visit());
    assertClean(elsewhere.course());
  }

  @Test
  void eachPassThatMustBeNumbWaitsByItself() {
    chart.weightKg = null;
    practice.passesTogether = PassesTogether.FREE;
    PlanBuilder plan = withoutLowerRight();
    rest(plan.visit());
    assertClean(plan.course());
  }

  @Test
  void workWaitsWhereNoInjectionMustBeGiven() {
    Map<String, Integer> needless = new LinkedHashMap<>();
    needless.put("must no injection in LR", 0);
    needless.put("rather no injection in LR", 4);
    needless.put("must no injection in LL", 4);
    needless.put("must LR first", 4);
    needless.forEach(
        (wish, number) -> {
          PlanBuilder plan = withoutLowerRight();
          rest(plan.visit());
          Course course = stated(plan.course(), wish, WishOutcome.State.KEPT);
          assertEquals(number, needless(audit(course)).size(), wish);
        });
  }

  /** The worst of what is done is the measure, and the quadrant to start with has no work now. */
  @Test
  void whatIsHeldBackIsNoMeasureOfTheRest() {
    chart.weightKg = null;
    chart.startWith = Quadrant.LR;
    PlanBuilder plan = withoutLowerRight().worstLate(120);
    plan.visit()
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    plan.visit().step(LL, FINE, FACIAL).step(LL, FINE, LINGUAL);
    assertClean(plan.course());
  }

  @Test
  void injectionsForStepsThatAreMissingAreNotReportedToo() {
    PlanBuilder plan = builder();
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, GROSS, LINGUAL)
        .step(LR, FINE, LINGUAL, 300);
    rest(plan.visit());
    List<String> found = audit(plan.course());
    assertEquals(
        2, found.stream().filter(one -> one.endsWith("is missing.")).count(), found.toString());
    assertTrue(found.stream().noneMatch(one -> one.contains("numbs nothing")), found.toString());
  }

  @Test
  void workOfAnAreaThatThePlanNeverNames() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH);
    assertOne(
        plan.course(),
        "WORK all work once: The step UL posterior, implant-care, both (26), sleeved for implants,"
            + " is missing.");
  }

  /** Shallow and sensitive: numb by gel where there is some, and by no needle. */
  @Test
  void aShallowSensitiveToothIsNumbByTheGelRightBeforeItsStep() {
    practice.gelOwned = true;
    chart.natural(46, Deposit.LIGHT, 3);
    chart.put(36, ToothStatus.NATURAL, Deposit.LIGHT, 4, Set.of(Feature.SENSITIVE));
    PlanBuilder plan = builder().worstLate(120);
    plan.visit().step(LR, FINE, FACIAL).step(LR, FINE, LINGUAL);
    PlanBuilder.VisitBuilder second = plan.visit();
    second.gel().step(LL, FINE, FACIAL).gel().step(LL, FINE, LINGUAL);
    second
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertClean(plan.course());
    PlanBuilder once = builder().worstLate(120);
    once.visit().step(LR, FINE, FACIAL).step(LR, FINE, LINGUAL);
    rest(once.visit().gel());
    assertOne(
        once.course(),
        "REPORT true report, visit 2: The plan states as need of numbness of the step LL posterior,"
            + " fine, lingual (36) true; worked out again: false.");
  }

  /** Of the steps that are still open, what was done otherwise is held against the most alike. */
  @Test
  void whatIsDoneOtherwiseIsHeldAgainstTheStepMostLikeIt() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UL, IMPLANT_CARE, BOTH);
    List<String> found =
        audit(step(plan.course(), UR, FACIAL, step -> tool(step, "slim straight", Power.HIGH)));
    assertTrue(
        found.contains(
            "WORK all work once, visit 2: The step UR anterior, fine, facial (11), slim straight"
                + " should be at low power."),
        found.toString());
    for (String missing :
        List.of("fine, lingual (11), slim straight", "finishing, both (11), finest straight")) {
      assertTrue(
          found.contains("WORK all work once: The step UR anterior, " + missing + ", is missing."),
          found.toString());
    }
  }

  /** The gross pass is on 46 alone, the fine one on 44 and 46; the fine one is called finishing. */
  @Test
  void whatHasTheSameTeethIsMoreLikeIt() {
    PlanBuilder plan = builder().worstLate(LATE);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step(LR, GROSS, LINGUAL, 252)
        .step(LR, FINE, LINGUAL, 190)
        .step(LR, FINE, FACIAL);
    rest(plan.visit());
    List<String> found =
        audit(
            step(
                plan.course(),
                LR,
                FACIAL,
                s ->
                    new Entry.Debride(
                        s.startSecond(),
                        s.seconds(),
                        s.area(),
                        s.aspect(),
                        FINISHING,
                        s.insert(),
                        s.power(),
                        s.needsNumb(),
                        s.teeth())));
    assertTrue(
        found.contains(
            "WORK all work once, visit 1: The step LR posterior, finishing, facial (44 46), slim"
                + " straight should be pass fine."),
        found.toString());
    assertTrue(
        found.contains(
            "WORK all work once: The step LR posterior, gross, facial (46), standard straight, is"
                + " missing."),
        found.toString());
  }

  private void assertHeldFor(HeldBack.Reason reason, boolean holds) {
    assertEquals(
        holds ? 0 : 4, findings(reason, "is held back for another reason."), reason.toString());
  }

  /** How many findings on a plan that holds four steps back for a reason end so. */
  private long findings(HeldBack.Reason reason, String ending) {
    return findings(reason, ending, course -> course);
  }

  private long findings(HeldBack.Reason reason, String ending, UnaryOperator<Course> change) {
    PlanBuilder plan = withoutLowerRight();
    rest(plan.visit());
    Course course = change.apply(plan.course());
    List<HeldBack> held =
        course.heldBack().stream()
            .map(one -> new HeldBack(one.area(), one.pass(), one.aspect(), one.teeth(), reason))
            .toList();
    return audit(course.withHeldBack(held)).stream().filter(one -> one.endsWith(ending)).count();
  }

  private void assertHeldForAWish(boolean holds) {
    assertEquals(
        holds ? 0 : 4,
        findings(
            new HeldBack.NoInjectionWished(),
            "is held back for another reason.",
            course -> stated(course, "must no injection in LR", WishOutcome.State.KEPT)));
  }

  @Test
  void aWishIsWhatIsWaitedForWhereNothingElseIs() {
    assertHeldForAWish(true);
    chart.weightKg = null;
    assertHeldForAWish(false);
    chart.weightKg = 70.0;
    chart.history = History.UNKNOWN;
    assertHeldForAWish(false);
    chart.history = History.of(Set.of());
    practice.alert(forbids(Alert.DIABETES, List.of("lidocaine", "prilocaine"), false));
    chart.alert(Alert.DIABETES);
    assertHeldForAWish(false);
  }

  @Test
  void whatIsHeldBackSaysWhatItTrulyWaitsFor() {
    chart.weightKg = null;
    assertHeldFor(new HeldBack.NoWeight(), true);
    assertHeldFor(new HeldBack.Follows(new HeldBack.NoWeight()), true);
    assertHeldFor(new HeldBack.WholeArea(new HeldBack.NoWeight()), true);
    assertHeldFor(new HeldBack.AsWritten("in the words of an old file"), true);
    assertHeldFor(new HeldBack.NoHistory(), false);
    assertHeldFor(new HeldBack.Follows(new HeldBack.NoHistory()), false);
    assertHeldFor(new HeldBack.WholeArea(new HeldBack.NoHistory()), false);
    assertHeldFor(new HeldBack.NoInjectionWished(), false);
    assertHeldFor(new HeldBack.NoAgent(refused("lidocaine-2-100", "prilocaine-4")), false);
    assertHeldFor(new HeldBack.AwaitsChart(), false);
    chart.history = History.UNKNOWN;
    assertHeldFor(new HeldBack.NoHistory(), true);
    assertHeldFor(new HeldBack.NoWeight(), false);
    chart.weightKg = 70.0;
    assertHeldFor(new HeldBack.NoHistory(), true);
    assertHeldFor(new HeldBack.NoInjectionWished(), false);
    // No agent is left where an alert forbids both.
    chart.history = History.of(Set.of());
    practice.alert(forbids(Alert.DIABETES, List.of("lidocaine", "prilocaine"), false));
    chart.alert(Alert.DIABETES);
    assertHeldFor(new HeldBack.NoAgent(refused("lidocaine-2-100", "prilocaine-4")), true);
    assertHeldFor(new HeldBack.NoAgent(refused("lidocaine-2-100")), false);
    assertHeldFor(new HeldBack.NoInjectionWished(), false);
    assertHeldFor(new HeldBack.NoHistory(), false);
  }

  /** Lidocaine lasts an hour, and the area takes minutes: it may not wait for want of an agent. */
  @Test
  void workForWhichAnAgentSurelyServesIsNotHeldBack() {
    HeldBack.Reason none =
        new HeldBack.NoAgentServes(List.of("lidocaine-2-100", "prilocaine-4"), false);
    String unjustified = "is held back, but nothing that it waits for is missing.";
    assertEquals(4, findings(none, unjustified));
    // In five minutes it is never done.
    practice.pulpalMinutes = 5;
    assertEquals(0, findings(none, unjustified));
    assertHeldFor(none, true);
    assertHeldFor(new HeldBack.NoAgentServes(List.of("lidocaine-2-100"), false), false);
    assertHeldFor(new HeldBack.NoWeight(), false);
    assertHeldFor(new HeldBack.NoInjectionWished(), false);
    assertHeldFor(new HeldBack.NoAgent(refused("lidocaine-2-100", "prilocaine-4")), false);
  }

  private static List<HeldBack.Refused> refused(String... agents) {
    return java.util.Arrays.stream(agents)
        .map(agent -> new HeldBack.Refused(agent, List.of()))
        .toList();
  }

  /** An implant of the area needs no numbness: it waits only where areas are finished at once. */
  @Test
  void implantCareWaitsOnlyWithItsWholeArea() {
    chart.weightKg = null;
    chart.implant(45, 3);
    PlanBuilder plan = builder();
    rest(plan.visit());
    for (StepAspect aspect : List.of(FACIAL, LINGUAL)) {
      plan.holdBack(LR, GROSS, aspect);
      plan.holdBack(LR, FINE, aspect);
    }
    Course course = plan.holdBack(LR, IMPLANT_CARE, BOTH).course();
    String finding =
        "WORK all work once: The step LR posterior, implant-care, both (45) is held back, but "
            + "nothing that it waits for is missing.";
    assertFalse(audit(course).contains(finding), audit(course).toString());
    practice.passesTogether = PassesTogether.FREE;
    assertTrue(audit(course).contains(finding), audit(course).toString());
  }

  @Test
  void workHeldBackTwiceIsSaidToBe() {
    chart.weightKg = null;
    PlanBuilder plan = builder();
    rest(plan.visit());
    for (StepAspect aspect : List.of(FACIAL, LINGUAL)) {
      plan.holdBack(LR, GROSS, aspect);
      plan.holdBack(LR, FINE, aspect);
    }
    assertOne(
        plan.holdBack(LR, FINE, FACIAL).course(),
        "WORK all work once: The work held back (LR posterior, fine, facial, 44 46) is done or held"
            + " back elsewhere too.");
  }

  @Test
  void workInEachVisit() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    rest(plan.visit());
    Course course = plan.course();
    List<Visit> visits = new ArrayList<>(course.visits());
    Courses.Parts empty = new Courses.Parts(visits.get(1));
    empty.number = 3;
    empty.sequence = List.of(new Entry.SetUp(0, 600), new Entry.Close(600, 300));
    empty.areas = List.of();
    empty.tray = List.of();
    empty.watch = List.of();
    empty.sleeves = 0;
    empty.bookedMinutes = 15;
    empty.overrunRisk = 0;
    visits.add(empty.build());
    Map<CourseTerm, Long> terms = new LinkedHashMap<>(course.cost().terms());
    terms.put(CourseTerm.CHAIR_TIME, 3264L + 900);
    terms.put(CourseTerm.BALANCE, Math.round(0.5 * (1839 - 4164 / 3.0)));
    long sum = terms.values().stream().mapToLong(Long::longValue).sum();
    assertOne(
        Courses.with(course, visits, new Cost(sum, 0, terms), List.of()),
        "WORK all work once, visit 3: The visit has no step of work.");
  }

  @Test
  void workInAreasThatDoNotOverlap() {
    List<String> found = audit(step(plan(), LR, FACIAL, step -> area(step, "LR posterior 46")));
    assertEquals(
        "WORK all work once: The areas LR posterior and LR posterior 46 overlap.", found.get(0));
  }

  @Test
  void workWithoutNeedlessInjections() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).inject("greater palatine", Quadrant.UR);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "WORK all work once, visit 1: The injection greater palatine right numbs nothing that a"
            + " step of the visit needs.");
    plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).inject("long buccal", Quadrant.LR);
    rest(plan.visit());
    assertOne(
        plan.course(),
        "WORK all work once, visit 1: The injection long buccal right is given a second time.");
  }

  @Test
  void workWithInjectionsOfThePractice() {
    Course course =
        Courses.parts(
            plan(),
            1,
            v -> {
              GivenInjection one = v.injections.get(1);
              GivenInjection other =
                  new GivenInjection("lip block", one.quadrant(), null, one.agent(), one.ml());
              v.injections.set(1, other);
              v.sequence.set(2, new Entry.Inject(720, 48, other.ref()));
            });
    assertOne(
        course,
        "WORK all work once, visit 1: The practice has no injection lip block that can be given in"
            + " LR.");
  }

  @Test
  void workWithInjectionsAtTheirPlaces() {
    Course course = plan();
    assertEquals(
        "CLOCK minutes, visit 1: The visit lists the injection inferior alveolar left, but the"
            + " clock gives inferior alveolar right.",
        clock(
                Courses.parts(
                    course,
                    1,
                    v ->
                        v.injections.set(
                            0,
                            new GivenInjection(
                                "inferior alveolar", Quadrant.LL, null, "lidocaine-2-100", 1.5))))
            .get(0));
  }

  @Test
  void workWithTheGelOfThePractice() {
    List<String> found =
        audit(
            relaid(
                gelled(),
                1,
                sequence -> {
                  Entry.ApplyGel gel = (Entry.ApplyGel) first(sequence, Entry.ApplyGel.class);
                  sequence.set(
                      sequence.indexOf(gel),
                      new Entry.ApplyGel(0, 60, "other gel", gel.area(), gel.aspect()));
                  return sequence;
                }));
    assertTrue(
        found.contains("WORK all work once, visit 1: The practice has no gel other gel."),
        found.toString());
  }

  /** No gel in the visit before its first step. */
  @Test
  void theFirstStepOfAVisitIsNumbByNoGelThatComesAfterIt() {
    practice.gelOwned = true;
    chart.natural(46, Deposit.LIGHT, 3);
    chart.put(36, ToothStatus.NATURAL, Deposit.LIGHT, 4, Set.of(Feature.SENSITIVE));
    PlanBuilder plan = builder().worstLate(120);
    plan.visit().step(LR, FINE, FACIAL).step(LR, FINE, LINGUAL);
    plan.visit()
        .step(LL, FINE, FACIAL)
        .gel()
        .step(LL, FINE, LINGUAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    assertOne(
        plan.course(),
        "REPORT true report, visit 2: The plan states as need of numbness of the step LL posterior,"
            + " fine, facial (36) true; worked out again: false.");
  }

  /** Half a cartridge an aspect, so a whole one for both. */
  @Test
  void reportOfGelOnBothAspects() {
    practice.gelOwned = true;
    practice.passesTogether = PassesTogether.FREE;
    chart.put(11, ToothStatus.NATURAL, Deposit.LIGHT, 6, Set.of(Feature.CROWDED));
    PlanBuilder plan = builder();
    lowerRight(plan.visit());
    PlanBuilder.VisitBuilder second = plan.visit();
    second.gel().step(UR, FINE, LINGUAL).gel().step(UR, FINE, FACIAL);
    second.step(LL, FINE, FACIAL).step(LL, FINE, LINGUAL).step(UL, IMPLANT_CARE, BOTH);
    plan.visit().gel().step(UR, FINISHING, BOTH);
    List<String> found = audit(plan.course());
    assertTrue(found.stream().noneMatch(one -> one.contains("cartridges")), found.toString());
  }

  // ---- REPORT

  @Test
  void reportInTheChartsNumbering() {
    PlanFile file = PlanFile.of(plan());
    assertEquals(
        List.of(
            "REPORT true report: The plan states as numbering universal; worked out again: iso3950,"
                + " the chart's."),
        Audit.audit(
                new PlanFile(
                    file.course(), Numbering.UNIVERSAL, file.visits(), file.totals(), null),
                chart.build(),
                practice.build())
            .stream()
            .map(Finding::line)
            .toList());
  }

  @Test
  void reportOfTheChartsSitesToWatch() {
    assertOne(
        Courses.parts(plan(), 2, v -> v.watch.remove(0)),
        "REPORT true report, visit 2: The sites to watch are not those of the chart: wrong are"
            + " those of none, missing are those of 26.");
  }

  @Test
  void clockWithMovesToTheNextStep() {
    assertOne(
        relaid(
            plan(),
            2,
            sequence -> {
              int at = sequence.indexOf(first(sequence, Entry.Reposition.class));
              Entry move = sequence.get(at);
              sequence.set(at, new Entry.Reposition(0, move.seconds(), AreaRef.of(UL), FACIAL));
              return sequence;
            }),
        "CLOCK minutes, visit 2: The move at minute 10.80 is to UL posterior facial, but the step"
            + " after it is LL posterior, fine, lingual (36).");
  }

  @Test
  void clockWithWaitsForWhatTheStepNeeds() {
    assertOne(
        relaid(
            plan(),
            1,
            sequence -> {
              int at = sequence.indexOf(first(sequence, Entry.Wait.class));
              Entry wait = sequence.get(at);
              sequence.set(
                  at,
                  new Entry.Wait(0, wait.seconds(), new Awaited.Numbness(List.of(Quadrant.UR))));
              return sequence;
            }),
        "CLOCK minutes, visit 1: The wait at minute 12.80 is for something else than what the step"
            + " LR posterior, gross, facial (46) waits for.");
  }

  @Test
  void reportOfAVisit() {
    String again = "; worked out again: ";
    Course course = plan();
    assertOne(
        Courses.parts(course, 1, v -> v.number = 2),
        "REPORT true report, visit 1: The plan states as number of the visit 2" + again + "1.");
    assertOne(
        Courses.parts(course, 1, v -> v.numbSide = NumbSide.LEFT),
        "REPORT true report, visit 1: The plan states as numb side left" + again + "right.");
    assertOne(
        Courses.parts(course, 2, v -> v.bookedMinutes = 20),
        "REPORT true report, visit 2: The plan states as booked minutes 20" + again + "25.");
    assertOne(
        Courses.parts(course, 2, v -> v.overrunRisk = 0.05),
        "REPORT true report, visit 2: The plan states as risk of running over 0.05"
            + again
            + "0.112.");
    assertOne(
        Courses.parts(course, 2, v -> v.areas.remove(0)),
        "REPORT true report, visit 2: The plan states as areas UR anterior, UL posterior"
            + again
            + "LL posterior, UR anterior, UL posterior.");
    assertOne(
        Courses.parts(course, 1, v -> v.tray.remove(0)),
        "REPORT true report, visit 1: The plan states as tray slim straight"
            + again
            + "standard straight, slim straight.");
    assertOne(
        Courses.parts(course, 1, v -> v.cartridges = 2),
        "REPORT true report, visit 1: The plan states as cartridges opened 2" + again + "1.");
    assertOne(
        Courses.parts(course, 1, v -> v.gelCartridges = 0.5),
        "REPORT true report, visit 1: The plan states as gel cartridges 0.5" + again + "0.");
    assertOne(
        Courses.parts(course, 1, v -> v.epinephrineMg = 0.008),
        "REPORT true report, visit 1: The plan states as epinephrine 0.008 mg"
            + again
            + "0.018 mg.");
    assertOne(
        Courses.parts(course, 1, v -> v.doses.set(0, new Dose("lidocaine-2-100", 26, 300, 0.12))),
        "REPORT true report, visit 1: The plan states as doses lidocaine-2-100 26 of 300 (share"
            + " 0.12)"
            + again
            + "lidocaine-2-100 36 of 300 (share 0.12).");
    assertOne(
        step(course, LL, FACIAL, s -> numb(s, true)),
        "REPORT true report, visit 2: The plan states as need of numbness of the step LL posterior,"
            + " fine, facial (36) true"
            + again
            + "false.");
  }

  /** 435 s for 300 s of work with a spread of 0.2: z = (ln 1.45 + 0.02) / 0.2 = 1.958. */
  @Test
  void reportOfARiskThatIsThatOfTheStatedLength() {
    assertOne(
        Courses.parts(
            plan(),
            2,
            v -> {
              v.bookedMinutes = 26;
              v.overrunRisk = 0.0251;
            }),
        "REPORT true report, visit 2: The plan states as booked minutes 26; worked out again: 25.");
  }

  @Test
  void reportOfAnAgentThatThePracticeDoesNotKnow() {
    Course course =
        Courses.parts(
            plan(),
            1,
            v ->
                v.injections.replaceAll(
                    one ->
                        new GivenInjection(
                            one.injection(), one.quadrant(), one.tooth(), "unheard-of", one.ml())));
    List<String> found = audit(course);
    assertTrue(
        found.contains(
            "H3 dose, visit 1: The practice does not give unheard-of, so no maximum dose of it"
                + " holds here."),
        found.toString());
    assertTrue(
        found.stream().noneMatch(one -> one.startsWith("REPORT true report, visit")),
        found.toString());
  }

  @Test
  void reportOfTheCourseBesideItsCost() {
    Course course = plan();
    assertOne(
        course.withReevaluateFromWeeks(5),
        "REPORT true report: The plan states as weeks until re-evaluation 5 to 12; worked out"
            + " again: 6 to 12.");
    assertOne(
        course.withReevaluateToWeeks(13),
        "REPORT true report: The plan states as weeks until re-evaluation 6 to 13; worked out"
            + " again: 6 to 12.");
    assertClean(Courses.cost(course, c -> new Cost(c.seconds(), c.seconds(), c.terms())));
    assertOne(
        Courses.cost(course, c -> new Cost(c.seconds(), c.seconds(), false, c.terms())),
        "REPORT true report: The plan states as proven best false; worked out again: true, since"
            + " the cost meets its lower bound.");
    assertOne(
        Courses.cost(course, c -> new Cost(c.seconds(), c.seconds() - 1, true, c.terms())),
        "REPORT true report: The plan states as proven best true; worked out again: false, since"
            + " the cost is above its lower bound.");
  }

  @Test
  void theCostHoldsMoreOfEachInjectionForWhoIsAverseToNeedles() {
    practice.alert(
        AlertRule.of(Alert.NEEDLE_AVERSE, "made up").withInjectionWeightFactor(figure(2)));
    chart.alert(Alert.NEEDLE_AVERSE);
    assertOne(
        plan(),
        "REPORT true report: The plan states as cost term injections 120 s; worked out again: 240"
            + " s.");
  }

  @Test
  void theCostHoldsEachDeepBlock() {
    practice.oneNumbSide = false;
    practice.alert(AlertRule.of(Alert.WARFARIN, "made up").withBlockPriceSeconds(figure(10)));
    chart.alert(Alert.WARFARIN);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit()).inject("inferior alveolar", Quadrant.LL);
    rest(plan.visit());
    List<String> found = audit(plan.course());
    assertTrue(
        found.contains(
            "REPORT true report: The plan states as cost term injections 180 s; worked out again:"
                + " 200 s."),
        found.toString());
  }

  /** An area whose fine pass is split waits until its first visit, not its second. */
  @Test
  void theCostOfAnAreaThatWaitsEndsWithItsFirstFineStep() {
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit());
    plan.visit()
        .step(LL, FINE, FACIAL)
        .step(UR, FINE, LINGUAL)
        .step(UR, FINE, FACIAL)
        .step(UR, FINISHING, BOTH)
        .step(UL, IMPLANT_CARE, BOTH);
    plan.visit().step(LL, FINE, LINGUAL);
    assertOne(
        plan.course(), "H6 together: The fine pass of LL posterior is split over the visits 2, 3.");
  }

  @Test
  void reportOfInjectionsThatTheClockGives() {
    Course course =
        Courses.parts(
            plan(),
            1,
            v -> {
              v.injections.remove(0);
              v.doses.set(0, new Dose("lidocaine-2-100", 6, 300, 0.02));
              v.epinephrineMg = 0.003;
            });
    Map<CourseTerm, Long> terms = new LinkedHashMap<>(course.cost().terms());
    terms.put(CourseTerm.INJECTIONS, 60L);
    long sum = terms.values().stream().mapToLong(Long::longValue).sum();
    List<String> found = audit(Courses.cost(course, c -> new Cost(sum, 0, terms)));
    assertEquals(
        "REPORT true report, visit 1: The clock gives inferior alveolar right, which the visit does"
            + " not list.",
        found.get(found.size() - 1));
  }

  @Test
  void reportOfTheCourse() {
    Course course = plan();
    assertOne(
        Courses.gap(course, 6, 14),
        "REPORT true report: The plan states a gap of 6 to 14 days between visits; the practice"
            + " keeps 7 to 14.");
    assertOne(
        Courses.cost(course, c -> new Cost(c.seconds() - 1, 0, c.terms())),
        "REPORT true report: The plan states as cost 3547 s; worked out again: 3548 s, the sum of"
            + " its terms.");
    assertOne(
        Courses.cost(course, c -> new Cost(c.seconds(), 4000, c.terms())),
        "REPORT true report: The plan states as lower bound on the cost 4000 s; worked out again:"
            + " at most the cost, 3548 s.");
    for (CourseTerm name : course.cost().terms().keySet()) {
      long due = course.cost().terms().get(name);
      assertOne(
          Courses.cost(
              course,
              c -> {
                Map<CourseTerm, Long> terms = new LinkedHashMap<>(c.terms());
                terms.put(name, due + 7);
                return new Cost(c.seconds(), 0, terms);
              }),
          "REPORT true report: The plan states as cost term "
              + name.key()
              + " "
              + (due + 7)
              + " s; worked out again: "
              + due
              + " s.");
    }
    chart.startWith = null;
    assertEquals(
        List.of("REPORT true report: The plan is for the case T-1, the chart for T-2."),
        Audit.audit(course, renamed(), practice.build()).stream().map(Finding::line).toList());
  }

  private quadrille.facts.chart.Chart renamed() {
    quadrille.facts.chart.Chart built = chart.build();
    return new quadrille.facts.chart.Chart(
        "T-2", built.charted(), built.numbering(), built.patient(), built.teeth());
  }

  @Test
  void reportOfThePlanFilesOwnSums() {
    PlanFile file = PlanFile.of(plan());
    Practice built = practice.build();
    List<PlanFile.VisitSums> visits = new ArrayList<>(file.visits());
    visits.set(0, new PlanFile.VisitSums(visits.get(0).expectedMinutes(), 4, List.of(), null));
    assertEquals(
        List.of(
            "REPORT true report, visit 1: The plan states as tip changes 4; worked out again: 1."),
        Audit.audit(
                new PlanFile(file.course(), null, visits, file.totals(), null),
                chart.build(),
                built)
            .stream()
            .map(Finding::line)
            .toList());
    PlanFile.Totals totals = new PlanFile.Totals(2, 54.4, 50, 3, 2, 1);
    assertEquals(
        List.of(
            "REPORT true report: The plan states as total of booked minutes 50; worked out again:"
                + " 57."),
        Audit.audit(
                new PlanFile(file.course(), null, file.visits(), totals, null),
                chart.build(),
                built)
            .stream()
            .map(Finding::line)
            .toList());
  }

  private static PlanFile with(PlanFile file, PlanFile.VisitSums first, PlanFile.Totals totals) {
    List<PlanFile.VisitSums> visits = new ArrayList<>(file.visits());
    visits.set(0, first);
    return new PlanFile(file.course(), null, visits, totals, null);
  }

  private List<String> audit(PlanFile file) {
    return Audit.audit(file, chart.build(), practice.build()).stream().map(Finding::line).toList();
  }

  private static String states(String what) {
    return "REPORT true report: The plan states as " + what + ".";
  }

  @Test
  void reportOfEachTotal() {
    PlanFile file = PlanFile.of(plan());
    Map<PlanFile.Totals, String> wrong = new LinkedHashMap<>();
    wrong.put(new PlanFile.Totals(3, 54.4, 57, 3, 2, 1), "total of visits 3; worked out again: 2");
    wrong.put(
        new PlanFile.Totals(2, 54.42, 57, 3, 2, 1),
        "total of chair minutes 54.42; worked out again: 54.4");
    wrong.put(
        new PlanFile.Totals(2, 54.4, 57, 4, 2, 1), "total of tip changes 4; worked out again: 3");
    wrong.put(
        new PlanFile.Totals(2, 54.4, 57, 3, 1, 1), "total of injections 1; worked out again: 2");
    wrong.put(
        new PlanFile.Totals(2, 54.4, 57, 3, 2, 2), "total of cartridges 2; worked out again: 1");
    wrong.forEach(
        (totals, words) ->
            assertEquals(List.of(states(words)), audit(with(file, file.visits().get(0), totals))));
  }

  /** What a visit states wrongly is one finding; the total that does not follow it is right. */
  @Test
  void reportOfATotalThatIsRightWhereAVisitIsNot() {
    PlanFile.Totals right = PlanFile.of(plan()).totals();
    PlanFile booked =
        PlanFile.of(
            Courses.parts(
                plan(),
                2,
                v -> {
                  v.bookedMinutes = 26;
                  v.overrunRisk = 0.0251;
                }));
    PlanFile opened = PlanFile.of(Courses.parts(plan(), 1, v -> v.cartridges = 2));
    for (PlanFile file : List.of(booked, opened)) {
      assertEquals(1, audit(with(file, file.visits().get(0), right)).size());
      assertEquals(1, audit(file).size(), "as the visits say");
    }
  }

  @Test
  void reportOfWhatAVisitSaysBesideItsSequence() {
    PlanFile file = PlanFile.of(mayFail(plan(), true));
    PlanFile.VisitSums sums = file.visits().get(0);
    assertEquals(Boolean.TRUE, sums.rescue());
    assertEquals(List.of(), audit(with(file, sums, file.totals())));
    String visit = "REPORT true report, visit 1: The plan states as ";
    assertEquals(
        List.of(visit + "room for the repeat of a block that fails none; worked out again: some."),
        audit(
            with(
                file,
                new PlanFile.VisitSums(sums.expectedMinutes(), sums.tipChanges(), List.of(), false),
                file.totals())));
    assertEquals(
        List.of(
            visit
                + "room for the repeat of a block that fails some; worked out again: no such"
                + " block."),
        audit(with(PlanFile.of(plan()), sums, file.totals())));
    assertEquals(
        List.of(visit + "expected minutes 30.67; worked out again: 30.65."),
        audit(
            with(
                file,
                new PlanFile.VisitSums(30.67, sums.tipChanges(), List.of(), null),
                file.totals())));
    assertEquals(
        List.of(visit + "front teeth numbed across the midline 21; worked out again: none."),
        audit(
            with(
                file,
                new PlanFile.VisitSums(
                    sums.expectedMinutes(), sums.tipChanges(), List.of(Tooth.ofIso(21)), null),
                file.totals())));
  }

  /** 46 numbed on the right, and 21 infiltrated across the midline. */
  @Test
  void reportOfFrontTeethAcrossTheMidline() {
    practice.passesTogether = PassesTogether.FREE;
    chart.natural(21, Deposit.LIGHT, 6);
    PlanBuilder plan = builder().worstLate(LATE);
    lowerRight(plan.visit())
        .inject("upper infiltration", Quadrant.UL, 21, "lidocaine-2-100")
        .inject("nasopalatine", Quadrant.UL)
        .step("UL anterior", FINE, FACIAL, 30)
        .step("UL anterior", FINE, LINGUAL, 75);
    rest(plan.visit());
    PlanFile file = PlanFile.of(plan.course());
    PlanFile.VisitSums sums = file.visits().get(0);
    String front = "front teeth numbed across the midline";
    PlanFile told =
        with(
            file,
            new PlanFile.VisitSums(
                sums.expectedMinutes(), sums.tipChanges(), List.of(Tooth.ofIso(21)), null),
            file.totals());
    assertFalse(audit(told).toString().contains(front), audit(told).toString());
    PlanFile none =
        with(
            file,
            new PlanFile.VisitSums(sums.expectedMinutes(), sums.tipChanges(), List.of(), null),
            file.totals());
    assertTrue(
        audit(none).toString().contains(front + " none; worked out again: 21."),
        audit(none).toString());
  }

  // ---- changes

  private static Course step(
      Course course, String area, StepAspect aspect, UnaryOperator<Entry.Debride> change) {
    List<Visit> visits = new ArrayList<>();
    for (Visit visit : course.visits()) {
      Courses.Parts parts = new Courses.Parts(visit);
      parts.sequence.replaceAll(
          entry ->
              entry instanceof Entry.Debride s
                      && s.area().equals(AreaRef.of(area))
                      && s.aspect() == aspect
                      && s.pass() != GROSS
                  ? change.apply(s)
                  : entry);
      visits.add(parts.build());
    }
    return Courses.with(course, visits, course.cost(), course.heldBack());
  }

  private static Entry.Debride tool(Entry.Debride s, String insert, Power power) {
    return new Entry.Debride(
        s.startSecond(),
        s.seconds(),
        s.area(),
        s.aspect(),
        s.pass(),
        insert,
        power,
        s.needsNumb(),
        s.teeth());
  }

  private static Entry.Debride area(Entry.Debride s, String area) {
    return new Entry.Debride(
        s.startSecond(),
        s.seconds(),
        AreaRef.of(area),
        s.aspect(),
        s.pass(),
        s.insert(),
        s.power(),
        s.needsNumb(),
        s.teeth());
  }

  private static Entry.Debride numb(Entry.Debride s, boolean needsNumb) {
    return new Entry.Debride(
        s.startSecond(),
        s.seconds(),
        s.area(),
        s.aspect(),
        s.pass(),
        s.insert(),
        s.power(),
        needsNumb,
        s.teeth());
  }

  private static Entry.Debride teeth(Entry.Debride s, int... iso) {
    List<Tooth> teeth = java.util.Arrays.stream(iso).mapToObj(Tooth::ofIso).toList();
    return new Entry.Debride(
        s.startSecond(),
        s.seconds(),
        s.area(),
        s.aspect(),
        s.pass(),
        s.insert(),
        s.power(),
        s.needsNumb(),
        teeth);
  }

  private static Entry first(List<Entry> sequence, Class<? extends Entry> type) {
    return sequence.stream().filter(type::isInstance).findFirst().orElseThrow();
  }

  private static List<Entry> lengthen(
      List<Entry> sequence, Class<? extends Entry> type, int seconds) {
    Entry entry = first(sequence, type);
    sequence.set(sequence.indexOf(entry), AtAnotherTime.entry(entry, 0, entry.seconds() + seconds));
    return sequence;
  }

  /** Changes a sequence and lays its clock again, without gaps; the sums stay as they were. */
  private static Course relaid(Course course, int number, UnaryOperator<List<Entry>> change) {
    return Courses.parts(
        course,
        number,
        parts -> {
          List<Entry> changed = change.apply(parts.sequence);
          List<Entry> laid = new ArrayList<>();
          int now = 0;
          for (Entry entry : changed) {
            laid.add(AtAnotherTime.entry(entry, now, entry.seconds()));
            now += entry.seconds();
          }
          parts.sequence = laid;
        });
  }
}
