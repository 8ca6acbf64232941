package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;

import ai.timefold.solver.core.api.solver.SolutionManager;
import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.test.api.score.stream.ConstraintVerifier;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import quadrille.constraints.OfConstraint;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.SterileStock.SterileSet;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.SetStock;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.calendar.Interval;

/**
 * Every constraint of the rule book on hand-made visits: a violation penalised by exactly so much,
 * and legal cases left alone. Each nested class tests the constraint whose method has its name;
 * {@link #everyConstraintHasItsTest} holds that none is left out.
 *
 * <p>Two clinicians work from 8:00 to 12:00 and from 13:00 to 17:00, Monday to Friday; only the
 * first may inject. Day 0 is a Monday. Visits take 60 minutes.
 */
final class BookingRulesTest {
  private static final ConstraintVerifier<BookingRules, BookingSolution> VERIFIER =
      ConstraintVerifier.build(new BookingRules(), BookingSolution.class, BookedVisit.class);

  private static final ZoneId ZONE = ZoneId.of("UTC");
  private static final LocalDate FIRST = LocalDate.of(2026, 3, 2);
  private static final int LENGTH = 60;
  private static final BookingWeights WEIGHTS = new BookingWeights(10, 1, 60, 40, 30, 1, 40, 2, 25);

  /** A test of the constraint with the class's own name. */
  private abstract static class OfRule extends OfConstraint<BookingRules> {
    OfRule() {
      super(VERIFIER, BookingRules.class);
    }
  }

  // ---- a small practice

  private static Diary diary() {
    return diary(List.of(), List.of());
  }

  private static Diary diary(List<BusyTime> busy, List<TimeOff> chairOff) {
    WeeklyHours week =
        new WeeklyHours(
            List.of(
                DayOfWeek.MONDAY,
                DayOfWeek.TUESDAY,
                DayOfWeek.WEDNESDAY,
                DayOfWeek.THURSDAY,
                DayOfWeek.FRIDAY),
            LocalTime.of(8, 0),
            LocalTime.of(17, 0),
            List.of(new WeeklyHours.Break(LocalTime.of(12, 0), LocalTime.of(13, 0))));
    return new Diary(
        ZONE,
        10,
        List.of(
            new Clinician(
                "a", "Ada", List.of(Capability.INJECT), List.of(week), List.of(), List.of()),
            new Clinician("b", "Ben", List.of(), List.of(week), List.of(), List.of())),
        List.of(new Chair("1", "Chair 1", chairOff), new Chair("2", "Chair 2", List.of())),
        List.of(),
        new SterileStock(30, List.of(new SterileSet("kit", 1, false))),
        List.of(),
        List.of(),
        busy,
        List.of());
  }

  private static VisitRequest request(int number, List<Capability> needs, List<String> sets) {
    return new VisitRequest(number, LENGTH, needs, sets, number == 1 ? 0 : 7, number == 1 ? 0 : 14);
  }

  private static CourseRequest course(
      String name, Availability availability, Preferences preferences, VisitRequest... visits) {
    return new CourseRequest(name, FIRST, FIRST, List.of(visits), 6, 12, availability, preferences);
  }

  private static CourseRequest course(String name, int visits) {
    VisitRequest[] requests = new VisitRequest[visits];
    for (int i = 0; i < visits; i++) {
      requests[i] = request(i + 1, List.of(), List.of());
    }
    return course(name, Availability.ANY, Preferences.NONE, requests);
  }

  /** Visits of one course as the solver sees them. */
  private static final class Visits {
    private final CourseCase course;
    private final BookingCase booking;

    Visits(int number, Diary diary, CourseRequest request) {
      this.booking = new BookingCase(diary, WEIGHTS, FIRST, FIRST.plusDays(27));
      this.course = CourseCase.of(number, booking, request);
    }

    BookedVisit at(int place, int day, String time, int clinician, int chair) {
      BookedVisit visit =
          new BookedVisit(10 * course.number() + place, course, course.visits().get(place));
      LocalTime start = LocalTime.parse(time);
      visit.slot(
          new Slot(booking.time().dayStart(day) + start.toSecondOfDay() / 60, clinician, chair));
      return visit;
    }

    BookedVisit nowhere(int place) {
      return new BookedVisit(10 * course.number() + place, course, course.visits().get(place));
    }
  }

