package quadrille.diary.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.diary.book.Diaries.at;
import static quadrille.diary.book.Diaries.booking;
import static quadrille.diary.book.Diaries.course;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.file.LoadedDiary;

/** Visit 2 of course A, on 9 March at nine, is called off on the second. */
final class FreedTimeTest {

  private static final Instant NOW = at("2026-03-02T12:00");
  private static final Booking FREED = booking("A", 2, "2026-03-09T09:00");

  private static List<FreedTime.Sooner> sooner(Diary diary, Instant now) throws Exception {
    return FreedTime.of(new LoadedDiary(diary, "", Map.of()), FREED, now);
  }

  /** B's third visit lies so many days after the ninth. */
  private static Diary diary(int third) {
    List<CourseRequest> courses = new ArrayList<>(Diaries.small().courses());
    courses.add(course("C").withAsked(Diaries.MONDAY.minusDays(3)));
    return Diaries.with(
            booking("A", 1, "2026-03-02T09:00"),
            FREED.with(BookingStatus.CANCELLED),
            booking("B", 1, "2026-03-02T10:00"),
            booking("B", 2, "2026-03-16T09:00"),
            booking("B", 3, "2026-03-" + (9 + third) + "T09:00"))
        .withCourses(courses);
  }

  @Test
  void whoWaitsAndWhoComesSoonerWithTheEffect() throws Exception {
    Diary diary = diary(14);
    assertEquals(
        List.of(
            new FreedTime.Sooner("C", 1, null, FREED.start(), "ada", "one", 10),
            new FreedTime.Sooner(
                "B", 2, diary.booking("B/2").orElseThrow(), FREED.start(), "ada", "one", 7)),
        sooner(diary, NOW));
  }

  @Test
  void nobodyWhoseNextVisitWouldThenComeTooLate() throws Exception {
    assertEquals(
        List.of("C"), sooner(diary(15), NOW).stream().map(FreedTime.Sooner::caseName).toList());
  }

  @Test
  void nobodyOnceItsTimeHasBegun() throws Exception {
    assertEquals(List.of(), sooner(diary(14), FREED.start()));
  }

  @Test
  void nobodyWhomTheAuditWouldFindThere() throws Exception {
    Diary taken = diary(14);
    List<Booking> bookings = new ArrayList<>(taken.bookings());
    bookings.add(booking("C", 1, "2026-03-09T09:30"));
    assertTrue(sooner(taken.withBookings(bookings), NOW).isEmpty());
  }
}
