package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.work.Burden;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;
import quadrille.seeking.SearchStop;

final class SearchStopTest {
  /** With passes apart, which is searched. */
  private static final Practice PRACTICE = practice();

  private static Practice practice() {
    Practice usual = PracticeReader.defaults();
    return usual.withAppointments(usual.appointments().withPassesTogether(PassesTogether.FREE));
  }

  private final SearchStop stop = new SearchStop();

  /** Searches side by side would take each other's meters, and say so on standard error. */
  @Test
  void aSearchHasNoMeters() {
    assertEquals(List.of(), Stager.config().determineMetricConfig().getSolverMetricList());
  }

  @Test
  void endsASearchThatRunsAndTakesTheInterruptBack() {
    Thread asking = new Thread(stop::ask);
    String answer =
        stop.during(
            () -> {
              asking.start();
              while (!Thread.currentThread().isInterrupted()) {
                Thread.onSpinWait();
              }
              return "found";
            },
            () -> "unsought");
    assertEquals("found", answer);
    assertFalse(Thread.currentThread().isInterrupted());
  }

  @Test
  void beginsNoSearchOnceAsked() {
    stop.ask();
    assertEquals("unsought", stop.during(() -> "found", () -> "unsought"));
    assertFalse(Thread.currentThread().isInterrupted());
  }

  @Test
  void leavesThreadsAloneThatNoLongerSearch() {
    assertEquals("found", stop.during(() -> "found", () -> "unsought"));
    stop.ask();
    assertFalse(Thread.currentThread().isInterrupted());
  }

  @Test
  void stagerAskedBeforehandAnswersWithAFirstCourseAndSaysSo() throws Exception {
    stop.ask();
    Staged staged = new Stager(Effort.THOROUGH, stop).stage(staging());
    assertTrue(staged.cutShort());
    assertFalse(staged.betterThan(new Stager(Effort.QUICK).stage(staging())));
  }

  /** A thorough search of such a mouth takes far longer than the asking does. */
  @Test
  void stagerAskedMidwayAnswersWithWhatItHas() throws Exception {
    StagingCase staging = staging();
    Thread asking =
        new Thread(
            () -> {
              try {
                Thread.sleep(200);
              } catch (InterruptedException e) {
                throw new IllegalStateException(e);
              }
              stop.ask();
            });
    asking.start();
    Staged staged = new Stager(Effort.THOROUGH, stop).stage(staging);
    asking.join();
    assertTrue(staged.cutShort());
    assertEquals(staging.allSteps(), staged.sets().stream().reduce(StepSet.EMPTY, StepSet::union));
    assertFalse(Thread.currentThread().isInterrupted());
  }

  @Test
  void oneThatIsNeverAskedChangesNothing() throws Exception {
    Staged with = new Stager(Effort.QUICK, stop).stage(staging());
    Staged without = new Stager(Effort.QUICK).stage(staging());
    assertFalse(with.cutShort());
    assertEquals(without.sets(), with.sets());
    assertEquals(without.terms(), with.terms());
  }

  private static StagingCase staging() throws Exception {
    Chart chart = MouthGenerator.mouth(3, Profile.SEVERE);
    WorkList work = WorkPlanner.plan(chart, PRACTICE, Area.of(chart));
    Map<AreaRef, Double> burdens = new LinkedHashMap<>();
    for (Area area : work.areas()) {
      burdens.put(area.ref(), Burden.of(area, chart, PRACTICE.minutes()));
    }
    return new StagingCase(chart.patient(), PRACTICE, work.steps(), burdens, 4);
  }
}