  private static Visits one() {
    return new Visits(0, diary(), course("A", 3));
  }

  private static Visits other() {
    return new Visits(1, diary(), course("B", 3));
  }

  private static Visits pinned(String time) {
    return pinned(2, course("S", 1), List.of("a"), FIRST.atTime(LocalTime.parse(time)));
  }

  /** Visits that stand in the diary, each with its clinician at its time. */
  private static Visits pinned(
      int number, CourseRequest request, List<String> clinicians, LocalDateTime... times) {
    List<Booking> bookings = new ArrayList<>();
    for (LocalDateTime time : times) {
      VisitRequest visit = request.visits().get(bookings.size());
      bookings.add(
          new Booking(
              request.caseName() + "/" + visit.number(),
              request.caseName(),
              visit.number(),
              time.atZone(ZONE).toInstant(),
              LENGTH,
              clinicians.get(bookings.size()),
              "1",
              visit.sets(),
              List.of(),
              BookingStatus.PROMISED));
    }
    return new Visits(
        number, diary().withCourses(List.of(request)).withBookings(bookings), request);
  }

  /** Two courses whose visits stand at one time, with one clinician in one chair. */
  private static Object[] standingTogether() {
    return new Object[] {
      pinned(2, course("S", 1), List.of("a"), FIRST.atTime(9, 0)).nowhere(0),
      pinned(3, course("T", 1), List.of("a"), FIRST.atTime(9, 20)).nowhere(0)
    };
  }

  /** A course that stands wrongly: in the wrong order, too near, with two clinicians. */
  private static Object[] standingWrongly() {
    Visits visits =
        pinned(
            2,
            course("S", 2),
            List.of("a", "b"),
            FIRST.plusDays(1).atTime(9, 0),
            FIRST.atTime(9, 0));
    return new Object[] {visits.nowhere(0), visits.nowhere(1)};
  }

  private static Instant moment(int day, int hour) {
    return FIRST.plusDays(day).atTime(hour, 0).atZone(ZONE).toInstant();
  }

  @Nested
  final class ClinicianOnce extends OfRule {
    @Test
    void penalisesTheMinutesShared() {
      given(
              one().at(0, 0, "09:00", 0, 0),
              other().at(0, 0, "09:40", 0, 1),
              other().at(1, 7, "09:00", 0, 0))
          .penalizesBy(20);
    }

    @Test
    void penalisesWhatStandsInTheDiaryAsWell() {
      BookedVisit standing = pinned("09:00").nowhere(0);
      assertEquals(true, standing.pinned());
      given(standing, one().at(0, 0, "09:30", 0, 1)).penalizesBy(30);
    }

    @Test
    void leavesAloneWhatStandsAlready() {
      given(standingTogether()).hasNoImpact();
    }

    @Test
    void leavesAloneVisitsThatTouchAndOtherClinicians() {
      given(
              one().at(0, 0, "09:00", 0, 0),
              other().at(0, 0, "10:00", 0, 0),
              other().at(1, 0, "09:00", 1, 1))
          .hasNoImpact();
    }
  }

  @Nested
  final class ChairOnce extends OfRule {
    @Test
    void penalisesTheMinutesShared() {
      given(one().at(0, 0, "09:00", 0, 0), other().at(0, 0, "09:10", 1, 0)).penalizesBy(50);
    }

    @Test
    void leavesAloneWhatStandsAlready() {
      given(standingTogether()).hasNoImpact();
    }

    @Test
    void leavesAloneVisitsThatTouchAndOtherChairs() {
      given(
              one().at(0, 0, "09:00", 0, 0),
              other().at(0, 0, "10:00", 1, 0),
              other().at(1, 0, "09:00", 1, 1))
          .hasNoImpact();
    }
  }

  @Nested
  final class InsideHours extends OfRule {
    @Test
    void penalisesMinutesOverBreakAndAfterWork() {
      given(one().at(0, 0, "11:30", 0, 0)).penalizesBy(30);
      given(one().at(0, 0, "16:50", 0, 0)).penalizesBy(50);
      given(one().at(0, 5, "09:00", 0, 0)).penalizesBy(60);
    }

    @Test
    void penalisesMinutesInWhichSomethingElseIs() {
      BusyTime busy = new BusyTime(Interval.of(moment(0, 10), 15), "a", null, List.of(), null);
      Visits visits = new Visits(0, diary(List.of(busy), List.of()), course("A", 1));
      given(visits.at(0, 0, "09:30", 0, 0)).penalizesBy(15);
      given(visits.at(0, 0, "09:30", 1, 0)).hasNoImpact();
    }

