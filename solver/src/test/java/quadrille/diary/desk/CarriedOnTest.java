package quadrille.diary.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.diary.book.Diaries.booking;
import static quadrille.diary.book.Diaries.course;
import static quadrille.diary.book.Diaries.visit;
import static quadrille.diary.book.Diaries.with;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.Taking;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;

/** Course A has its three visits in the diary when it is planned again after the first. */
final class CarriedOnTest {
  private static final Diary DIARY =
      with(
          booking("A", 1, "2026-03-02T09:00"),
          booking("A", 2, "2026-03-09T09:00"),
          booking("A", 3, "2026-03-16T09:00"));

  private static final Course PLAN =
      new Course(
          "A", List.of(), 7, 14, 6, 12, new Cost(0, 0, Map.of()), List.of(), List.of(), List.of());

  private static CarriedOn planned(VisitRequest... visits) {
    CourseRequest request = course("A").withVisits(List.of(visits));
    return CarriedOn.of(DIARY, PLAN, request);
  }

  private static Map<String, CarriedOn.Mismatch> calledOff(CarriedOn carried) {
    return carried.calledOff().stream()
        .collect(Collectors.toMap(off -> off.booking().id(), CarriedOn.CalledOff::because));
  }

  private static Diary after(CarriedOn carried) {
    return Taking.asking(carried.over(DIARY), carried.request());
  }

  @Test
  void whatTookPlaceAndWhatStillFitsStays() {
    CarriedOn carried = planned(visit(2, 50, 0, 0), visit(3, 60, 7, 14), visit(4, 40, 7, 14));
    assertEquals(Map.of(), calledOff(carried));
    assertEquals(
        List.of(visit(1, 60, 0, 0), visit(2, 50, 7, 14), visit(3, 60, 7, 14), visit(4, 40, 7, 14)),
        carried.request().visits());
    assertEquals(List.of(), DiaryAudit.read(after(carried)));
    assertEquals(List.of(visit(4, 40, 7, 14)), after(carried).unbooked(carried.request()));
  }

  @Test
  void whatHoldsNoVisitAnyMoreIsCalledOff() {
    CarriedOn carried = planned(visit(2, 70, 0, 0));
    assertEquals(
        Map.of("A/2", new CarriedOn.TooShort(60, 70), "A/3", new CarriedOn.NoSuchVisit()),
        calledOff(carried));
    assertEquals(
        List.of(BookingStatus.PROMISED, BookingStatus.CANCELLED, BookingStatus.CANCELLED),
        after(carried).bookings().stream().map(one -> one.status()).toList());
    assertEquals(List.of(), DiaryAudit.read(after(carried)));
    assertEquals(
        List.of(2),
        after(carried).unbooked(carried.request()).stream().map(VisitRequest::number).toList());
  }

  @Test
  void whoComesToInjectStaysOnlyWhereTheNeedlesStillCome() {
    Booking byBen =
        booking("A", 2, "2026-03-09T09:00")
            .at(
                booking("A", 2, "2026-03-09T09:00").start(),
                "ben",
                "one",
                List.of(new InjectorCall("ada", 10, 20)));
    Diary diary = with(booking("A", 1, "2026-03-02T09:00"), byBen);
    CourseRequest same =
        course("A")
            .withVisits(List.of(visit(2, 60, 0, 0).withNeedles(List.of(new NeedleTime(12, 20)))));
    assertEquals(Map.of(), calledOff(CarriedOn.of(diary, PLAN, same)));
    CourseRequest later =
        course("A")
            .withVisits(List.of(visit(2, 60, 0, 0).withNeedles(List.of(new NeedleTime(12, 21)))));
    assertEquals(
        Map.of("A/2", new CarriedOn.OtherNeedles()), calledOff(CarriedOn.of(diary, PLAN, later)));
  }

  /** Held while the history was not known, promised once it is, and held again. */
  @Test
  void whatStaysIsSaidByWhetherThePlanIsProvisional() {
    CourseRequest held = course("A").withProvisional(true);
    CarriedOn demoted = CarriedOn.of(DIARY, PLAN, held);
    assertEquals(3, demoted.restated().size());
    Diary holding = Taking.asking(demoted.over(DIARY), demoted.request());
    assertEquals(List.of(), DiaryAudit.read(holding));
    assertTrue(
        holding.bookings().stream()
            .allMatch(one -> one.status() == BookingStatus.HELD && one.changes() == 1));
    CarriedOn promoted = CarriedOn.of(holding, PLAN, course("A"));
    assertTrue(
        promoted.over(holding).bookings().stream()
            .allMatch(one -> one.status() == BookingStatus.PROMISED && one.changes() == 2));
    // What somebody else holds for another reason stays held.
    Diary byHand = DIARY.withBookings(List.of(DIARY.bookings().get(0).with(BookingStatus.HELD)));
    assertEquals(List.of(), CarriedOn.of(byHand, PLAN, course("A")).restated());
  }

  @Test
  void aDeadlineFromAVisitThatTookPlaceStays() {
    CourseRequest.Deadline over = new CourseRequest.Deadline(1, 3, 20);
    Diary asked =
        Taking.asking(
            DIARY, course("A").withDeadlines(List.of(new CourseRequest.Deadline(1, 2, 5), over)));
    CourseRequest later = course("A").withVisits(List.of(visit(3, 60, 0, 0), visit(4, 60, 7, 14)));
    assertEquals(List.of(over), CarriedOn.of(asked, PLAN, later).request().deadlines());
  }

  /** A plan of other visits for the numbers of those that took place is not this course's. */
  @Test
  void aPlanOfAnotherPatientOfTheSameCaseIsTold() {
    Booking took = booking("A", 1, "2026-03-02T09:00").with(BookingStatus.DONE);
    Diary diary = with(took, booking("A", 2, "2026-03-09T09:00"));
    CourseRequest same = course("A");
    assertEquals(Optional.empty(), CarriedOn.another(diary, same));
    assertEquals(
        Optional.of(took), CarriedOn.another(diary, same.withVisits(List.of(visit(1, 90, 0, 0)))));
    VisitRequest first = same.visits().get(0);
    assertEquals(
        Optional.of(took),
        CarriedOn.another(
            diary,
            same.withVisits(
                List.of(
                    first.withNeeds(
                        first.injections() ? List.of() : List.of(Capability.INJECT))))));
    // What is left of the course, and what is only booked, may be planned anew.
    assertEquals(
        Optional.empty(), CarriedOn.another(diary, same.withVisits(List.of(visit(2, 90, 0, 0)))));
    assertEquals(Optional.empty(), CarriedOn.another(diary, course("B")));
  }

  @Test
  void anotherCoursesBookingsAreLeftAlone() {
    Diary both = with(booking("A", 1, "2026-03-02T09:00"), booking("B", 1, "2026-03-03T09:00"));
    CourseRequest alone = course("A").withVisits(List.of(visit(2, 60, 0, 0)));
    assertTrue(CarriedOn.of(both, PLAN, alone).calledOff().isEmpty());
  }
}
