package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.WishSentences;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.course.WishOutcome.State;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.staging.Effort;
import quadrille.seeking.SearchStop;

/** Clinical rows: a mouth in a few lines, what is wished, and what the plan must do or say. */
class WishedTest {
  private static final Practice PRACTICE = PracticeReader.defaults();
  private static final CoursePlanner PLANNER = new CoursePlanner(Effort.QUICK, 1);

  /** Deep on both sides, so that two visits are the fewest; the upper left is worst. */
  private static final List<String> BOTH_SIDES =
      List.of(
          tooth(16, 6, ""), tooth(15, 6, ""), tooth(46, 6, ""), tooth(26, 8, ""), tooth(36, 6, ""));

  private static String tooth(int iso, int depth, String feature) {
    return """
    {"tooth": "%1$d", "deposit": "light", "features": [%3$s],
     "facial": {"depthMm": [%2$d, 3, %2$d]}, "lingual": {"depthMm": [%2$d, 3, %2$d]}}\
    """
        .replace("%1$d", Integer.toString(iso))
        .replace("%2$d", Integer.toString(depth))
        .replace("%3$s", feature);
  }

  private static Chart chart(List<String> teeth, String... wishes) throws Exception {
    Chart chart =
        ChartReader.json(
            "a test",
            """
            {"schema": "quadrille/chart/1", "case": "W-1", "numbering": "iso3950",
             "patient": {"ageYears": 50, "weightKg": 75, "alerts": []},
             "teeth": [TEETH]}
            """
                .replace("TEETH", String.join(", ", teeth)));
    List<String> faults = new ArrayList<>();
    Chart wished =
        chart.withPatient(
            chart.patient().withWishes(WishSentences.read(List.of(wishes), chart, faults)));
    assertEquals(List.of(), faults);
    return wished;
  }

  private static Course planned(Chart chart, VisitRange visits) throws Exception {
    PlanOutcome outcome = PLANNER.plan(chart, PRACTICE, visits);
    return assertInstanceOf(Planned.class, outcome, () -> "" + outcome).course();
  }

  private static Course planned(Chart chart) throws Exception {
    return planned(chart, VisitRange.USUAL);
  }

  private static int visitOf(Course course, String area) {
    return course.visits().stream()
        .filter(visit -> visit.areas().contains(AreaRef.of(area)))
        .map(Visit::number)
        .findFirst()
        .orElseThrow();
  }

  private static long ofWishes(Course course) {
    return Objects.requireNonNullElse(course.cost().terms().get(CourseTerm.WISHES), 0L);
  }

  @Test
  void anAreaLiesInTheVisitThatMustHaveIt() throws Exception {
    assertEquals(1, visitOf(planned(chart(BOTH_SIDES)), "UL posterior"));
    Course course = planned(chart(BOTH_SIDES, "must UL posterior in visit 2"));
    assertEquals(2, visitOf(course, "UL posterior"));
    assertEquals(State.KEPT, course.wishes().get(0).state());
  }

  @Test
  void aQuadrantIsFinishedBeforeAnythingElseIsBegun() throws Exception {
    Course course = planned(chart(BOTH_SIDES, "must LR first"), VisitRange.exactly(3));
    assertEquals(1, visitOf(course, "LR posterior"));
  }

  @Test
  void areasApartTakeAVisitEach() throws Exception {
    Course course = planned(chart(BOTH_SIDES, "must UR and LR apart"));
    assertTrue(visitOf(course, "UR posterior") != visitOf(course, "LR posterior"));
    assertEquals(3, course.visits().size());
    assertEquals(1, course.wishes().get(0).price().visits());
  }

  /** What it costs is what the best plan without it saves, worked out by planning that. */
  @Test
  void thePriceOfAWishIsTheDifferenceOfTwoPlans() throws Exception {
    String first = "must UR and LR apart";
    String second = "rather UL posterior in visit 2";
    Course both = planned(chart(BOTH_SIDES, first, second));
    Course onlySecond = planned(chart(BOTH_SIDES, second));
    Course onlyFirst = planned(chart(BOTH_SIDES, first));
    assertEquals(State.KEPT, both.wishes().get(0).state());
    WishOutcome.Price price = both.wishes().get(0).price();
    assertEquals(both.cost().seconds() - onlySecond.cost().seconds(), price.seconds());
    assertEquals(both.bookedMinutes() - onlySecond.bookedMinutes(), price.bookedMinutes());
    assertEquals(both.visits().size() - onlySecond.visits().size(), price.visits());
    assertTrue(price.seconds() > 0);
    if (both.wishes().get(1).state() == State.KEPT) {
      assertEquals(
          both.cost().seconds() - onlyFirst.cost().seconds(),
          both.wishes().get(1).price().seconds());
    }
  }

