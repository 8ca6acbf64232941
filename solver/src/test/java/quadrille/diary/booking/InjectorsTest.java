package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.diary.booking.RandomDiary.FIRST;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.calendar.Interval;

/** Visits into which another clinician comes to inject, beside every way that there is. */
final class InjectorsTest {

  private static final BookingWeights WEIGHTS = BookingWeights.defaults();
  private static final List<NeedleTime> NEEDLES =
      List.of(new NeedleTime(5, 15), new NeedleTime(30, 40));

  /**
   * Every start, clinician, chair and injector of each needle, and every pair of these for two
   * visits; what the audit passes is legal.
   */
  @ParameterizedTest
  @ValueSource(longs = {21, 22, 23, 24, 25, 26})
  void costWhatTheCheapestOfAllWaysCosts(long seed) {
    RandomDiary random = new RandomDiary(seed);
    LocalDate last = FIRST.plusDays(1);
    int visits = 1 + (int) (seed % 2);
    Diary diary = random.diary(3, 2, 30, 2, 0.35);
    CourseRequest course = with(random.course("P-1", visits, diary, FIRST, 0, 1), NEEDLES);
    BookingCase booking = new BookingCase(diary, WEIGHTS, FIRST, last);
    CourseCase ready = CourseCase.of(0, booking, course);
    List<List<OfferedVisit>> ways = new ArrayList<>();
    for (int place = 0; place < visits; place++) {
      ways.add(ways(diary, course, place, last));
    }
    OptionalLong least = OptionalLong.empty();
    for (OfferedVisit one : ways.get(0)) {
      for (OfferedVisit two : visits == 1 ? List.of(one) : ways.get(1)) {
        List<OfferedVisit> all = visits == 1 ? List.of(one) : List.of(one, two);
        if (visits == 1
            || DiaryAudit.read(Taking.booked(Taking.asking(diary, course), all)).isEmpty()) {
          long cost =
              BookingCost.of(
                      ready,
                      all.stream().map(visit -> slot(booking, visit)).toList(),
                      Occupancy.of(booking))
                  .values()
                  .stream()
                  .mapToLong(Long::longValue)
                  .sum();
          if (least.isEmpty() || cost < least.getAsLong()) {
            least = OptionalLong.of(cost);
          }
        }
      }
    }
    List<Offer> offers = Offers.of(diary, course, WEIGHTS, FIRST, last, 1);
    assertEquals(least.isPresent(), !offers.isEmpty());
    if (least.isPresent()) {
      Offer offer = offers.get(0);
      assertEquals(least.getAsLong(), offer.cost());
      Diary after = Taking.booked(Taking.asking(diary, course), offer.visits());
      assertEquals(List.of(), DiaryAudit.read(after));
    }
  }

  private static CourseRequest with(CourseRequest course, List<NeedleTime> needles) {
    return course.withVisits(
        course.visits().stream()
            .map(visit -> visit.withNeeds(List.of(Capability.INJECT)).withNeedles(needles))
            .toList());
  }

  private static List<OfferedVisit> ways(
      Diary diary, CourseRequest course, int place, LocalDate last) {
    VisitRequest visit = course.visits().get(place);
    Diary asking = Taking.asking(diary, course.withVisits(List.of(visit.withGapMaxDays(0))));
    List<OfferedVisit> ways = new ArrayList<>();
    for (LocalDate day = FIRST; !day.isAfter(last); day = day.plusDays(1)) {
      for (int minute = 8 * 60; minute < 18 * 60; minute += diary.startEveryMinutes()) {
        Instant start =
            day.atTime(LocalTime.MIN.plusMinutes(minute)).atZone(diary.zone()).toInstant();
        for (Clinician who : diary.clinicians()) {
          for (Chair chair : diary.chairs()) {
            for (List<InjectorCall> calls : calls(diary, who)) {
              OfferedVisit way =
                  new OfferedVisit(
                      course.caseName(),
                      visit.number(),
                      start,
                      visit.minutes(),
                      who.id(),
                      chair.id(),
                      calls);
              if (DiaryAudit.read(Taking.booked(asking, List.of(way))).isEmpty()) {
                ways.add(way);
              }
            }
          }
        }
      }
    }
    return ways;
  }

