package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.Visit;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.WorkNote;

/**
 * Sites that could not be probed. A gross pass first is accepted where deposits prevent the
 * examination, and the evaluation then comes on a later date (explainers of the US procedure code);
 * otherwise an area that is begun is finished (rule of the trade).
 */
final class ChartingCasesTest {
  private static final Patient ADULT = new Patient(50, 75.0, null, Set.of(), null, false);
  private static final Site UNPROBED = new Site(null, 0, false);

  private final List<ToothChart> teeth = new ArrayList<>();

  /** One lingual side of 16 in three teeth: 3 of 18 sites, below a quarter. */
  @Test
  void fewSitesAreChartedBetweenTheGrossAndTheFinePass() throws Exception {
    add(16, Deposit.HEAVY, 5, 0);
    add(15, Deposit.HEAVY, 5, 6);
    add(14, Deposit.HEAVY, 5, 6);
    Visit visit = planned().visits().get(0);
    List<Entry.Probe> probes = probes(visit);
    assertEquals(1, probes.size());
    assertEquals(List.of(AreaRef.of("UR posterior")), probes.get(0).areas());
    assertEquals(StepAspect.LINGUAL, probes.get(0).aspect());
    // 21 s a tooth, one of its two aspects.
    assertEquals(11, probes.get(0).seconds());
    int at = visit.sequence().indexOf(probes.get(0));
    Entry.Debride next = assertInstanceOf(Entry.Debride.class, visit.sequence().get(at + 1));
    assertEquals(Pass.FINE, next.pass());
    assertEquals(StepAspect.LINGUAL, next.aspect());
    assertTrue(
        visit.sequence().subList(0, at).stream()
            .anyMatch(one -> one instanceof Entry.Debride step && step.pass() == Pass.GROSS));
    assertTrue(visit.cautions().contains(Caution.Known.PROVISIONAL_MINUTES));
  }

  @Test
  void mouthProbedThroughoutIsNotChartedAgain() throws Exception {
    add(16, Deposit.HEAVY, 5, 5);
    Visit visit = planned().visits().get(0);
    assertEquals(List.of(), probes(visit));
    assertFalse(visit.cautions().contains(Caution.Known.PROVISIONAL_MINUTES));
  }

  /** Four teeth of six sites, half of them hidden: more than a quarter. */
  @Test
  void mouthThatCannotBeChartedIsMadeChartable() throws Exception {
    for (int tooth : List.of(15, 16, 35, 36)) {
      add(tooth, Deposit.HEAVY, 5, 0);
    }
    Course course = planned();
    assertTrue(course.chartsFirst());
    // Deposit below the margin is numbed, and so each side has its visit.
    assertEquals(2, course.visits().size());
    for (Visit visit : course.visits()) {
      assertTrue(visit.steps().stream().allMatch(step -> step.pass() == Pass.GROSS));
      List<Entry.Probe> probes = probes(visit);
      assertEquals(1, probes.size());
      assertEquals(visit.areas(), probes.get(0).areas());
      // Two teeth, one aspect each.
      assertEquals(21, probes.get(0).seconds());
      int at = visit.sequence().indexOf(probes.get(0));
      assertTrue(
          visit.sequence().subList(at, visit.sequence().size()).stream()
              .noneMatch(Entry.Debride.class::isInstance));
      assertTrue(visit.cautions().contains(Caution.Known.ENDS_WITH_CHARTING));
      assertTrue(visit.cautions().contains(leftAfter(course, visit)));
    }
    assertEquals(
        Set.of(new HeldBack.AwaitsChart()),
        Set.copyOf(course.heldBack().stream().map(HeldBack::reason).distinct().toList()));
    assertTrue(course.heldBack().stream().allMatch(held -> held.pass() == Pass.FINE));
    WorkNote.ChartFirst note =
        course.cautions().stream()
            .filter(
                one ->
                    one instanceof Caution.OfWork work
                        && work.note() instanceof WorkNote.ChartFirst)
            .map(one -> (WorkNote.ChartFirst) ((Caution.OfWork) one).note())
            .findFirst()
            .orElseThrow();
    assertEquals(12, note.unprobed());
    assertEquals(24, note.sites());
    assertTrue(note.seconds() > 0);
  }

  /** The share is the practice's: with all allowed, the areas are finished in their visits. */
  @Test
  void practiceMayPlanWithMoreSitesUnprobed() throws Exception {
    for (int tooth : List.of(15, 16)) {
      add(tooth, Deposit.HEAVY, 5, 0);
    }
    Course course = planned("\"passes\": {\"chartFirstShare\": 0.5}");
    assertFalse(course.chartsFirst());
    assertEquals(List.of(), course.heldBack());
    assertEquals(1, course.visits().size());
  }

  /** What was probed waits whole, so that nothing is begun there and left. */
  @Test
  void areaThatWasProbedWaitsWholeForTheNewChart() throws Exception {
    for (int tooth : List.of(15, 16)) {
      add(tooth, Deposit.HEAVY, 0, 0);
    }
    add(26, Deposit.HEAVY, 5, 5);
    Course course = planned();
    assertEquals(
        List.of(AreaRef.of("UR posterior")),
        course.visits().stream().flatMap(visit -> visit.areas().stream()).distinct().toList());
    assertTrue(
        course.heldBack().stream()
            .anyMatch(held -> held.pass() == Pass.GROSS && held.teeth().contains(Tooth.ofIso(26))));
  }