  /** A wish that need not be kept is not, where that costs more than it is worth. */
  @Test
  void whatIsDearerThanItsPriceIsNotKeptAndItIsSaidByHowMuch() throws Exception {
    Course free = planned(chart(BOTH_SIDES));
    Course kept = planned(chart(BOTH_SIDES, "must UR and LR apart"));
    Course course = planned(chart(BOTH_SIDES, "rather UR and LR apart"));
    assertEquals(State.NOT_KEPT, course.wishes().get(0).state());
    assertEquals(600, ofWishes(course));
    assertEquals(free.cost().seconds() + 600, course.cost().seconds());
    assertEquals(
        new WishOutcome.CostsMore(kept.cost().seconds() - free.cost().seconds()),
        course.wishes().get(0).against());
  }

  /** One visit numbs one side: no wish overrides it. */
  @Test
  void whatARuleForbidsIsRefusedWithTheRule() throws Exception {
    String both = "UR posterior and UL posterior together";
    NoPlan none =
        assertInstanceOf(
            NoPlan.class,
            PLANNER.plan(chart(BOTH_SIDES, "must " + both), PRACTICE, VisitRange.USUAL));
    Clash.NotAsWished clash = assertInstanceOf(Clash.NotAsWished.class, none.clashes().get(0));
    assertEquals(List.of(HardRule.ONE_NUMB_SIDE), clash.against());
    assertInstanceOf(Change.WithoutWish.class, none.remedies().get(0).change());
    Course course = planned(chart(BOTH_SIDES, "rather " + both));
    assertEquals(
        new WishOutcome.Rules(List.of(HardRule.ONE_NUMB_SIDE)), course.wishes().get(0).against());
  }

  @Test
  void wishesThatClashAreToldTogether() throws Exception {
    NoPlan none =
        assertInstanceOf(
            NoPlan.class,
            PLANNER.plan(
                chart(BOTH_SIDES, "must UR in visit 1", "must UR in visit 2"),
                PRACTICE,
                VisitRange.USUAL));
    assertInstanceOf(Clash.WishesClash.class, none.clashes().get(0));
    assertEquals(2, none.remedies().size());
  }

  @Test
  void aWishForAVisitsNumberHoldsAtThatNumberOfVisitsOnly() throws Exception {
    Chart chart = chart(BOTH_SIDES, "must UR in visit 3 of 3");
    assertEquals(3, planned(chart).visits().size());
    List<PlanOutcome> each =
        PLANNER.planEach(chart, PRACTICE, new VisitRange(2, 3), false, outcome -> {});
    assertEquals(
        List.of(State.OTHER_NUMBER, State.KEPT),
        each.stream().map(one -> ((Planned) one).course().wishes().get(0).state()).toList());
    assertInstanceOf(NoPlan.class, PLANNER.plan(chart, PRACTICE, new VisitRange(1, 2)));
  }

  /** Nothing that was not sought to the end is said: no price, no reason, no clash. */
  @Test
  void aSearchThatIsCutShortSaysNothingThatItDoesNotKnow() throws Exception {
    SearchStop stop = new SearchStop();
    CoursePlanner stopped =
        new CoursePlanner(Effort.QUICK, 1, stop, (tried, of, bestSeconds) -> stop.ask());
    Chart rather = chart(BOTH_SIDES, "rather UR posterior and UL posterior together");
    // Asked once the course is found, before it is told why it does not keep the wish.
    PlanOutcome outcome = stopped.plan(rather, PRACTICE, VisitRange.exactly(3));
    assertEquals(
        List.of(new WishOutcome(rather.patient().wishes().get(0), State.NOT_KEPT)),
        assertInstanceOf(Planned.class, outcome).course().wishes());
    NoPlan other =
        assertInstanceOf(
            NoPlan.class,
            stopped.plan(
                chart(BOTH_SIDES, "must UR in visit 3 of 3"), PRACTICE, new VisitRange(1, 2)));
    assertInstanceOf(Clash.WishedOtherNumber.class, other.clashes().get(0));
    assertTrue(other.cutShort());
  }

  /** Without gel, what needs an injection there waits, and nothing is injected. */
  @Test
  void noInjectionIsGivenWhereNoneMustBe() throws Exception {
    Course course = planned(chart(BOTH_SIDES, "must no injection in UL"));
    assertEquals(
        List.of(new HeldBack.NoInjectionWished()),
        course.heldBack().stream().map(HeldBack::reason).distinct().toList());
    assertTrue(
        course.visits().stream()
            .flatMap(visit -> visit.injections().stream())
            .noneMatch(given -> given.quadrant().name().equals("UL")));
    Course rather = planned(chart(BOTH_SIDES, "rather no injection in UL"));
    assertEquals(State.NOT_KEPT, rather.wishes().get(0).state());
    assertEquals(List.of(), rather.heldBack());
  }

