package quadrille.treatment.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Course;
import quadrille.plan.work.StepAspect;

/** The sample's visits each have one step of 100 s: UR posterior, fine, facial, tooth 16. */
final class CourseProgressTest {

  private static CourseProgress progress(Course course, Event... events) {
    Event.Planned planned = SampleLogs.planned();
    List<LogEntry> entries = new ArrayList<>();
    entries.add(
        new LogEntry(
            1, SampleLogs.NINE, new Event.Planned(course, planned.chart(), planned.practice())));
    for (Event event : events) {
      entries.add(new LogEntry(entries.size() + 1, SampleLogs.NINE, event));
    }
    return CourseProgress.of(new CourseLog(entries, null));
  }

  private static VisitDone done(int visit, StepDone... steps) {
    return new VisitDone(
        visit,
        LocalDate.of(2026, 3, 2),
        "C2",
        List.of(steps),
        List.of(),
        new TreeMap<>(),
        20.0,
        List.of(),
        30,
        false,
        List.of(),
        "");
  }

  private static StepDone step(String area, int tooth, double share) {
    return new StepDone(
        AreaRef.of(area),
        Pass.FINE,
        StepAspect.FACIAL,
        List.of(Tooth.ofIso(tooth)),
        "slim curved right",
        share);
  }

  private static StepDone sixteen(double share) {
    return step("UR posterior", 16, share);
  }

  private static CourseProgress.OfArea onlyArea(CourseProgress progress, int visit) {
    List<CourseProgress.OfArea> areas = progress.visits().get(visit - 1).areas();
    assertEquals(1, areas.size());
    return areas.get(0);
  }

  @Test
  void nothingIsDoneBeforeAnyVisit() {
    CourseProgress progress = progress(SampleLogs.course(1, 2), SampleLogs.booked("C2"));
    assertEquals(0, progress.share());
    assertEquals(200, progress.leftSeconds());
    assertEquals(Extent.NOT_DONE, onlyArea(progress, 1).extent());
    assertEquals(60, progress.visits().get(1).promised().minutes());
    assertEquals(List.of(), progress.leftOver());
  }

  @Test
  void aWholeVisitIsDone() {
    CourseProgress progress = progress(SampleLogs.course(1), done(1, sixteen(1)));
    assertEquals(Extent.DONE, onlyArea(progress, 1).extent());
    assertEquals(1, progress.share());
    assertEquals(List.of(), progress.leftOver());
  }

  @Test
  void whatIsLeftOfAPartIsLeftOverWhereNoVisitHasIt() {
    CourseProgress progress = progress(SampleLogs.course(1), done(1, sixteen(0.4)));
    assertEquals(Extent.PART_DONE, onlyArea(progress, 1).extent());
    assertEquals(0.4, onlyArea(progress, 1).share(), 1e-12);
    assertEquals(1, progress.leftOver().size());
    CourseProgress.LeftOver left = progress.leftOver().get(0);
    assertEquals(1, left.visit());
    assertEquals(List.of(Tooth.ofIso(16)), left.teeth());
    assertEquals(60, left.seconds(), 1e-9);
    assertEquals(0.4, progress.share(), 1e-12);
  }

  @Test
  void aPartIsMadeUpByTheVisitThatDidItsRest() {
    AreaRef area = AreaRef.of("UR posterior");
    CourseProgress left = progress(SampleLogs.course(1, 2), done(1, sixteen(0.4)));
    assertTrue(left.madeUp(1, area).isEmpty());
    CourseProgress made =
        progress(SampleLogs.course(1, 2), done(1, sixteen(0.4)), done(2, sixteen(1)));
    assertEquals(2, made.madeUp(1, area).getAsInt());
    assertTrue(made.madeUp(2, area).isEmpty());
    assertTrue(made.madeUp(1, AreaRef.of("UL posterior")).isEmpty());
  }

  @Test
  void whatAVisitToComeHasIsNotLeftOverAndPartDoneBeforeIt() {
    CourseProgress progress = progress(SampleLogs.course(1, 2), done(1, sixteen(0.4)));
    assertEquals(List.of(), progress.leftOver());
    assertEquals(Extent.PART_DONE, onlyArea(progress, 2).extent());
    assertEquals(0.4, onlyArea(progress, 2).share(), 1e-12);
    assertEquals(60, progress.leftSeconds(), 1e-9);
  }

  @Test
  void aNewPlanHasTakenIntoAccountWhatWasDoneBeforeIt() {
    CourseProgress progress =
        progress(
            SampleLogs.course(1),
            done(1, sixteen(0.4)),
            new Event.Replanned(SampleLogs.course(2), SampleLogs.chart(), List.of()));
    assertEquals(List.of(), progress.leftOver());
    assertEquals(Extent.NOT_DONE, onlyArea(progress, 2).extent());
    assertEquals(100, progress.leftSeconds(), 1e-9);
    assertEquals(40, progress.doneSeconds(), 1e-9);
  }

  @Test
  void workOutsideThePlanOfItsVisitIsEarly() {
    CourseProgress progress =
        progress(SampleLogs.course(1), done(1, sixteen(1), step("UL posterior", 26, 1)));
    List<CourseProgress.OfArea> areas = progress.visits().get(0).areas();
    assertEquals(
        List.of("UR posterior", "UL posterior"),
        areas.stream().map(a -> a.area().toString()).toList());
    assertTrue(areas.get(0).planned());
    assertFalse(areas.get(1).planned());
    assertEquals(2, progress.visits().get(0).areas(Extent.DONE).size());
  }

  @Test
  void aCorrectionCountsInPlaceOfWhatItCorrects() {
    CourseProgress progress =
        progress(
            SampleLogs.course(1),
            done(1, sixteen(0)),
            new Corrected(2, done(1, sixteen(1)), "a slip"));
    assertEquals(Extent.DONE, onlyArea(progress, 1).extent());
    assertEquals(1, progress.share());
  }
}
