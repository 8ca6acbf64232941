package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.course.Remedy;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.staging.Effort;

@Tag("slow")
class CoursePlannerTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  private static Course planned(Chart chart, VisitRange visits, int threads) throws Exception {
    PlanOutcome outcome = new CoursePlanner(Effort.QUICK, threads).plan(chart, PRACTICE, visits);
    return assertInstanceOf(Planned.class, outcome).course();
  }

  @Test
  void theSameChartGivesTheSameBytesOnAnyNumberOfThreads() throws Exception {
    Chart chart = DemoMouths.chart("implants-both-sides.json");
    VisitRange visits = new VisitRange(3, 4);
    String once = PlanWriter.writeFacts(planned(chart, visits, 1), Numbering.ISO3950);
    String again = PlanWriter.writeFacts(planned(chart, visits, 1), Numbering.ISO3950);
    String threaded = PlanWriter.writeFacts(planned(chart, visits, 4), Numbering.ISO3950);
    assertEquals(once, again);
    assertEquals(once, threaded);
  }

  @Test
  void visitsRunOverAsOftenAsThePlanSays() throws Exception {
    // The stated distribution: fixed time, and working time lognormal with the plan as its mean.
    double sigma = PRACTICE.minutes().spreadSigma().value();
    int draws = 10_000;
    Random random = new Random(20261125);
    for (Visit visit : planned(DemoMouths.chart("moderate.json"), VisitRange.USUAL, 2).visits()) {
      int working = visit.steps().stream().mapToInt(Entry.Debride::seconds).sum();
      int fixed = visit.expectedSeconds() - working;
      // A lower block fails in 17.5 of 100; its repeat, 150 s, takes in 15 minutes.
      boolean block =
          visit.injections().stream().anyMatch(one -> one.injection().equals("inferior alveolar"));
      int over = 0;
      for (int draw = 0; draw < draws; draw++) {
        double factor = Math.exp(sigma * random.nextGaussian() - sigma * sigma / 2);
        double more = block && random.nextDouble() < 0.175 ? 150 + 900 : 0;
        over += fixed + more + working * factor > 60 * visit.bookedMinutes() ? 1 : 0;
      }
      double risk = visit.overrunRisk();
      double error = 4 * Math.sqrt(Math.max(risk * (1 - risk), 1e-4) / draws);
      assertEquals(risk, (double) over / draws, error, "visit " + visit.number());
      assertTrue(risk <= 1 - PRACTICE.appointments().certainty().value() + 1e-9);
    }
  }

  @Test
  void aPracticeThatNumbsBothSidesInAVisitGetsItsPlanWithoutTwoBlocks() throws Exception {
    Practice relaxed =
        PracticeReader.read(
            "both-sides.json",
            """
            {"schema": "quadrille/practice/1", "appointments": {"oneNumbSide": false}}""");
    Chart chart = DemoMouths.chart("typical.json");
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK).plan(chart, relaxed, VisitRange.exactly(3));
    Course course = assertInstanceOf(Planned.class, outcome).course();
    assertEquals(List.of(), Audit.audit(course, chart, relaxed));
  }

  @Test
  void withoutAWeightNothingIsInjectedAndTheRestIsHeldBack() throws Exception {
    Course course = planned(DemoMouths.chart("weight-missing.json"), VisitRange.USUAL, 2);
    assertTrue(course.visits().stream().allMatch(visit -> visit.injections().isEmpty()));
    Set<HeldBack.Reason> reasons = new HashSet<>();
    course.heldBack().forEach(held -> reasons.add(held.reason()));
    HeldBack.Reason noWeight = new HeldBack.NoWeight();
    assertEquals(
        Set.of(noWeight, new HeldBack.Follows(noWeight), new HeldBack.WholeArea(noWeight)),
        reasons);
  }

  /** What waits takes its area with it. */
  @Test
  void anAreaOfWhichAPartWaitsIsNotBegun() throws Exception {
    Course course = planned(DemoMouths.chart("weight-missing.json"), VisitRange.USUAL, 2);
    Set<AreaRef> begun = new HashSet<>();
    course.visits().forEach(visit -> visit.steps().forEach(step -> begun.add(step.area())));
    assertFalse(begun.isEmpty());
    course.heldBack().forEach(held -> assertFalse(begun.contains(held.area())));
  }

  @Test
  void areasAreFinishedInTheVisitInWhichTheyAreBegun() throws Exception {
    Course course = planned(DemoMouths.chart("typical.json"), VisitRange.USUAL, 2);
    assertEquals(PassesTogether.SAME_VISIT, course.passesTogether());
    Set<AreaRef> begun = new HashSet<>();
    for (Visit visit : course.visits()) {
      Set<AreaRef> here = new HashSet<>();
      visit.steps().forEach(step -> here.add(step.area()));
      here.forEach(area -> assertTrue(begun.add(area), area.toString()));
    }
    assertEquals(8, begun.size());
  }

  @Test
  void whatIsLeftOpenIsToldAndAskedOfTheDiary() throws Exception {
    Practice within =
        PRACTICE.withAppointments(
            PRACTICE.appointments().withPassesTogether(new PassesTogether(14)));
    Course course =
        assertInstanceOf(
                Planned.class,
                new CoursePlanner(Effort.QUICK)
                    .planOnly(
                        DemoMouths.chart("typical.json"), within, VisitRange.exactly(4), false))
            .course();
    // A course that keeps within 14 days of 7 each may leave an area for two visits at the most.
    for (Course.FinishWithin deadline : course.finishWithin()) {
      assertEquals(14, deadline.days());
      assertTrue(deadline.to() - deadline.from() <= 2, deadline.toString());
    }
    for (Visit visit : course.visits()) {
      boolean open =
          course.finishWithin().stream()
              .anyMatch(one -> one.from() <= visit.number() && visit.number() < one.to());
      boolean told = visit.cautions().stream().anyMatch(Caution.LeftOpen.class::isInstance);
      assertEquals(open, told, "visit " + visit.number());
    }
    Course free =
        assertInstanceOf(
                Planned.class,
                new CoursePlanner(Effort.QUICK)
                    .planOnly(
                        DemoMouths.chart("typical.json"), PRACTICE, VisitRange.exactly(3), true))
            .course();
    assertTrue(
        free.visits().get(0).cautions().stream().anyMatch(Caution.LeftOpen.class::isInstance));
    assertEquals(List.of(), free.finishWithin());
  }

  @Test
  void everyRemedyHoldsWhenItIsDone() throws Exception {
    Chart chart = DemoMouths.chart("too-few-visits.json");
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK).plan(chart, PRACTICE, VisitRange.exactly(2));
    NoPlan none = assertInstanceOf(NoPlan.class, outcome);
    assertTrue(
        none.clashes().stream()
            .anyMatch(clash -> clash instanceof Clash.Broken it && it.rule() == HardRule.LENGTH));
    List<Change> changes = none.remedies().stream().map(Remedy::change).toList();
    int visits = only(Change.Visits.class, changes).number();
    assertEquals(visits, planned(chart, VisitRange.exactly(visits), 2).visits().size());

    int minutes = only(Change.LongerVisits.class, changes).minutes();
    Patient old = chart.patient();
    Patient patient =
        old.withLongestVisitMinutes(
            old.longestVisitMinutes() == null ? null : Integer.valueOf(minutes));
    Chart patientAgrees =
        new Chart(chart.caseName(), chart.charted(), chart.numbering(), patient, chart.teeth());
    Practice agrees =
        PracticeReader.read(
            "longer.json",
            """
            {"schema": "quadrille/practice/1", "appointments": {"longestVisitMinutes": %d}}"""
                .formatted(Math.max(90, minutes)));
    PlanOutcome then =
        new CoursePlanner(Effort.QUICK).plan(patientAgrees, agrees, VisitRange.exactly(2));
    assertInstanceOf(Planned.class, then);
  }

  @Test
  void anAreaThatFitsNoVisitIsCutBetweenTeeth() throws Exception {
    Chart severe = MouthGenerator.mouth(3, Profile.SEVERE);
    Patient old = severe.patient();
    Patient restless = new Patient(old.ageYears(), 70.0, 60, Set.of(), null, false);
    Chart chart =
        new Chart(
            severe.caseName(), severe.charted(), severe.numbering(), restless, severe.teeth());
    Course course = planned(chart, VisitRange.exactly(8), 2);
    Set<AreaRef> names = new HashSet<>();
    course.visits().forEach(visit -> names.addAll(visit.areas()));
    Set<AreaRef> whole = new HashSet<>();
    Area.of(chart).forEach(area -> whole.add(area.ref()));
    assertTrue(names.stream().anyMatch(name -> !whole.contains(name)), names.toString());
    assertTrue(course.visits().stream().allMatch(visit -> visit.bookedMinutes() <= 60));
  }

  private static <T> T only(Class<T> kind, List<?> all) {
    return all.stream().filter(kind::isInstance).map(kind::cast).findFirst().orElseThrow();
  }
}