  /** Gel is short: where no injection is wished has the first call on it. */
  @Test
  void gelGoesFirstWhereNoInjectionIsWished() throws Exception {
    Practice gel =
        PracticeReader.read(
            "a test",
            """
            {"schema": "quadrille/practice/1", "gel": {"owned": true, "cartridgesVisit": 1}}
            """);
    List<String> teeth =
        List.of(tooth(16, 5, ""), tooth(26, 5, ""), tooth(36, 5, ""), tooth(46, 5, ""));
    Chart chart = chart(teeth, "must no injection in LR");
    Course course =
        assertInstanceOf(Planned.class, PLANNER.plan(chart, gel, VisitRange.USUAL)).course();
    assertEquals(State.KEPT, course.wishes().get(0).state());
    assertEquals(List.of(), course.heldBack());
    assertTrue(
        course.visits().stream()
            .flatMap(visit -> visit.sequence().stream())
            .anyMatch(
                entry ->
                    entry instanceof Entry.ApplyGel one
                        && one.area().equals(AreaRef.of("LR posterior"))));
  }

  @Test
  void anInsertThatMustNotBeIsOnNoTray() throws Exception {
    Course free = planned(chart(BOTH_SIDES));
    String insert = free.visits().get(0).tray().get(0);
    Chart chart = chart(BOTH_SIDES, "rather not " + insert);
    Course course = planned(chart);
    boolean used = course.visits().stream().anyMatch(visit -> visit.tray().contains(insert));
    assertEquals(used ? State.NOT_KEPT : State.KEPT, course.wishes().get(0).state());
    assertEquals(used ? 600 : 0, ofWishes(course));
  }

  /** A name that was mistyped would else be kept by any plan. */
  @Test
  void anInsertThatThePracticeDoesNotHaveIsSaidToBeUnknown() throws Exception {
    Chart chart = chart(BOTH_SIDES, "rather not slim straigt");
    List<PlanOutcome> outcomes = new ArrayList<>();
    outcomes.add(PLANNER.plan(chart, PRACTICE, VisitRange.USUAL));
    outcomes.add(PLANNER.planOnly(chart, PRACTICE, VisitRange.USUAL, false));
    outcomes.addAll(PLANNER.planEach(chart, PRACTICE, VisitRange.exactly(2), false, outcome -> {}));
    for (PlanOutcome outcome : outcomes) {
      List<Clash> clashes = assertInstanceOf(NoPlan.class, outcome).clashes();
      assertEquals(1, clashes.size());
      Clash.UnknownInsert unknown = assertInstanceOf(Clash.UnknownInsert.class, clashes.get(0));
      assertTrue(unknown.inserts().contains("slim straight"));
    }
  }

  /** Nothing is touched before it is numb, where that is worth its price. */
  @Test
  void numbFirstIsKeptWhereItMustBe() throws Exception {
    Course course = planned(chart(BOTH_SIDES, "must numb first"));
    for (Visit visit : course.visits()) {
      boolean injected = !visit.injections().isEmpty();
      assertFalse(injected && !visit.steps().get(0).needsNumb(), "visit " + visit.number());
    }
    Course rather = planned(chart(BOTH_SIDES, "rather numb first"));
    long free = planned(chart(BOTH_SIDES)).cost().seconds();
    assertEquals(Math.min(course.cost().seconds(), free + 600), rather.cost().seconds());
  }

  /** By hand all of it, which takes longer, or nothing. */
  @Test
  void byHandIsKeptWhereItMustBe() throws Exception {
    Course course = planned(chart(BOTH_SIDES, "must by hand"));
    for (Visit visit : course.visits()) {
      assertEquals(List.of("hand instruments"), visit.tray(), "visit " + visit.number());
    }
    Course rather = planned(chart(BOTH_SIDES, "rather by hand"));
    long free = planned(chart(BOTH_SIDES)).cost().seconds();
    assertEquals(Math.min(course.cost().seconds(), free + 600), rather.cost().seconds());
  }

  @Test
  void aPlaceWithoutWorkIsSaidToHaveNone() throws Exception {
    List<String> teeth = new ArrayList<>(BOTH_SIDES);
    teeth.add(
        """
        {"tooth": "11", "deposit": "none", "facial": {"depthMm": [2, 2, 2]},
         "lingual": {"depthMm": [2, 2, 2]}}\
        """);
    Course course = planned(chart(teeth, "must UR anterior in visit 1"));
    assertEquals(
        List.of(State.NOTHING_THERE),
        course.wishes().stream().map(WishOutcome::state).collect(Collectors.toList()));
  }
}
