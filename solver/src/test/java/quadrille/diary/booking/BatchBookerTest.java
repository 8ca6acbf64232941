package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.config.solver.EnvironmentMode;
import ai.timefold.solver.core.config.solver.SolverConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.VisitCase;
import quadrille.seeking.SearchStop;

/** Many courses at once, on invented practices. */
final class BatchBookerTest {

  private static final LocalDate FIRST = RandomDiary.FIRST;
  private static final LocalDate LAST = FIRST.plusDays(41);
  private static final BookingWeights WEIGHTS = BookingWeights.defaults();

  private final RandomDiary random = new RandomDiary(21);
  private final Diary diary = random.diary(3, 2, 15, 42, 0.25);

  private List<CourseRequest> courses(int number) {
    List<CourseRequest> courses = new ArrayList<>();
    for (int i = 0; i < number; i++) {
      courses.add(random.course("P-" + i, 3, diary, FIRST.minusDays(number - i), 7, 14));
    }
    return courses;
  }

  private Diary after(List<CourseRequest> courses, BatchBooker.Booked booked) {
    Diary after = diary;
    for (CourseRequest course : courses) {
      after = Taking.asking(after, course);
    }
    return Taking.booked(after, booked.visits());
  }

  /** Searches side by side would take each other's meters, and say so on standard error. */
  @Test
  void aSearchHasNoMeters() {
    assertEquals(List.of(), BatchBooker.config().determineMetricConfig().getSolverMetricList());
  }

  @Test
  void bookingsPassTheAuditAndCostNoMoreThanInOrderOfArrival() {
    List<CourseRequest> courses = courses(8);
    BatchBooker.Booked inOrder = BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 0);
    BatchBooker.Booked better = BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 300);
    assertEquals(List.of(), DiaryAudit.read(after(courses, inOrder)));
    assertEquals(List.of(), DiaryAudit.read(after(courses, better)));
    assertTrue(better.left().size() <= inOrder.left().size());
    assertTrue(
        better.left().size() < inOrder.left().size() || better.points() < inOrder.points(),
        better.points() + " beside " + inOrder.points());
  }

  @Test
  void sameCoursesGiveTheSameBookings() {
    List<CourseRequest> courses = courses(6);
    assertEquals(
        BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 100),
        BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 100));
  }

  @Test
  void whoLooksOnHearsEachMoveAndEndsTheSearchWithWhatItHas() {
    List<CourseRequest> courses = courses(8);
    SearchStop stop = new SearchStop();
    List<Integer> heard = new ArrayList<>();
    BatchBooker.Booked ended =
        BatchBooker.book(
            diary,
            courses,
            WEIGHTS,
            FIRST,
            LAST,
            new BatchBooker.Watch(
                stop,
                (tried, of) -> {
                  heard.add(tried);
                  assertEquals(BatchBooker.moves(24), of);
                  if (tried == 50) {
                    stop.ask();
                  }
                }));
    assertEquals(IntStream.rangeClosed(1, heard.size()).boxed().toList(), heard);
    assertTrue(heard.size() >= 50 && heard.size() < 100, heard.size() + " moves");
    assertEquals(List.of(), DiaryAudit.read(after(courses, ended)));
    BatchBooker.Booked inOrder = BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 0);
    assertTrue(
        ended.left().size() < inOrder.left().size() || ended.points() <= inOrder.points(),
        ended.points() + " beside " + inOrder.points());
    // Whoever has asked already gets each course at its own best.
    assertEquals(
        inOrder,
        BatchBooker.book(
            diary,
            courses,
            WEIGHTS,
            FIRST,
            LAST,
            new BatchBooker.Watch(stop, (tried, of) -> heard.add(0))));
    assertFalse(heard.contains(0));
  }

  @Test
  void rulesAndSearchReckonAlike() {
    List<CourseRequest> courses = courses(5);
    BatchBooker.Booked booked = BatchBooker.book(diary, courses, WEIGHTS, FIRST, LAST, 0);
    assertEquals(List.of(), booked.left());
    BookingCase booking = new BookingCase(diary, WEIGHTS, FIRST, LAST);
    Occupancy taken = Occupancy.of(booking);
    long cost = 0;
    for (CourseRequest request : courses) {
      CourseCase course = CourseCase.of(0, booking, request);
      CourseSearch.Found found =
          CourseSearch.best(course, taken, CourseSearch.Price.NONE).orElseThrow();
      cost += found.cost();
      for (VisitCase visit : course.visits()) {
        taken.place(found.slots().get(visit.place()), visit.minutes(), visit.uses());
      }
    }
    assertEquals(cost, booked.points());
  }

  @Test
  void solverFindsNoFaultInItsOwnReckoning() {
    BookingCase booking = new BookingCase(diary, WEIGHTS, FIRST, LAST);
    List<CourseCase> cases = new ArrayList<>();
    for (CourseRequest request : courses(4)) {
      cases.add(CourseCase.of(cases.size(), booking, request));
    }
    SolverConfig config =
        BatchBooker.config()
            .withEnvironmentMode(EnvironmentMode.FULL_ASSERT)
            .withTerminationConfig(new TerminationConfig().withMoveCountLimit(60L));
    BookingSolution solved =
        SolverFactory.<BookingSolution>create(config)
            .buildSolver()
            .solve(new BookingSolution(booking, cases));
    assertTrue(solved.visits().stream().allMatch(BookedVisit::booked));
  }
}