  private static List<List<InjectorCall>> calls(Diary diary, Clinician treats) {
    if (treats.mayInject()) {
      return List.of(List.of());
    }
    List<List<InjectorCall>> calls = new ArrayList<>();
    for (Clinician one : diary.clinicians()) {
      for (Clinician two : diary.clinicians()) {
        calls.add(
            List.of(
                new InjectorCall(one.id(), NEEDLES.get(0).from(), NEEDLES.get(0).to()),
                new InjectorCall(two.id(), NEEDLES.get(1).from(), NEEDLES.get(1).to())));
      }
    }
    return calls;
  }

  private static Slot slot(BookingCase booking, OfferedVisit visit) {
    int start = booking.time().minute(visit.start());
    return new Slot(
        start,
        booking.clinician(visit.clinician()),
        booking.chair(visit.chair()),
        visit.injectors().stream()
            .map(
                call ->
                    new Slot.Call(
                        booking.clinician(call.clinician()),
                        start + call.from(),
                        start + call.to()))
            .toList());
  }

  /** Where one of four may inject, twenty patients find more room if they only come to inject. */
  @Test
  void moreVisitsFindAPlaceWhereSomeoneComesToInject() {
    BatchBooker.Booked alone = batch(false);
    BatchBooker.Booked aided = batch(true);
    int minutes =
        aided.visits().stream()
            .flatMap(visit -> visit.injectors().stream())
            .mapToInt(InjectorCall::minutes)
            .sum();
    assertTrue(
        aided.visits().size() > alone.visits().size(),
        aided.visits().size() + " beside " + alone.visits().size());
    assertTrue(minutes > 0);
    assertTrue(alone.visits().stream().allMatch(visit -> visit.injectors().isEmpty()));
  }

  private static BatchBooker.Booked batch(boolean comesIn) {
    RandomDiary random = new RandomDiary(5);
    LocalDate last = FIRST.plusDays(20);
    Diary diary = random.diary(4, 4, 10, 21, 0.3);
    List<Clinician> people = new ArrayList<>();
    for (Clinician one : diary.clinicians()) {
      people.add(one.withMay(people.isEmpty() ? List.of(Capability.INJECT) : List.of()));
    }
    diary = diary.withClinicians(people);
    List<CourseRequest> courses = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      CourseRequest course = random.course("P-" + i, 3, diary, FIRST, 3, 7);
      courses.add(with(course, comesIn ? NEEDLES : List.of()));
    }
    BatchBooker.Booked booked = BatchBooker.book(diary, courses, WEIGHTS, FIRST, last, 60);
    for (CourseRequest course : courses) {
      diary = Taking.asking(diary, course);
    }
    Diary after = Taking.booked(diary, booked.visits());
    assertEquals(List.of(), DiaryAudit.read(after));
    return booked;
  }

  /** One injector for both groups of needles where one can, and two where only two can. */
  @Test
  void oneInjectorForAllNeedlesWhereOneCan() {
    RandomDiary random = new RandomDiary(3);
    Diary diary = random.diary(3, 2, 30, 2, 0);
    CourseRequest course = with(random.course("P-1", 1, diary), NEEDLES);
    course =
        course
            .withAvailability(Availability.ANY)
            .withPreferences(new Preferences(List.of(), diary.clinicians().get(2).id()));
    List<Offer> offers = Offers.of(diary, course, WEIGHTS.wishesFirst(), FIRST, FIRST, 1);
    OfferedVisit visit = offers.get(0).visits().get(0);
    assertEquals("c3", visit.clinician());
    String who = visit.injectors().get(0).clinician();
    assertEquals(
        List.of(new InjectorCall(who, 5, 15), new InjectorCall(who, 30, 40)), visit.injectors());
    Booking taken = Taking.booked(Taking.asking(diary, course), List.of(visit)).bookings().get(0);
    assertEquals(
        List.of(
            Interval.of(visit.start().plusSeconds(300), 10),
            Interval.of(visit.start().plusSeconds(1800), 10)),
        taken.taken(who));
  }
}
