package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/** New places after changes, in an invented practice with eight courses booked. */
final class RebookerTest {

  private static final LocalDate FIRST = RandomDiary.FIRST;
  private static final LocalDate LAST = FIRST.plusDays(41);
  private static final BookingWeights WEIGHTS = BookingWeights.defaults();

  private Diary diary = new RandomDiary(31).diary(3, 3, 15, 42, 0.1, 4);

  @BeforeEach
  void bookCourses() {
    RandomDiary random = new RandomDiary(31);
    for (int i = 0; i < 8; i++) {
      CourseRequest course = random.course("P-" + i, 3, diary);
      List<Offer> offers = Offers.of(diary, course, WEIGHTS, FIRST, LAST, 1);
      diary = Taking.booked(Taking.asking(diary, course), offers.get(0).visits());
    }
    assertEquals(List.of(), DiaryAudit.read(diary));
    assertEquals(24, diary.bookings().size());
  }

  private Rebooking after(DiaryChange... changes) {
    Rebooking rebooking = Rebooker.of(diary, List.of(changes), WEIGHTS, FIRST, LAST);
    assertEquals(List.of(), rebooking.left());
    assertEquals(List.of(), DiaryAudit.read(rebooking.diary()));
    return rebooking;
  }

  /** Bookings that stand elsewhere than before, or not at all. */
  private List<String> disturbed(Diary after) {
    List<String> ids = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      if (!after.bookings().contains(booking)) {
        ids.add(booking.id());
      }
    }
    return ids;
  }

  @Test
  void nothingChangedMovesNothing() {
    assertEquals(diary.bookings(), after().diary().bookings());
  }

  @Test
  void cancelledVisitIsBookedAgainAndNothingElseMoves() {
    Rebooking rebooking = after(new DiaryChange.Cancelled("P-3/3"));
    assertEquals(List.of("P-3/3"), disturbed(rebooking.diary()));
    Booking old = rebooking.diary().booking("P-3/3").orElseThrow();
    assertEquals(BookingStatus.CANCELLED, old.status());
    assertTrue(rebooking.diary().standing("P-3", 3).isPresent());
    assertEquals(new Reason.Cancelled(), rebooking.moves().get(0).because());
    Booking again = rebooking.diary().standing("P-3", 3).orElseThrow();
    assertTrue(!again.time().overlaps(old.time()), again.toString());
  }

  @Test
  void sickClinicianMovesTheirVisitsOfThatDayOnlyWhereTheOthersCanStay() {
    Booking one = diary.booking("P-2/2").orElseThrow();
    LocalDate day = one.start().atZone(diary.zone()).toLocalDate();
    Rebooking rebooking = after(new DiaryChange.Away(one.clinician(), day, day));
    List<String> must =
        diary.bookings().stream()
            .filter(
                booking ->
                    booking.clinician().equals(one.clinician())
                        && booking.start().atZone(diary.zone()).toLocalDate().equals(day))
            .map(Booking::id)
            .toList();
    // One more has to follow: between its neighbours there is no other place for the fifth's
    // second.
    assertEquals(List.of("P-2/2", "P-3/2", "P-4/2", "P-5/2"), must);
    assertEquals(
        List.of("P-2/2", "P-3/2", "P-4/2", "P-5/2", "P-5/3"), disturbed(rebooking.diary()));
    List<Booking> neighboursStay = new ArrayList<>(rebooking.diary().bookings());
    neighboursStay.removeIf(booking -> booking.id().matches("P-5/[23]"));
    neighboursStay.add(diary.booking("P-5/3").orElseThrow());
    Diary stays = rebooking.diary().withBookings(neighboursStay);
    assertEquals(
        List.of(), Offers.of(stays, diary.course("P-5").orElseThrow(), WEIGHTS, FIRST, LAST, 1));
    for (Rebooking.Move move : rebooking.moves()) {
      if (must.contains(move.from().id())) {
        assertEquals(new Reason.ClinicianAway(one.clinician()), move.because());
      } else {
        assertEquals(new Reason.FollowsItsCourse(), move.because());
      }
    }
    assertEquals(disturbed(rebooking.diary()).size(), rebooking.moves().size());
    for (Booking booking : rebooking.diary().bookings()) {
      Booking before = diary.booking(booking.id()).orElseThrow();
      assertEquals(booking.equals(before) ? 0 : 1, booking.changes(), booking.toString());
    }
  }

  @Test
  void closedDayEmptiesThatDay() {
    LocalDate day = diary.booking("P-5/2").orElseThrow().start().atZone(diary.zone()).toLocalDate();
    Rebooking rebooking = after(new DiaryChange.Closed(day, day));
    assertTrue(
        rebooking.diary().bookings().stream()
            .noneMatch(one -> one.start().atZone(diary.zone()).toLocalDate().equals(day)));
  }

  @Test
  void visitWithoutAPlaceIsSaidAndNotForgotten() {
    // Everybody is away for good, so nothing can be booked.
    List<DiaryChange> changes = new ArrayList<>();
    diary.clinicians().forEach(who -> changes.add(new DiaryChange.Away(who.id(), FIRST, LAST)));
    Rebooking rebooking = Rebooker.of(diary, changes, WEIGHTS, FIRST, LAST);
    assertEquals(24, rebooking.left().size());
    assertEquals(24, rebooking.diary().bookings().size());
    for (Booking booking : rebooking.diary().bookings()) {
      assertEquals(BookingStatus.CANCELLED, booking.status());
      assertEquals(1, booking.changes());
    }
    assertEquals(List.of(), DiaryAudit.read(rebooking.diary()));
  }

  @Test
  void aDeadlineIsKeptByWhatIsBookedAgainOrSaidToBeBroken() {
    CourseRequest course = diary.course("P-3").orElseThrow();
    LocalDate first = day("P-3", 1);
    int days = (int) ChronoUnit.DAYS.between(first, day("P-3", 3));
    CourseRequest.Deadline deadline = new CourseRequest.Deadline(1, 3, days + 3);
    diary = Taking.asking(diary, course.withDeadlines(List.of(deadline)));
    Rebooking again = after(new DiaryChange.Cancelled("P-3/3"));
    assertEquals(List.of(), again.broken());
    Booking now = again.diary().standing("P-3", 3).orElseThrow();
    LocalDate by = first.plusDays(days + 3);
    assertTrue(!now.start().atZone(diary.zone()).toLocalDate().isAfter(by), now.toString());

    // The first visit has been; closed from the day after it until the deadline.
    LocalDate next = first.plusDays(1);
    Rebooking broken =
        Rebooker.of(diary, List.of(new DiaryChange.Closed(next, by)), WEIGHTS, next, LAST);
    assertEquals(
        List.of(new Rebooking.Broken("P-3", deadline, by)),
        broken.broken().stream().filter(one -> one.caseName().equals("P-3")).toList());
    assertEquals(List.of(), DiaryAudit.read(broken.diary()));
  }

  private LocalDate day(String caseName, int visit) {
    return diary.standing(caseName, visit).orElseThrow().start().atZone(diary.zone()).toLocalDate();
  }

  @Test
  void whatIsBookedAgainOfAProvisionalCourseIsHeld() {
    List<Booking> bookings = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      bookings.add(booking.caseName().equals("P-3") ? booking.with(BookingStatus.HELD) : booking);
    }
    diary =
        Taking.asking(
            diary.withBookings(bookings), diary.course("P-3").orElseThrow().withProvisional(true));
    Rebooking rebooking = after(new DiaryChange.Cancelled("P-3/3"));
    assertEquals(BookingStatus.HELD, rebooking.diary().standing("P-3", 3).orElseThrow().status());
  }

  @Test
  void visitsThatFollowOneWithoutAPlaceGoAsWell() {
    CourseRequest course = diary.course("P-3").orElseThrow();
    // The patient can come only while the two later visits are.
    Availability then =
        new Availability(
            List.of(),
            List.of(),
            Intervals.without(
                List.of(
                    new Interval(
                        FIRST.atStartOfDay(diary.zone()).toInstant(),
                        LAST.plusDays(1).atStartOfDay(diary.zone()).toInstant())),
                List.of(
                    diary.booking("P-3/2").orElseThrow().time(),
                    diary.booking("P-3/3").orElseThrow().time())));
    diary = Taking.asking(diary, course.withAvailability(then));
    Rebooking rebooking =
        Rebooker.of(diary, List.of(new DiaryChange.Cancelled("P-3/1")), WEIGHTS, FIRST, LAST);
    assertEquals(
        List.of(
            "P-3/1: " + new Reason.Cancelled(),
            "P-3/2: " + new Reason.NothingBefore(1),
            "P-3/3: " + new Reason.NothingBefore(1)),
        rebooking.left().stream().map(one -> one.booking().id() + ": " + one.because()).toList());
    assertEquals(List.of(), DiaryAudit.read(rebooking.diary()));
  }

  @Test
  void promisedVisitsAfterTheLastDayStay() {
    Booking third = diary.booking("P-3/3").orElseThrow();
    LocalDate before = third.start().atZone(diary.zone()).toLocalDate().minusDays(1);
    Rebooking rebooking =
        Rebooker.of(diary, List.of(new DiaryChange.Cancelled("P-3/1")), WEIGHTS, FIRST, before);
    assertEquals(List.of(), rebooking.left());
    assertTrue(rebooking.diary().bookings().contains(third));
    assertEquals(List.of(), DiaryAudit.read(rebooking.diary()));
  }

  @Test
  void freedTimeIsOfferedToThoseWhoWait() {
    Booking first =
        diary.bookings().stream().min(Comparator.comparing(Booking::start)).orElseThrow();
    // They can come only while the first booking is, so nothing else suits.
    Availability then =
        new Availability(
            List.of(),
            List.of(),
            Intervals.without(
                List.of(
                    new Interval(
                        FIRST.atStartOfDay(diary.zone()).toInstant(),
                        LAST.plusDays(1).atStartOfDay(diary.zone()).toInstant())),
                List.of(first.time())));
    diary =
        Taking.asking(
            diary,
            new CourseRequest(
                "W-1",
                FIRST,
                FIRST,
                List.of(new VisitRequest(1, 40, List.of(), List.of(), 0, 0)),
                6,
                12,
                then,
                Preferences.NONE));
    Rebooking rebooking =
        Rebooker.of(diary, List.of(new DiaryChange.Cancelled(first.id())), WEIGHTS, FIRST, LAST);
    assertEquals(1, rebooking.freed().size());
    for (OfferedVisit visit : rebooking.freed()) {
      assertEquals("W-1", visit.caseName());
      assertTrue(visit.start().isBefore(first.end()) && first.start().isBefore(visit.end()));
    }
  }
}
