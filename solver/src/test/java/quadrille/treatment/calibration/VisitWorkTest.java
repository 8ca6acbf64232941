package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.EnumSource.Mode;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.PartMinutes;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** What a record is taken to have been expected to last, against the clock of the plan. */
final class VisitWorkTest {

  private static final VisitWork WORK = new VisitWork(PracticeReader.defaults());

  /** A visit done just as planned. */
  private static CourseLog.Recorded asPlanned(
      Visit visit, Chart chart, @Nullable Double minutes, List<PartMinutes> parts, double share) {
    VisitDone done =
        new VisitDone(
            visit.number(),
            LocalDate.of(2026, 3, 2),
            "a",
            visit.steps().stream().map(step -> StepDone.of(step, share)).toList(),
            visit.injections().stream().map(Given::of).toList(),
            new TreeMap<>(),
            minutes,
            parts,
            visit.bookedMinutes(),
            false,
            List.of(),
            "");
    return new CourseLog.Recorded(2, visit, chart, done);
  }

  private static final Map<Chart, PlanOutcome.Planned> PLANNED = new ConcurrentHashMap<>();

  private static PlanOutcome.Planned planned(Chart chart) {
    return PLANNED.computeIfAbsent(chart, VisitWorkTest::plan);
  }

  private static PlanOutcome.Planned plan(Chart chart) {
    try {
      return assertInstanceOf(
          PlanOutcome.Planned.class,
          new CoursePlanner(Effort.QUICK, 1)
              .planOnly(chart, PracticeReader.defaults(), new VisitRange(1, 6), false));
    } catch (UnworkableException e) {
      throw new AssertionError(e);
    }
  }

  /** The longest step's part, so that it is told apart from the rest. */
  private static PartMinutes longest(Visit visit, double minutes) {
    Entry.Debride longest =
        visit.steps().stream().max(Comparator.comparingInt(Entry::seconds)).orElseThrow();
    assertTrue(longest.seconds() >= 240, "the longest step takes " + longest.seconds() + " s");
    return new PartMinutes(longest.area(), longest.pass(), minutes);
  }

  /** The plan rounds each step and each injection to a whole second, hence the tolerance. */
  @ParameterizedTest
  @EnumSource(
      value = Profile.class,
      mode = Mode.INCLUDE,
      names = {"TREATMENT", "IMPLANTS", "MILD"})
  void visitDoneAsPlannedIsExpectedToLastAsPlanned(Profile profile) {
    Chart chart = MouthGenerator.mouth(4, profile);
    for (Visit visit : planned(chart).course().visits()) {
      CourseLog.Recorded recorded = asPlanned(visit, chart, 60.0, List.of(), 1);
      double expected = Arrays.stream(WORK.expected(recorded)).sum() + WORK.known(recorded);
      assertEquals(
          visit.expectedSeconds(),
          expected,
          0.51 * (visit.steps().size() + visit.injections().size()) + 1,
          profile + ", visit " + visit.number());
    }
  }

  @Test
  void halfOfTheWorkIsHalfOfItsSeconds() {
    Chart chart = MouthGenerator.mouth(4, Profile.TREATMENT);
    Visit visit = planned(chart).course().visits().get(0);
    double[] whole = WORK.expected(asPlanned(visit, chart, 60.0, List.of(), 1));
    double[] half = WORK.expected(asPlanned(visit, chart, 60.0, List.of(), 0.5));
    for (int k = 0; k < whole.length; k++) {
      double factor = WORK.times().get(k).kind().working() ? 0.5 : 1;
      assertEquals(factor * whole[k], half[k], 1e-9, WORK.times().get(k).toString());
    }
  }

  @Test
  void partsAndWhatIsLeftMakeUpTheVisit() {
    Chart chart = MouthGenerator.mouth(4, Profile.TREATMENT);
    Visit visit = planned(chart).course().visits().get(0);
    CourseLog.Recorded recorded = asPlanned(visit, chart, 60.0, List.of(longest(visit, 7)), 1);
    TimedVisit timed = WORK.told(recorded).visit();
    assertNotNull(timed);
    assertEquals(2, timed.stretches().size());
    assertEquals(7 * 60, timed.stretches().get(0).seconds(), 1e-9);
    assertEquals(60 * 60, timed.stretches().stream().mapToDouble(Stretch::seconds).sum(), 1e-9);
    assertEquals(
        Arrays.stream(WORK.expected(recorded)).sum() + WORK.known(recorded),
        timed.stretches().stream().mapToDouble(Stretch::sum).sum(),
        1e-6);
  }

  @Test
  void recordsThatContradictThemselvesAreNotUsed() {
    Chart chart = MouthGenerator.mouth(4, Profile.TREATMENT);
    Visit visit = planned(chart).course().visits().get(0);
    Entry.Debride first = visit.steps().get(0);
    VisitWork.Told tooLong =
        WORK.told(asPlanned(visit, chart, 60.0, List.of(longest(visit, 61)), 1));
    assertNull(tooLong.visit());
    assertEquals(List.of(Trouble.Known.PARTS_TOO_LONG), tooLong.troubles());
    VisitWork.Told nowhere =
        WORK.told(
            asPlanned(
                visit,
                chart,
                60.0,
                List.of(new PartMinutes(AreaRef.of("UR anterior 11"), first.pass(), 5)),
                1));
    assertNull(nowhere.visit());
    assertEquals(
        List.of(
            new Trouble.NoStepOf(AreaRef.of("UR anterior 11"), first.pass(), chart.numbering())),
        nowhere.troubles());
    VisitWork.Told untimed = WORK.told(asPlanned(visit, chart, null, List.of(), 1));
    assertNull(untimed.visit());
    assertEquals(List.of(Trouble.Known.NO_MINUTES), untimed.troubles());
  }
}
