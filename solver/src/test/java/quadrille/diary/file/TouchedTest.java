package quadrille.diary.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.diary.book.Diaries.at;
import static quadrille.diary.book.Diaries.booking;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.book.TimeOff;

/** What a change can touch, beside an audit of everything. */
final class TouchedTest {

  /** A crowded, faulty diary of two weeks. */
  private static Diary crowded(Random random) {
    List<CourseRequest> courses = new ArrayList<>();
    List<Booking> bookings = new ArrayList<>();
    for (int i = 0; i < 25; i++) {
      String name = "C" + i;
      courses.add(Diaries.course(name));
      for (int visit = 1; visit <= 3; visit++) {
        bookings.add(put(booking(name, visit, "2026-03-02T09:00"), random));
      }
    }
    return Diaries.small().withCourses(courses).withBookings(bookings);
  }

  private static Booking put(Booking booking, Random random) {
    Instant start =
        at("2026-03-02T08:00")
            .plusSeconds(86_400L * random.nextInt(18) + 600L * random.nextInt(54));
    return booking.at(
        start, random.nextBoolean() ? "ada" : "ben", random.nextBoolean() ? "one" : "two");
  }

  private static Diary changed(Diary diary, Random random) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    int at = random.nextInt(bookings.size());
    switch (random.nextInt(4)) {
      case 0 -> bookings.set(at, put(bookings.get(at), random));
      case 1 -> bookings.set(at, bookings.get(at).with(BookingStatus.CANCELLED));
      case 2 -> bookings.remove(at);
      default -> {
        List<CourseRequest> courses = new ArrayList<>(diary.courses());
        int course = random.nextInt(courses.size());
        courses.set(
            course, courses.get(course).withEarliest(Diaries.MONDAY.plusDays(random.nextInt(9))));
        return diary.withCourses(courses);
      }
    }
    return diary.withBookings(bookings);
  }

  @Test
  void whatIsNotTouchedIsFoundAsItWas() throws Exception {
    Random random = new Random(7);
    int spared = 0;
    for (int round = 0; round < 150; round++) {
      Diary before = crowded(random);
      Diary after = changed(before, random);
      Touched touched = Touched.between(before, after);
      List<DiaryFinding> was = DiaryAudit.read(before);
      List<DiaryFinding> is = DiaryAudit.read(after);
      assertEquals(of(was, before, touched, false), of(is, after, touched, false));
      assertEquals(of(is, after, touched, true), DiaryAudit.read(after, Instant.MIN, touched));
      spared += after.bookings().stream().filter(touched.negate()).toList().size();
      LoadedDiary loaded = new LoadedDiary(before, "", Map.of());
      DiaryVerdict whole = DiaryVerdict.of(before, was, after, is);
      assertEquals(whole, DiaryFile.verdict(loaded, after, Instant.MIN));
      assertEquals(whole.made(), DiaryFile.made(loaded, after, Instant.MIN));
    }
    assertTrue(spared > 1000, "left alone: " + spared);
  }

  private static List<DiaryFinding> of(
      List<DiaryFinding> findings, Diary diary, Touched touched, boolean those) {
    return findings.stream()
        .filter(one -> touched.test(diary.booking(one.booking()).orElseThrow()) == those)
        .toList();
  }

  @Test
  void hoursOrStockTouchEverything() {
    Diary before = crowded(new Random(1));
    Touched touched =
        Touched.between(before, before.withClosed(List.of(TimeOff.day(Diaries.MONDAY, null))));
    assertTrue(before.bookings().stream().allMatch(touched));
    assertFalse(before.bookings().stream().anyMatch(Touched.between(before, before)));
  }
}
