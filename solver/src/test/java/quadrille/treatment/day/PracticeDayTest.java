package quadrille.treatment.day;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.work.StepAspect;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

final class PracticeDayTest {

  private static final LocalDate MONDAY = Diaries.MONDAY;
  private static final LocalDateTime NOON = MONDAY.atTime(12, 0);
  private static final OffsetDateTime NINE = OffsetDateTime.parse("2026-02-27T09:00:00+01:00");

  private static Entry.Debride step() {
    return new Entry.Debride(
        600,
        100,
        AreaRef.of("UR posterior"),
        StepAspect.FACIAL,
        Pass.FINE,
        "slim curved right",
        Power.LOW,
        false,
        List.of(Tooth.ofIso(16)));
  }

  private static Visit visit(int number) {
    return new Visit(
        number,
        NumbSide.NONE,
        60,
        0.1,
        List.of(AreaRef.of("UR posterior")),
        List.of(),
        List.of(),
        0,
        0,
        0,
        0,
        List.of(new Entry.SetUp(0, 600), step(), new Entry.Close(700, 300)),
        List.of("slim curved right"),
        List.of(),
        List.of());
  }

  /** A course of two visits, six to twelve weeks until its re-evaluation. */
  private static Course course(String name) {
    return new Course(
        name,
        List.of(visit(1), visit(2)),
        7,
        14,
        6,
        12,
        new Cost(1000, 900, Map.of()),
        List.of(),
        List.of(),
        List.of());
  }

  private static CourseLog log(String name, Event... events) {
    return log(course(name), events);
  }

  private static CourseLog log(Course course, Event... events) {
    String name = course.caseName();
    Chart chart =
        new Chart(
            name,
            LocalDate.of(2026, 2, 20),
            Numbering.ISO3950,
            new Patient(54, 70.5, 90, java.util.Set.of(), null, false),
            List.of());
    List<LogEntry> entries = new ArrayList<>();
    entries.add(
        new LogEntry(
            1,
            NINE,
            new Event.Planned(course, chart, PracticeReader.defaults()),
            Numbering.ISO3950));
    for (Event event : events) {
      entries.add(new LogEntry(entries.size() + 1, NINE, event, Numbering.ISO3950));
    }
    return new CourseLog(entries, null);
  }

  private static VisitDone done(int visit, LocalDate day, double share) {
    return new VisitDone(
        visit,
        day,
        "C",
        List.of(
            new StepDone(
                step().area(),
                step().pass(),
                step().aspect(),
                step().teeth(),
                step().insert(),
                share)),
        List.of(),
        new TreeMap<>(),
        50.0,
        List.of(),
        60,
        false,
        List.of(),
        "");
  }

  private static Event.Booked promised(int visit, String start) {
    return new Event.Booked(
        List.of(new Event.Appointment(visit, LocalDateTime.parse(start), 50, "C")));
  }

  private static PracticeDay day(@Nullable Diary diary, CourseLog... logs) {
    return PracticeDay.of(MONDAY, NOON, diary, List.of(logs), Map.of());
  }

  private static Diary diary(Booking... bookings) {
    return Diaries.with(bookings).withCourses(List.of());
  }

  @Test
  void whoComesIsTheDiarysByTimeWithWhatTheirLogsPlan() {
    PracticeDay day =
        day(
            diary(
                Diaries.booking("B", 1, "2026-03-02T14:00"),
                Diaries.booking("A", 2, "2026-03-02T09:00"),
                Diaries.booking("A", 3, "2026-03-09T09:00"),
                Diaries.booking("C", 1, "2026-03-02T08:00").with(BookingStatus.CANCELLED)),
            log("A"));
    assertEquals(List.of("A", "B"), day.coming().stream().map(Coming::caseName).toList());
    assertEquals(visit(2), day.coming().get(0).planned());
    assertNull(day.coming().get(1).log());
    assertEquals(LocalDate.of(2026, 3, 9), day.next());
  }

  @Test
  void aVisitThatOnlyItsLogPromisesComesTooUnlessTheDiaryCalledItOff() {
    CourseLog log = log("A", promised(1, "2026-03-02T10:00"));
    Coming coming = day(null, log).coming().get(0);
    assertEquals(BookingStatus.PROMISED, coming.status());
    assertEquals(10, coming.minutesShort());
    assertEquals(1, day(diary(), log).coming().size());
    assertEquals(
        List.of(),
        day(diary(Diaries.booking("A", 1, "2026-03-02T10:00").with(BookingStatus.MISSED)), log)
            .coming());
  }

  @Test
  void visitsInNoDiaryWaitToBeBooked() {
    assertEquals(List.of(new Waiting.ToBook("A", List.of(1, 2))), day(null, log("A")).waiting());
    assertEquals(
        List.of(new Waiting.ToBook("A", List.of(2))),
        day(diary(Diaries.booking("A", 1, "2026-03-02T14:00")), log("A")).waiting());
    Diary asking = diary().withCourses(List.of(Diaries.course("B")));
    assertEquals(List.of(new Waiting.ToBook("B", List.of(1, 2, 3))), day(asking).waiting());
  }

  @Test
  void aVisitWhoseTimeHasPassedWaitsToBeRecorded() {
    Diary diary =
        diary(
            Diaries.booking("A", 1, "2026-02-27T09:00").with(BookingStatus.DONE),
            Diaries.booking("A", 2, "2026-03-02T11:30"));
    assertEquals(
        List.of(new Waiting.ToRecord("A", 1, LocalDate.of(2026, 2, 27))),
        day(diary, log("A")).waiting());
    assertEquals(List.of(), day(diary, log("A", done(1, LocalDate.of(2026, 2, 27), 1))).waiting());
  }

  @Test
  void whatWasLeftOverWaitsToBePlannedAgain() {
    CourseLog log =
        log("A", done(1, LocalDate.of(2026, 2, 20), 0.3), done(2, LocalDate.of(2026, 2, 27), 0.4));
    assertEquals(List.of(new Waiting.ToPlanAgain("A")), day(null, log).waiting());
  }

  @Test
  void aFinishedCourseWaitsToBeReevaluatedUntilItsMouthIsChartedAgain() {
    LocalDate last = MONDAY.minusWeeks(6);
    CourseLog log = log("A", done(1, last.minusDays(7), 1), done(2, last, 1));
    assertEquals(
        List.of(new Waiting.ToReevaluate("A", MONDAY, last.plusWeeks(12))),
        day(null, log).waiting());
    assertEquals(
        List.of(),
        PracticeDay.of(MONDAY, NOON.minusDays(1), null, List.of(log), Map.of()).waiting());
    assertEquals(
        List.of(),
        PracticeDay.of(MONDAY, NOON, null, List.of(log), Map.of("A", last.plusDays(1))).waiting());
  }

  @Test
  void aFinishedCourseThatHeldWorkBackWaitsToBePlannedAgainAndNotToBeReevaluated() {
    LocalDate last = MONDAY.minusWeeks(6);
    Course holding =
        course("A")
            .withHeldBack(
                List.of(
                    new HeldBack(
                        AreaRef.of("UL posterior"),
                        Pass.FINE,
                        StepAspect.BOTH,
                        List.of(Tooth.ofIso(26)),
                        new HeldBack.NoHistory())));
    CourseLog log = log(holding, done(1, last.minusDays(7), 1), done(2, last, 1));
    assertEquals(List.of(new Waiting.ToPlanAgain("A")), day(null, log).waiting());
    assertEquals(
        List.of(),
        PracticeDay.of(MONDAY, NOON, null, List.of(log), Map.of("A", last.plusDays(1))).waiting());
  }
}