    @Test
    void leavesAloneWhatEndsWithTheHours() {
      given(one().at(0, 0, "11:00", 0, 0), one().at(1, 7, "16:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class ChairInUse extends OfRule {
    @Test
    void penalisesMinutesInWhichTheChairIsOutOfUse() {
      TimeOff off = new TimeOff(FIRST, FIRST, LocalTime.of(9, 0), LocalTime.of(10, 0), null);
      Visits visits = new Visits(0, diary(List.of(), List.of(off)), course("A", 1));
      given(visits.at(0, 0, "09:40", 0, 0)).penalizesBy(20);
    }

    @Test
    void leavesAloneTheOtherChairAndOtherTimes() {
      TimeOff off = new TimeOff(FIRST, FIRST, LocalTime.of(9, 0), LocalTime.of(10, 0), null);
      Visits visits = new Visits(0, diary(List.of(), List.of(off)), course("A", 2));
      given(visits.at(0, 0, "09:40", 0, 1), visits.at(1, 7, "09:40", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class MayTreat extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            diary(),
            course(
                "A",
                Availability.ANY,
                Preferences.NONE,
                request(1, List.of(Capability.INJECT), List.of()),
                request(2, List.of(), List.of())));

    @Test
    void penalisesAnInjectingVisitWithSomeoneWhoMayNot() {
      given(visits.at(0, 0, "09:00", 1, 0)).penalizesBy(LENGTH);
    }

    @Test
    void penalisesNeedlesWithoutAnybodyAndWithSomeoneWhoMayNot() {
      given(aided(0, diary()).at(0, 0, "09:00", 1, 0)).penalizesBy(LENGTH);
      given(byBen(aided(0, diary()), "09:00", 0, 11, 20)).penalizesBy(LENGTH);
      given(byBen(aided(0, diary()), "09:00", 1, 10, 20)).penalizesBy(LENGTH);
    }

    @Test
    void leavesAloneAnotherWhoInjectsForAllOfTheNeedles() {
      given(byBen(aided(0, diary()), "09:00", 0, 10, 20)).hasNoImpact();
    }

    @Test
    void leavesAloneWhoMayAndVisitsWithoutInjection() {
      given(visits.at(0, 0, "09:00", 0, 0), visits.at(1, 7, "09:00", 1, 0)).hasNoImpact();
    }
  }

  /** Needles come from the tenth to the twentieth minute, and Ben treats. */
  private static Visits aided(int number, Diary diary) {
    return new Visits(
        number,
        diary,
        course(
            "A" + number,
            Availability.ANY,
            Preferences.NONE,
            request(1, List.of(Capability.INJECT), List.of())
                .withNeedles(List.of(new NeedleTime(10, 20)))));
  }

  private static BookedVisit byBen(Visits visits, String time, int injector, int from, int to) {
    BookedVisit visit = visits.at(0, 0, time, 1, 0);
    int start = visit.start();
    visit.slot(new Slot(start, 1, 0, List.of(new Slot.Call(injector, start + from, start + to))));
    return visit;
  }

  @Nested
  final class InjectorOnce extends OfRule {
    @Test
    void penalisesMinutesWithAnotherPatientAtTheSameTime() {
      given(byBen(aided(0, diary()), "09:00", 0, 10, 20), other().at(0, 0, "08:15", 0, 1))
          .penalizesBy(5);
      given(
              byBen(aided(0, diary()), "09:00", 0, 10, 20),
              byBen(aided(1, diary()), "09:04", 0, 10, 20))
          .penalizesBy(6);
    }

    @Test
    void leavesAloneNeedlesBetweenOtherPatients() {
      given(
              byBen(aided(0, diary()), "09:00", 0, 10, 20),
              other().at(0, 0, "08:10", 0, 1),
              other().at(1, 0, "09:20", 0, 1))
          .hasNoImpact();
    }
  }

  @Nested
  final class InjectorAtWork extends OfRule {
    @Test
    void penalisesMinutesInTheBreakOfWhoInjects() {
      given(byBen(aided(0, diary()), "11:45", 0, 10, 20)).penalizesBy(5);
    }

    @Test
    void leavesAloneWhatEndsWithTheHours() {
      given(byBen(aided(0, diary()), "11:40", 0, 10, 20)).hasNoImpact();
    }
  }

  @Nested
  final class InjectorMinutes extends OfRule {
    @Test
    void costsEachMinute() {
      given(byBen(aided(0, diary()), "09:00", 0, 10, 20)).penalizesBy(20);
    }

    @Test
    void costsNothingWhereWhoTreatsInjects() {
      given(aided(0, diary()).at(0, 0, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class LongerGaps extends OfRule {
    private final CourseRequest longer =
        course("A", 3).withLongerGaps(new quadrille.diary.book.LongerGaps(5, "Ada"));

    @Test
    void costsEachDayOverThePlansLongestGap() {
      Visits visits = new Visits(0, diary(), longer);
      given(
              visits.at(0, 0, "09:00", 0, 0),
              visits.at(1, 16, "09:00", 0, 0),
              visits.at(2, 27, "09:00", 0, 0))
          .penalizesBy(25 * 2);
    }

    @Test
    void costsNothingWithinThePlansLongestGap() {
      Visits visits = new Visits(0, diary(), longer);
      given(visits.at(0, 0, "09:00", 0, 0), visits.at(1, 14, "09:00", 0, 0)).hasNoImpact();
      given(one().at(0, 0, "09:00", 0, 0), one().at(1, 16, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class NotTooEarly extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            diary(),
            new CourseRequest(
                "A",
                FIRST,
                FIRST.plusDays(3),
                List.of(request(1, List.of(), List.of())),
                6,
                12,
                Availability.ANY,
                Preferences.NONE));

    @Test
    void penalisesEachDayTooEarly() {
      given(visits.at(0, 1, "09:00", 0, 0)).penalizesBy(2);
    }

    @Test
    void leavesAloneTheEarliestDay() {
      given(visits.at(0, 3, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class InOrder extends OfRule {
    @Test
    void penalisesMinutesByWhichAVisitStartsBeforeTheOneBeforeItEnds() {
      given(one().at(0, 0, "09:00", 0, 0), one().at(1, 0, "09:15", 0, 0)).penalizesBy(45);
    }

    @Test
    void leavesAloneWhatStandsAlready() {
      given(standingWrongly()).hasNoImpact();
    }

    @Test
    void leavesAloneOrderAndOtherCourses() {
      given(
              one().at(0, 1, "09:00", 0, 0),
              one().at(1, 8, "09:00", 0, 0),
              other().at(0, 9, "09:00", 0, 0),
              other().at(2, 2, "09:00", 0, 0))
          .hasNoImpact();
    }
  }

  @Nested
  final class GapWindow extends OfRule {
    @Test
    void penalisesDaysTooFewAndTooMany() {
      given(one().at(0, 0, "09:00", 0, 0), one().at(1, 4, "09:00", 0, 0)).penalizesBy(3);
      given(one().at(0, 0, "09:00", 0, 0), one().at(1, 16, "09:00", 0, 0)).penalizesBy(2);
    }

    @Test
    void leavesAloneWhatStandsAlready() {
      given(standingWrongly()).hasNoImpact();
    }

    @Test
    void penalisesDaysOverWhatAClinicianAllowsAndOverAnAlertsOwn() {
      CourseRequest longer =
          course("A", 3).withLongerGaps(new quadrille.diary.book.LongerGaps(5, "Ada"));
      Visits visits = new Visits(0, diary(), longer);
      given(visits.at(0, 0, "09:00", 0, 0), visits.at(1, 19, "09:00", 0, 0)).hasNoImpact();
      given(visits.at(0, 0, "09:00", 0, 0), visits.at(1, 21, "09:00", 0, 0)).penalizesBy(2);
      Visits alert = new Visits(0, diary(), longer.withLongestGapDays(16));
      given(alert.at(0, 0, "09:00", 0, 0), alert.at(1, 19, "09:00", 0, 0)).penalizesBy(3);
    }

    @Test
    void leavesAloneBothEndsOfTheWindow() {
      given(
              one().at(0, 0, "16:00", 0, 0),
              one().at(1, 7, "08:00", 0, 0),
              one().at(2, 21, "16:00", 0, 0))
          .hasNoImpact();
    }
  }

  @Nested
  final class FinishWithin extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            diary(),
            course("A", 3).withDeadlines(List.of(new CourseRequest.Deadline(1, 3, 20))));

    @Test
    void penalisesDaysBeyondADeadlineOverSeveralVisits() {
      given(
              visits.at(0, 0, "09:00", 0, 0),
              visits.at(1, 11, "09:00", 0, 0),
              visits.at(2, 22, "09:00", 0, 0))
          .penalizesBy(2);
    }

    @Test
    void leavesAloneTheLastDayAndOtherVisits() {
      given(
              visits.at(0, 0, "09:00", 0, 0),
              visits.at(1, 25, "09:00", 0, 0),
              visits.at(2, 20, "16:00", 0, 0),
              one().at(2, 25, "09:00", 1, 1))
          .hasNoImpact();
    }
  }

  @Nested
  final class PatientCanCome extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            diary(),
            course(
                "A",
                new Availability(
                    List.of(),
                    List.of(
                        new TimeOff(FIRST, FIRST, LocalTime.of(9, 30), LocalTime.of(12, 0), null)),
                    List.of(Interval.of(moment(1, 10), 60))),
                Preferences.NONE,
                request(1, List.of(), List.of())));

    @Test
    void penalisesMinutesInWhichThePatientIsAway() {
      given(visits.at(0, 0, "09:00", 0, 0)).penalizesBy(30);
      given(visits.at(0, 1, "10:20", 0, 0)).penalizesBy(40);
    }

    @Test
    void leavesAloneTimesThatSuit() {
      given(visits.at(0, 0, "08:30", 0, 0)).hasNoImpact();
      given(visits.at(0, 2, "10:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class SetsInStock extends OfRule {
    private final CourseRequest request =
        course("A", Availability.ANY, Preferences.NONE, request(1, List.of(), List.of("kit")));
    private final Visits one = new Visits(0, diary(), request);
    private final Visits other = new Visits(1, diary(), request);

    private Judged stocked(BookedVisit... visits) {
      List<Object> facts = new ArrayList<>(List.of(visits));
      facts.addAll(SetStock.of(visits[0].course().booking(), List.of()));
      return given(facts.toArray());
    }

    @Test
    void penalisesASetThatIsStillBeingReprocessed() {
      stocked(one.at(0, 0, "09:00", 0, 0), other.at(0, 0, "10:20", 1, 1)).penalizesBy(1);
    }

    @Test
    void penalisesASetThatSomethingElseHas() {
      BusyTime busy = new BusyTime(Interval.of(moment(0, 9), 30), null, "2", List.of("kit"), null);
      Visits visits = new Visits(0, diary(List.of(busy), List.of()), request);
      stocked(visits.at(0, 0, "09:50", 0, 0)).penalizesBy(1);
      stocked(visits.at(0, 0, "10:00", 0, 0)).hasNoImpact();
    }

    @Test
    void leavesAloneASetThatIsBack() {
      stocked(one.at(0, 0, "09:00", 0, 0), other.at(0, 0, "10:30", 1, 1)).hasNoImpact();
    }
  }

  @Nested
  final class EveryVisitBooked extends OfRule {
    @Test
    void penalisesEachVisitWithoutAPlace() {
      given(one().nowhere(0), one().nowhere(1), one().at(2, 0, "09:00", 0, 0)).penalizesBy(2);
    }

    @Test
    void leavesAloneWhatIsBooked() {
      given(one().at(0, 0, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class FinishEarly extends OfRule {
    @Test
    void costsTenPointsForEachDayUntilTheLastVisit() {
      given(one().at(0, 0, "09:00", 0, 0), one().at(2, 15, "09:00", 0, 0)).penalizesBy(150);
    }

    @Test
    void costsNothingOnTheDayOfAsking() {
      given(one().at(2, 0, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class FairWaiting extends OfRule {
    @Test
    void costsTheSquareOfTheDaysUntilTheFirstVisit() {
      given(one().at(0, 4, "09:00", 0, 0), other().at(0, 1, "09:00", 0, 0)).penalizesBy(17);
    }

    @Test
    void costsNothingForLaterVisits() {
      given(one().at(0, 0, "09:00", 0, 0), one().at(1, 9, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class SameClinician extends OfRule {
    @Test
    void costsEachChange() {
      given(
              one().at(0, 0, "09:00", 0, 0),
              one().at(1, 7, "09:00", 1, 0),
              one().at(2, 14, "09:00", 0, 0))
          .penalizesBy(120);
    }

    @Test
    void costsNothingWhereBothStandAlready() {
      given(standingWrongly()).hasNoImpact();
    }

    @Test
    void costsNothingWithOneThroughoutAndForOtherCourses() {
      given(
              one().at(0, 0, "09:00", 0, 0),
              one().at(1, 7, "09:00", 0, 0),
              other().at(0, 0, "09:00", 1, 0))
          .hasNoImpact();
    }
  }

  @Nested
  final class PreferredClinician extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            diary(),
            course(
                "A",
                Availability.ANY,
                new Preferences(List.of(), "b"),
                request(1, List.of(), List.of())));

    @Test
    void costsAVisitWithAnother() {
      given(visits.at(0, 0, "09:00", 0, 0)).penalizesBy(40);
    }

    @Test
    void costsNothingWithThemOrWithoutPreference() {
      given(visits.at(0, 0, "09:00", 1, 0), other().at(0, 0, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class PreferredTimes extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            diary(),
            course(
                "A",
                Availability.ANY,
                new Preferences(
                    List.of(
                        new WeeklyHours(
                            List.of(DayOfWeek.MONDAY),
                            LocalTime.of(8, 0),
                            LocalTime.of(10, 0),
                            List.of())),
                    null),
                request(1, List.of(), List.of())));

    @Test
    void costsAVisitThatIsNotWhollyWithinThem() {
      given(visits.at(0, 0, "09:10", 0, 0)).penalizesBy(30);
      given(visits.at(0, 1, "09:00", 0, 0)).penalizesBy(30);
    }

    @Test
    void costsNothingWithinThemOrWithoutPreference() {
      given(visits.at(0, 0, "09:00", 0, 0), other().at(0, 1, "09:00", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class NoSlivers extends OfRule {
    @Test
    void costsMinutesBeforeBetweenAndAfterThatAreFewerThanUsable() {
      // 20 before and 30 between; the two and a half hours after them are of use.
      given(one().at(0, 0, "08:20", 0, 0), other().at(0, 0, "09:50", 0, 0)).penalizesBy(50);
      // 10 until the break.
      given(one().at(0, 0, "10:50", 0, 0)).penalizesBy(10);
    }

    @Test
    void costsWhatIsLeftBesideABookingOfTheDiary() {
      CourseRequest request = course("A", 1);
      Diary standing = pinned("09:00").booking.diary();
      Visits visits = new Visits(0, standing, request);
      // 8:00 to 9:00 is of use before, and 10:00 to 10:20 is not after.
      given(visits.at(0, 0, "10:20", 0, 0)).penalizesBy(20);
    }

    @Test
    void costsNothingForWhatIsUsableAndForUntouchedTime() {
      given(one().at(0, 0, "08:00", 0, 0), other().at(0, 0, "09:40", 0, 0)).hasNoImpact();
    }
  }

  @Nested
  final class SliversFilled extends OfRule {
    private final Visits visits =
        new Visits(
            0,
            pinned("08:30").booking.diary(),
            course(
                "A",
                Availability.ANY,
                Preferences.NONE,
                new VisitRequest(1, 30, List.of(), List.of(), 0, 0)));

    @Test
    void rewardsAShortVisitInWhatWasLeftOver() {
      given(visits.at(0, 0, "08:00", 0, 0)).rewardsWith(30);
    }

    @Test
    void leavesAloneAVisitElsewhere() {
      given(visits.at(0, 0, "09:30", 0, 0)).hasNoImpact();
      given(visits.at(0, 0, "08:00", 1, 0)).hasNoImpact();
    }
  }

  @Test
  void everyConstraintHasItsTest() {
    OfConstraint.assertEachHasItsTest(BookingRules.class, BookingRulesTest.class);
  }

  @Test
  void solverKnowsEveryConstraint() {
    BookingCase booking = new BookingCase(diary(), WEIGHTS, FIRST, FIRST.plusDays(6));
    BookingSolution solution =
        new BookingSolution(booking, List.of(CourseCase.of(0, booking, course("A", 1))));
    int known =
        SolutionManager.create(SolverFactory.<BookingSolution>create(BatchBooker.config()))
            .analyze(solution)
            .constraintMap()
            .size();
    assertEquals(OfConstraint.written(BookingRules.class).size(), known);
  }
}