  /** No deposit keeps it from being probed: then it is charted, not scaled. */
  @Test
  void mouthWithoutDepositIsChartedBeforeAnythingIsPlanned() throws Exception {
    add(16, Deposit.LIGHT, 0, 0);
    PlanOutcome.NoPlan none =
        assertInstanceOf(PlanOutcome.NoPlan.class, outcome(PracticeReader.defaults()));
    assertEquals(List.of(new Clash.EverythingWaits(new HeldBack.AwaitsChart())), none.clashes());
  }

  /** Courses made by another practice's rule, read by this one's. */
  @Test
  void auditFindsWhatIsNotChartedAndWhatDidNotWait() throws Exception {
    add(16, Deposit.HEAVY, 5, 0);
    String neverAgain = "\"minutes\": {\"chartToothSeconds\": 0}";
    String withAll = "\"passes\": {\"chartFirstShare\": 1}";
    Course waits = planned();
    Course uncharted = planned(withAll + ", " + neverAgain);
    assertFinding(waits, withAll, "is held back, but nothing that it waits for is missing");
    assertFinding(uncharted, withAll, "The charting before the step");
    assertFinding(uncharted, neverAgain, "is planned, though too much is unprobed");
    assertFinding(
        waits, neverAgain, "The charting after the last step takes 11 s, but 0 s are due");
  }

  @Test
  void auditFindsChartingOfSomethingElse() throws Exception {
    add(16, Deposit.HEAVY, 5, 0);
    String any = "\"name\": \"the default\"";
    String withAll = "\"passes\": {\"chartFirstShare\": 1}";
    for (String practice : List.of(any, withAll)) {
      Course course = planned(practice);
      assertFinding(
          probing(course, List.of(AreaRef.of("UR anterior")), null), practice, "is of UR anterior");
      assertFinding(probing(course, null, StepAspect.FACIAL), practice, "UR posterior facial, but");
      assertEquals(
          List.of(), Audit.audit(probing(course, null, null), chart(), practice(practice)));
    }
  }

  /** With all charting of other areas and another aspect, where these are given. */
  private static Course probing(
      Course course, @Nullable List<AreaRef> areas, @Nullable StepAspect aspect) {
    return course.withVisits(
        course.visits().stream()
            .map(
                visit ->
                    visit.withSequence(
                        visit.sequence().stream()
                            .map(
                                entry ->
                                    entry instanceof Entry.Probe probe
                                        ? new Entry.Probe(
                                            probe.startSecond(),
                                            probe.seconds(),
                                            areas == null ? probe.areas() : areas,
                                            aspect == null ? probe.aspect() : aspect)
                                        : entry)
                            .toList()))
            .toList());
  }

  private void assertFinding(Course course, String members, String words) throws Exception {
    List<String> found =
        Audit.audit(course, chart(), practice(members)).stream().map(Finding::line).toList();
    assertTrue(found.stream().anyMatch(line -> line.contains(words)), found::toString);
  }

  /** Every area that was begun waits for its fine pass. */
  private static Caution.LeftOpen leftAfter(Course course, Visit visit) {
    List<AreaRef> areas =
        IntStream.range(0, course.visits().indexOf(visit) + 1)
            .boxed()
            .flatMap(i -> course.visits().get(i).areas().stream())
            .sorted()
            .toList();
    return new Caution.LeftOpen(
        areas, areas.stream().map(area -> new AreaPass(area, Pass.FINE)).toList());
  }

  private static List<Entry.Probe> probes(Visit visit) {
    return visit.sequence().stream()
        .filter(Entry.Probe.class::isInstance)
        .map(Entry.Probe.class::cast)
        .toList();
  }

  /**
   * @param facialMm of the facial sites; 0 where none was probed
   */
  private void add(int iso, Deposit deposit, int facialMm, int lingualMm) {
    teeth.add(
        new ToothChart(
            Tooth.ofIso(iso),
            ToothStatus.NATURAL,
            deposit,
            0,
            0,
            Set.of(),
            reading(facialMm),
            reading(lingualMm)));
  }

  private static AspectReading reading(int mm) {
    return mm == 0 ? new AspectReading(UNPROBED, UNPROBED, UNPROBED) : AspectReading.even(mm);
  }

  private Course planned() throws Exception {
    return planned("\"name\": \"the default\"");
  }

  private Course planned(String members) throws Exception {
    return assertInstanceOf(PlanOutcome.Planned.class, outcome(practice(members))).course();
  }

  private static Practice practice(String members) throws Exception {
    return PracticeReader.read(
        "practice.json", "{\"schema\": \"quadrille/practice/1\", " + members + "}");
  }

  private Chart chart() {
    return new Chart("T-1", null, Numbering.ISO3950, ADULT, teeth);
  }

  private PlanOutcome outcome(Practice practice) throws Exception {
    return new CoursePlanner(Effort.QUICK).plan(chart(), practice, new VisitRange(1, 4));
  }
}
