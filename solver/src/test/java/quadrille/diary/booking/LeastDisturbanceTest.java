package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.TimeOff;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * Diaries small enough to see which visits must move: promised ones only if they must, held ones
 * before them, others' only where there is no other way. Everybody works from nine to five; Ada may
 * inject, Ben may not.
 */
final class LeastDisturbanceTest {

  private static final LocalDate FIRST = Diaries.MONDAY;
  private static final LocalDate LAST = FIRST.plusDays(41);
  private static final BookingWeights WEIGHTS = BookingWeights.defaults();
  private static final Reason FOLLOWS = new Reason.FollowsItsCourse();
  private static final Reason CLOSED = new Reason.PracticeClosed();

  private static Booking booking(String name, int visit, String start, BookingStatus status) {
    return Diaries.booking(name, visit, start).with(status);
  }

  /** Course A, three visits, each a week after the one before, the first a week after asking. */
  private static Diary threeWeeks(BookingStatus first, BookingStatus third) {
    return Diaries.with(
        booking("A", 1, "2026-03-09T09:00", first),
        booking("A", 2, "2026-03-16T09:00", BookingStatus.PROMISED),
        booking("A", 3, "2026-03-23T09:00", third));
  }

  private static Rebooking after(Diary diary, DiaryChange... changes) {
    assertEquals(List.of(), DiaryAudit.read(diary));
    Rebooking rebooking = Rebooker.of(diary, List.of(changes), WEIGHTS, FIRST, LAST);
    assertEquals(List.of(), rebooking.left());
    assertEquals(List.of(), DiaryAudit.read(rebooking.diary()));
    // What is told to have moved is what stands elsewhere.
    List<String> moved = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      if (!rebooking.diary().bookings().contains(booking)) {
        moved.add(booking.id());
      }
    }
    assertEquals(moved, rebooking.moves().stream().map(move -> move.from().id()).sorted().toList());
    return rebooking;
  }

  private static List<String> reasons(Rebooking rebooking) {
    return rebooking.moves().stream()
        .map(move -> move.from().id() + ": " + move.because())
        .sorted()
        .toList();
  }

  private static LocalDate day(Rebooking rebooking, String id) {
    return rebooking.diary().booking(id).orElseThrow().start().atZone(Diaries.ROME).toLocalDate();
  }

  // ---- a visit that can stay stays, wherever it would be cheaper

  @ParameterizedTest
  @EnumSource(names = {"PROMISED", "HELD"})
  void visitThatCanStayDoesThoughACheaperPlaceIsFree(BookingStatus status) {
    Diary diary = threeWeeks(status, status);
    // Booked anew, the course would start and finish a week sooner.
    Offer anew =
        Offers.of(
                diary.withBookings(List.of()),
                diary.course("A").orElseThrow(),
                WEIGHTS,
                FIRST,
                LAST,
                1)
            .get(0);
    assertEquals(
        List.of(FIRST, FIRST.plusDays(7), FIRST.plusDays(14)),
        anew.visits().stream().map(v -> v.start().atZone(Diaries.ROME).toLocalDate()).toList());

    Rebooking rebooking = after(diary, new DiaryChange.Cancelled("A/2"));
    assertEquals(List.of("A/2: " + new Reason.Cancelled()), reasons(rebooking));
    assertTrue(rebooking.diary().bookings().contains(diary.bookings().get(0)));
    assertTrue(rebooking.diary().bookings().contains(diary.bookings().get(2)));
  }

  // ---- of a held and a promised visit the held one goes

  /**
   * Without the second visit's only day, either the first comes sooner, which costs less waiting,
   * or the third comes a day later, which costs a day more.
   */
  @Test
  void heldThirdVisitMovesThoughThePromisedFirstWouldCostLess() {
    LocalDate closed = LocalDate.of(2026, 3, 16);
    Rebooking rebooking =
        after(
            threeWeeks(BookingStatus.PROMISED, BookingStatus.HELD),
            new DiaryChange.Closed(closed, closed));
    assertEquals(List.of("A/2: " + CLOSED, "A/3: " + FOLLOWS), reasons(rebooking));
    assertEquals(LocalDate.of(2026, 3, 17), day(rebooking, "A/2"));
    assertEquals(LocalDate.of(2026, 3, 24), day(rebooking, "A/3"));
  }

  /**
   * The other way round: the first visit can come sooner only with Ben, whom the patient likes
   * less, and that costs more than a day; but it is only held.
   */
  @Test
  void heldFirstVisitMovesThoughThePromisedThirdWouldCostLess() {
    CourseRequest course =
        new CourseRequest(
            "A",
            FIRST.plusDays(7),
            FIRST,
            Diaries.course("A").visits(),
            6,
            12,
            Availability.ANY,
            new Preferences(List.of(), "ada"));
    Diary diary = Taking.asking(threeWeeks(BookingStatus.HELD, BookingStatus.PROMISED), course);
    Clinician ada = diary.clinicians().get(0);
    diary =
        diary.withClinicians(
            List.of(
                ada.withOff(List.of(new TimeOff(FIRST, FIRST.plusDays(6), null, null, null))),
                Diaries.clinician("ben", Capability.INJECT)));
    LocalDate closed = LocalDate.of(2026, 3, 16);
    Rebooking rebooking = after(diary, new DiaryChange.Closed(closed, closed));
    assertEquals(List.of("A/1: " + new Reason.GoesBefore(2), "A/2: " + CLOSED), reasons(rebooking));
    assertEquals("ben", rebooking.diary().booking("A/1").orElseThrow().clinician());
    assertTrue(day(rebooking, "A/1").isBefore(FIRST.plusDays(7)));
  }

  // ---- others make room only where there is no other way, and then one course

  /** One visit with Ada, within these times only. */
  private static CourseRequest single(String name, List<Interval> times) {
    Availability then =
        times.isEmpty()
            ? Availability.ANY
            : new Availability(
                List.of(),
                List.of(),
                Intervals.without(
                    List.of(
                        new Interval(
                            FIRST.atStartOfDay(Diaries.ROME).toInstant(),
                            LAST.plusDays(1).atStartOfDay(Diaries.ROME).toInstant())),
                    times));
    return new CourseRequest(
        name, FIRST, FIRST, List.of(Diaries.visit(1, 60, 0, 0)), 6, 12, then, Preferences.NONE);
  }

  /**
   * A must leave the fifth of March, and can come otherwise only when Ada treats B (the tenth at
   * nine) or, if so said, C (the eleventh at nine).
   */
  private static Diary threeCourses(BookingStatus b, BookingStatus c, boolean aMayComeAtBoth) {
    Booking first = booking("A", 1, "2026-03-05T09:00", BookingStatus.PROMISED);
    Booking second = booking("B", 1, "2026-03-10T09:00", b);
    Booking third = booking("C", 1, "2026-03-11T09:00", c);
    List<Interval> times = new ArrayList<>(List.of(first.time(), second.time()));
    if (aMayComeAtBoth) {
      times.add(third.time());
    }
    return Diaries.with(first, second, third)
        .withCourses(List.of(single("A", times), single("B", List.of()), single("C", List.of())));
  }

  private static DiaryChange.Closed fifthOfMarch() {
    LocalDate closed = LocalDate.of(2026, 3, 5);
    return new DiaryChange.Closed(closed, closed);
  }

  @ParameterizedTest
  @EnumSource(names = {"PROMISED", "HELD"})
  void onlyCourseThatCanMakeRoomDoesAndItsReasonSaysSo(BookingStatus status) {
    Diary diary = threeCourses(status, BookingStatus.HELD, false);
    Rebooking rebooking = after(diary, fifthOfMarch());
    assertEquals(
        List.of("A/1: " + CLOSED, "B/1: " + new Reason.MakesRoom("A")), reasons(rebooking));
    assertEquals(
        diary.booking("B/1").orElseThrow().time(),
        rebooking.diary().booking("A/1").orElseThrow().time());
    assertEquals(status, rebooking.diary().booking("B/1").orElseThrow().status());
  }

  @Test
  void ofTwoThatCouldMakeRoomTheHeldOneDoes() {
    assertEquals(
        List.of("A/1: " + CLOSED, "C/1: " + new Reason.MakesRoom("A")),
        reasons(
            after(threeCourses(BookingStatus.PROMISED, BookingStatus.HELD, true), fifthOfMarch())));
    assertEquals(
        List.of("A/1: " + CLOSED, "B/1: " + new Reason.MakesRoom("A")),
        reasons(
            after(threeCourses(BookingStatus.HELD, BookingStatus.PROMISED, true), fifthOfMarch())));
  }

  @Test
  void nobodyMakesRoomWhereAPlaceIsFree() {
    Diary diary = threeCourses(BookingStatus.HELD, BookingStatus.HELD, true);
    // The last afternoon hour of the last Friday is free, and dear.
    CourseRequest course =
        single(
            "A",
            List.of(
                diary.booking("A/1").orElseThrow().time(),
                diary.booking("B/1").orElseThrow().time(),
                Diaries.span("2026-04-10T16:00", "2026-04-10T17:00")));
    Rebooking rebooking = after(Taking.asking(diary, course), fifthOfMarch());
    assertEquals(List.of("A/1: " + CLOSED), reasons(rebooking));
    assertEquals(LocalDate.of(2026, 4, 10), day(rebooking, "A/1"));
  }
}
