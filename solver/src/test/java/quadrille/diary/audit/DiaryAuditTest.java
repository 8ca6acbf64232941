package quadrille.diary.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.diary.book.Diaries.booking;
import static quadrille.diary.book.Diaries.clinician;
import static quadrille.diary.book.Diaries.course;
import static quadrille.diary.book.Diaries.small;
import static quadrille.diary.book.Diaries.span;
import static quadrille.diary.book.Diaries.time;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.book.ExtraHours;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;

/** A sound diary, broken in one way at a time, each found as just that. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
final class DiaryAuditTest {

  private final Set<DiaryRule> found = EnumSet.noneOf(DiaryRule.class);

  /** Course A on three Mondays at nine, and course B beside it with its first visit. */
  private static final Booking A1 = booking("A", 1, "2026-03-02T09:00");

  private static final Booking A2 = booking("A", 2, "2026-03-09T09:00");
  private static final Booking A3 = booking("A", 3, "2026-03-16T09:00");

  private static Diary sound(Booking... more) {
    List<Booking> bookings = new java.util.ArrayList<>(List.of(A1, A2, A3));
    bookings.addAll(List.of(more));
    return small().withBookings(bookings);
  }

  private void finds(DiaryRule rule, String message, Diary diary) {
    assertEquals(
        List.of(message + " (" + rule.word() + ")"),
        DiaryAudit.read(diary).stream().map(DiaryFinding::line).toList());
    assertEquals(rule, DiaryAudit.read(diary).get(0).rule());
    found.add(rule);
  }

  private static Diary withClinician(Clinician ada) {
    return sound().withClinicians(List.of(ada, small().clinicians().get(1)));
  }

  private static Diary withCourse(CourseRequest a) {
    return sound().withCourses(List.of(a, course("B")));
  }

  private static Clinician ada() {
    return small().clinicians().get(0);
  }

  @AfterAll
  void everyRuleHasItsTest() {
    assertEquals(EnumSet.allOf(DiaryRule.class), found);
  }

  @Test
  void aSoundDiaryPasses() {
    assertEquals(List.of(), DiaryAudit.read(sound()));
  }

  @Test
  void aVisitStartsWhenTheOneBeforeEndsAndEndsWhenABreakBegins() {
    Booking next = booking("B", 1, "2026-03-02T10:00");
    Booking last = booking("B", 2, "2026-03-09T12:00");
    Booking evening = booking("B", 3, "2026-03-16T16:00");
    assertEquals(List.of(), DiaryAudit.read(sound(next, last, evening)));
  }

  @Test
  void aClinicianWhoIsNotThere() {
    Diary diary =
        sound(booking("B", 1, "2026-03-02T14:00").at(at("2026-03-02T14:00"), "eve", "one"));
    finds(DiaryRule.KNOWN, "B/1: nobody here is called eve", diary);
  }

  @Test
  void aChairThatIsNotThere() {
    Diary diary =
        sound(booking("B", 1, "2026-03-02T14:00").at(at("2026-03-02T14:00"), "ada", "three"));
    finds(DiaryRule.KNOWN, "B/1: no chair here is called three", diary);
  }

  @Test
  void aVisitThatNoCourseAsksFor() {
    finds(
        DiaryRule.KNOWN,
        "C/1: no course asks for visit 1 of C",
        sound(booking("C", 1, "2026-03-02T14:00")));
    finds(
        DiaryRule.KNOWN,
        "B/4: no course asks for visit 4 of B",
        sound(booking("B", 4, "2026-03-02T14:00")));
  }

  @Test
  void aSetThatTheStockHasNot() {
    Booking first = booking("B", 1, "2026-03-02T14:00");
    Booking odd =
        new Booking(
            "B/1",
            "B",
            1,
            first.start(),
            60,
            "ada",
            "one",
            List.of("kit", "tray"),
            first.needs(),
            BookingStatus.HELD);
    finds(DiaryRule.KNOWN, "B/1: no set in the stock is called tray", sound(odd));
  }

  @Test
  void aVisitBookedTwice() {
    Booking again =
        new Booking(
            "A/3/2",
            "A",
            3,
            at("2026-03-17T09:00"),
            60,
            "ada",
            "one",
            A3.sets(),
            A3.needs(),
            BookingStatus.HELD);
    finds(DiaryRule.BOOKED_ONCE, "A/3: visit 3 is booked a second time as A/3/2", sound(again));
  }

  @Test
  void aClinicianInTwoPlaces() {
    Booking other = booking("B", 1, "2026-03-02T09:30").at(at("2026-03-02T09:30"), "ada", "two");
    finds(
        DiaryRule.CLINICIAN_ONCE,
        "A/1: ada is booked from Mon 2 Mar 2026 09:30 to Mon 2 Mar 2026 10:30 as B/1",
        sound(other));
  }

  @Test
  void aClinicianWithSomethingElse() {
    BusyTime busy =
        new BusyTime(span("2026-03-02T09:50", "2026-03-02T10:00"), "ada", null, List.of(), null);
    finds(
        DiaryRule.CLINICIAN_ONCE,
        "A/1: ada is busy from Mon 2 Mar 2026 09:50 to Mon 2 Mar 2026 10:00",
        sound().withBusy(List.of(busy)));
  }

  private static Diary busy(@Nullable String clinician, @Nullable String chair) {
    return sound()
        .withBusy(
            List.of(
                new BusyTime(
                    span("2026-03-02T09:50", "2026-03-02T10:00"),
                    clinician,
                    chair,
                    List.of(),
                    null)));
  }

  @Test
  void aChairWithSomethingElse() {
    String span = " is busy from Mon 2 Mar 2026 09:50 to Mon 2 Mar 2026 10:00";
    finds(DiaryRule.CHAIR_ONCE, "A/1: one" + span, busy(null, "one"));
    assertEquals(List.of(), DiaryAudit.read(busy(null, "two")));
    assertEquals(List.of(), DiaryAudit.read(busy("ben", "two")));
    assertEquals(
        List.of(
            "A/1: ada" + span + " (" + DiaryRule.CLINICIAN_ONCE.word() + ")",
            "A/1: one" + span + " (" + DiaryRule.CHAIR_ONCE.word() + ")"),
        DiaryAudit.read(busy(null, null)).stream().map(DiaryFinding::line).toList());
  }

  @Test
  void aChairWithTwoPatients() {
    CourseRequest simple =
        new CourseRequest(
            "B",
            Diaries.MONDAY,
            Diaries.MONDAY,
            List.of(new quadrille.diary.book.VisitRequest(1, 60, List.of(), List.of("kit"), 0, 0)),
            6,
            12,
            Availability.ANY,
            Preferences.NONE);
    Booking other =
        new Booking(
            "B/1",
            "B",
            1,
            at("2026-03-02T09:50"),
            60,
            "ben",
            "one",
            List.of("kit"),
            List.of(),
            BookingStatus.DONE);
    finds(
        DiaryRule.CHAIR_ONCE,
        "A/1: one is booked from Mon 2 Mar 2026 09:50 to Mon 2 Mar 2026 10:50 as B/1",
        sound(other).withCourses(List.of(course("A"), simple)));
  }

  @Test
  void outsideHoursAndOverABreak() {
    finds(
        DiaryRule.HOURS,
        "B/1: Invented ada does not work at Mon 2 Mar 2026 17:00",
        sound(booking("B", 1, "2026-03-02T16:10")));
    finds(
        DiaryRule.HOURS,
        "B/1: Invented ada does not work at Mon 2 Mar 2026 13:00",
        sound(booking("B", 1, "2026-03-02T12:10")));
    finds(
        DiaryRule.HOURS,
        "B/1: Invented ada does not work at Sat 7 Mar 2026 10:00",
        sound(booking("B", 1, "2026-03-07T10:00")));
  }

  /** From the first Monday of the course until the last, both with them. */
  @Test
  void hoursHoldFromTheirFirstDayUntilTheirLast() {
    WeeklyHours week = ada().hours().get(0);
    LocalDate first = LocalDate.of(2026, 3, 2);
    LocalDate last = LocalDate.of(2026, 3, 16);
    assertEquals(List.of(), DiaryAudit.read(limited(week, first, last)));
    finds(
        DiaryRule.HOURS,
        "A/1: Invented ada does not work at Mon 2 Mar 2026 09:00",
        limited(week, first.plusDays(1), last));
    finds(
        DiaryRule.HOURS,
        "A/3: Invented ada does not work at Mon 16 Mar 2026 09:00",
        limited(week, first, last.minusDays(1)));
    finds(
        DiaryRule.HOURS,
        "A/1: Invented ada does not work at Mon 2 Mar 2026 09:00",
        limited(week, first.plusDays(1), null));
    finds(
        DiaryRule.HOURS,
        "A/3: Invented ada does not work at Mon 16 Mar 2026 09:00",
        limited(week, null, last.minusDays(1)));
  }

  private static Diary limited(
      WeeklyHours week, @Nullable LocalDate first, @Nullable LocalDate last) {
    return withClinician(
        new Clinician(
            ada().id(),
            ada().name(),
            ada().may(),
            List.of(
                new WeeklyHours(week.days(), week.from(), week.to(), week.breaks(), first, last)),
            ada().extra(),
            ada().off()));
  }

  @Test
  void anExtraDayIsWorked() {
    Clinician saturday =
        new Clinician(
            "ada",
            "Invented ada",
            List.of(Capability.INJECT),
            ada().hours(),
            List.of(new ExtraHours(LocalDate.of(2026, 3, 7), time("10:00"), time("11:00"))),
            List.of());
    Diary diary =
        sound(booking("B", 1, "2026-03-07T10:00"))
            .withClinicians(List.of(saturday, small().clinicians().get(1)));
    assertEquals(List.of(), DiaryAudit.read(diary));
  }

  @Test
  void awayForADayOrAnHour() {
    LocalDate ninth = LocalDate.of(2026, 3, 9);
    finds(
        DiaryRule.AWAY,
        "A/2: Invented ada is away at Mon 9 Mar 2026 09:00",
        withClinician(ada().withOff(List.of(TimeOff.day(ninth, "leave")))));
    TimeOff hour = new TimeOff(ninth, ninth, time("09:50"), time("11:00"), null);
    finds(
        DiaryRule.AWAY,
        "A/2: Invented ada is away at Mon 9 Mar 2026 09:50",
        withClinician(ada().withOff(List.of(hour))));
  }

  @Test
  void aChairOutOfUse() {
    Diary diary = sound();
    Chair broken =
        new Chair("one", "Chair one", List.of(TimeOff.day(LocalDate.of(2026, 3, 9), null)));
    finds(
        DiaryRule.AWAY,
        "A/2: Chair one is out of use at Mon 9 Mar 2026 09:00",
        new Diary(
            diary.zone(),
            10,
            diary.clinicians(),
            List.of(broken, diary.chairs().get(1)),
            List.of(),
            diary.stock(),
            diary.courses(),
            diary.bookings(),
            List.of(),
            List.of()));
  }

  @Test
  void aClosedDay() {
    finds(
        DiaryRule.CLOSED,
        "A/2: the practice is closed at Mon 9 Mar 2026 09:00",
        sound().withClosed(List.of(TimeOff.day(LocalDate.of(2026, 3, 9), "holiday"))));
  }

  @Test
  void someoneWhoMayNotInject() {
    Booking byBen = A2.at(A2.start(), "ben", "one");
    finds(
        DiaryRule.CAPABILITY,
        "A/2: needs someone who may inject; Invented ben may not",
        small().withBookings(List.of(A1, byBen, A3)));
  }

  /** Needles from the tenth to the twentieth minute of the second visit, which Ben treats. */
  private static Diary aided(InjectorCall... calls) {
    CourseRequest a = course("A");
    List<VisitRequest> visits = new ArrayList<>(a.visits());
    visits.set(1, visits.get(1).withNeedles(List.of(new NeedleTime(10, 20))));
    Booking byBen = A2.at(A2.start(), "ben", "one", List.of(calls));
    return withCourse(a.withVisits(visits)).withBookings(List.of(A1, byBen, A3));
  }

  @Test
  void anInjectorWhoIsThereForAllOfTheNeedlesPasses() {
    assertEquals(List.of(), DiaryAudit.read(aided(new InjectorCall("ada", 10, 20))));
    assertEquals(
        List.of(),
        DiaryAudit.read(aided(new InjectorCall("ada", 10, 14), new InjectorCall("ada", 14, 20))));
  }

  @Test
  void nobodyWhoInjects() {
    finds(DiaryRule.CAPABILITY, "A/2: needs someone who may inject; Invented ben may not", aided());
  }

  @Test
  void anInjectorForTooFewMinutes() {
    finds(
        DiaryRule.INJECTOR,
        "A/2: nobody comes to inject for 3 of the minutes from Mon 9 Mar 2026 09:10 to"
            + " Mon 9 Mar 2026 09:20",
        aided(new InjectorCall("ada", 12, 19)));
  }

  @Test
  void anInjectorWhoStaysWhenTheVisitIsOver() {
    finds(
        DiaryRule.INJECTOR,
        "A/2: someone is to inject until Mon 9 Mar 2026 10:01, when the visit is over",
        aided(new InjectorCall("ada", 10, 61)));
  }

  @Test
  void anInjectorWhoMayNot() {
    Diary diary = aided(new InjectorCall("cleo", 10, 20));
    List<Clinician> people = new ArrayList<>(diary.clinicians());
    people.add(clinician("cleo"));
    finds(
        DiaryRule.INJECTOR,
        "A/2: Invented cleo comes to inject and may not",
        diary.withClinicians(people));
  }

  @Test
  void anInjectorWhomNobodyKnows() {
    finds(
        DiaryRule.KNOWN, "A/2: nobody here is called eve", aided(new InjectorCall("eve", 10, 20)));
  }

  @Test
  void anInjectorWhoIsAway() {
    Diary diary = aided(new InjectorCall("ada", 10, 20));
    Clinician away =
        ada()
            .withOff(
                List.of(
                    new TimeOff(
                        LocalDate.of(2026, 3, 9),
                        LocalDate.of(2026, 3, 9),
                        LocalTime.of(9, 15),
                        LocalTime.of(9, 30),
                        null)));
    finds(
        DiaryRule.AWAY,
        "A/2: Invented ada is away at Mon 9 Mar 2026 09:15",
        diary.withClinicians(List.of(away, diary.clinicians().get(1))));
  }

  @Test
  void anInjectorWithAnotherPatient() {
    Diary diary = aided(new InjectorCall("ada", 10, 20));
    Booking other = booking("B", 1, "2026-03-09T08:15");
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    bookings.add(other.at(at("2026-03-09T09:15"), "ada", "two"));
    finds(
        DiaryRule.CLINICIAN_ONCE,
        "A/2: ada is booked from Mon 9 Mar 2026 09:15 to Mon 9 Mar 2026 10:15 as B/1",
        diary.withBookings(bookings));
  }

  @Test
  void anInjectorWhoHasSomethingElse() {
    finds(
        DiaryRule.CLINICIAN_ONCE,
        "A/2: ada is busy from Mon 9 Mar 2026 09:15 to Mon 9 Mar 2026 09:30",
        aided(new InjectorCall("ada", 10, 20))
            .withBusy(
                List.of(
                    new BusyTime(
                        span("2026-03-09T09:15", "2026-03-09T09:30"),
                        "ada",
                        null,
                        List.of(),
                        null))));
  }

  @Test
  void aNeedThatWasNotBooked() {
    Booking without =
        new Booking(
            "A/2",
            "A",
            2,
            A2.start(),
            60,
            "ada",
            "one",
            A2.sets(),
            List.of(),
            BookingStatus.PROMISED);
    finds(
        DiaryRule.AS_ASKED,
        "A/2: its visit needs \"inject\" too",
        small().withBookings(List.of(A1, without, A3)));
  }

  @Test
  void tooShort() {
    Booking brief =
        new Booking(
            "A/2", "A", 2, A2.start(), 50, "ada", "one", A2.sets(), A2.needs(), A2.status());
    finds(
        DiaryRule.AS_ASKED,
        "A/2: has 50 minutes and needs 60",
        small().withBookings(List.of(A1, brief, A3)));
  }

  @Test
  void withoutItsSet() {
    Booking bare =
        new Booking(
            "A/2", "A", 2, A2.start(), 60, "ada", "one", List.of(), A2.needs(), A2.status());
    finds(
        DiaryRule.AS_ASKED,
        "A/2: its visit needs the set kit too",
        small().withBookings(List.of(A1, bare, A3)));
  }

  @Test
  void beforeTheEarliestDay() {
    CourseRequest late =
        new CourseRequest(
            "A",
            Diaries.MONDAY,
            LocalDate.of(2026, 3, 3),
            course("A").visits(),
            6,
            12,
            Availability.ANY,
            Preferences.NONE);
    finds(DiaryRule.ORDER, "A/1: comes before the earliest day, Tue 3 Mar 2026", withCourse(late));
  }

  @Test
  void aVisitBeforeItIsNotBooked() {
    finds(
        DiaryRule.ORDER,
        "A/2: visit 1 goes before it and is not booked",
        small().withBookings(List.of(A1.with(BookingStatus.MISSED), A2, A3)));
  }

  @Test
  void theGapIsCountedInDaysOfTheCalendar() {
    Booking afternoon = A1.at(at("2026-03-02T16:00"), "ada", "one");
    assertEquals(List.of(), DiaryAudit.read(small().withBookings(List.of(afternoon, A2, A3))));
    Booking tuesday = A1.at(at("2026-03-03T09:00"), "ada", "one");
    finds(
        DiaryRule.GAP,
        "A/2: 6 days after visit 1; allowed: 7 to 14",
        small().withBookings(List.of(tuesday, A2, A3)));
    Booking late = A3.at(at("2026-03-24T09:00"), "ada", "one");
    finds(
        DiaryRule.GAP,
        "A/3: 15 days after visit 2; allowed: 7 to 14",
        small().withBookings(List.of(A1, A2, late)));
    CourseRequest longer = course("A").withLongerGaps(new LongerGaps(1, "Ada"));
    List<Booking> later = List.of(A1, A2, late);
    assertEquals(List.of(), DiaryAudit.read(withCourse(longer).withBookings(later)));
    finds(
        DiaryRule.GAP,
        "A/3: 15 days after visit 2; allowed: 7 to 14",
        withCourse(longer.withLongestGapDays(14)).withBookings(later));
  }

  @Test
  void whatIsBegunIsFinishedTooLate() {
    CourseRequest.Deadline near = new CourseRequest.Deadline(1, 3, 14);
    assertEquals(List.of(), DiaryAudit.read(withCourse(course("A").withDeadlines(List.of(near)))));
    finds(
        DiaryRule.FINISH_WITHIN,
        "A/3: 14 days after visit 1, of which it ends what was begun; allowed: 13",
        withCourse(course("A").withDeadlines(List.of(new CourseRequest.Deadline(1, 3, 13)))));
  }

  @Test
  void promisedThoughThePlanIsProvisional() {
    CourseRequest provisional = course("A").withProvisional(true);
    Diary held =
        withCourse(provisional)
            .withBookings(
                List.of(
                    A1.with(BookingStatus.DONE),
                    A2.with(BookingStatus.HELD),
                    A3.with(BookingStatus.HELD)));
    assertEquals(List.of(), DiaryAudit.read(held));
    finds(
        DiaryRule.PROVISIONAL,
        "A/2: is promised, though the plan is provisional: such a visit is only held",
        held.withBookings(List.of(A1.with(BookingStatus.DONE), A2, A3.with(BookingStatus.HELD))));
  }

  @Test
  void visitsOfOneDayKeepTheirOrder() {
    CourseRequest oneDay =
        course("A").withVisits(List.of(Diaries.visit(1, 60, 0, 0), Diaries.visit(2, 60, 0, 1)));
    Booking first = A1.at(at("2026-03-02T10:00"), "ada", "one");
    Booking second = A2.at(at("2026-03-02T09:00"), "ada", "one");
    finds(
        DiaryRule.ORDER,
        "A/2: starts before visit 1 ends, Mon 2 Mar 2026 11:00",
        small().withBookings(List.of(first, second)).withCourses(List.of(oneDay)));
  }

  @Test
  void thePatientCannotCome() {
    Availability afternoons =
        new Availability(
            List.of(new WeeklyHours(Diaries.WEEK, time("08:00"), time("09:30"), List.of())),
            List.of(),
            List.of());
    CourseRequest asked =
        new CourseRequest(
            "A",
            Diaries.MONDAY,
            Diaries.MONDAY,
            course("A").visits(),
            6,
            12,
            afternoons,
            Preferences.NONE);
    Diary diary = small().withBookings(List.of(A1)).withCourses(List.of(asked));
    finds(DiaryRule.PATIENT, "A/1: the patient cannot come at Mon 2 Mar 2026 09:30", diary);
    Availability work =
        new Availability(
            List.of(), List.of(), List.of(span("2026-03-02T09:59", "2026-03-02T12:00")));
    CourseRequest busy =
        new CourseRequest(
            "A",
            Diaries.MONDAY,
            Diaries.MONDAY,
            course("A").visits(),
            6,
            12,
            work,
            Preferences.NONE);
    finds(
        DiaryRule.PATIENT,
        "A/1: the patient is busy from Mon 2 Mar 2026 09:59 to Mon 2 Mar 2026 12:00",
        small().withBookings(List.of(A1)).withCourses(List.of(busy)));
  }

  @Test
  void moreSetsInUseThanThereAre() {
    BusyTime other =
        new BusyTime(
            span("2026-03-02T08:00", "2026-03-02T08:30"), null, "two", List.of("kit", "kit"), null);
    // Back at half past nine: too late for a visit at nine.
    finds(
        DiaryRule.SETS,
        "A/1: at Mon 2 Mar 2026 09:00 3 of the set kit are in use or being reprocessed; there are"
            + " 2",
        sound().withBusy(List.of(other)));
    BusyTime earlier =
        new BusyTime(
            span("2026-03-02T07:00", "2026-03-02T08:00"), null, "two", List.of("kit", "kit"), null);
    assertEquals(List.of(), DiaryAudit.read(sound().withBusy(List.of(earlier))));
  }

  @Test
  void setsThatAreStillOutWhenSomethingElseStarts() {
    // Ends at ten, back at eleven; at half past ten two more are wanted.
    BusyTime later =
        new BusyTime(
            span("2026-03-02T10:30", "2026-03-02T11:00"), null, "two", List.of("kit", "kit"), null);
    finds(
        DiaryRule.SETS,
        "A/1: at Mon 2 Mar 2026 10:30 3 of the set kit are in use or being reprocessed; there are"
            + " 2",
        sound().withBusy(List.of(later)));
  }

  @Test
  void whatIsDoneOrCalledOffIsNotJudged() {
    Booking done = booking("B", 1, "2026-03-01T03:00").with(BookingStatus.DONE);
    Booking off =
        booking("B", 2, "2026-03-02T09:00")
            .at(at("2026-03-02T09:00"), "ada", "one")
            .with(BookingStatus.CANCELLED);
    assertEquals(List.of(), DiaryAudit.read(sound(done, off)));
  }

  @Test
  void aNightWhenTheClockIsPutForwardHasAnHourLess() {
    WeeklyHours night =
        new WeeklyHours(
            List.of(java.time.DayOfWeek.SUNDAY), time("00:00"), time("04:00"), List.of());
    Clinician nightly =
        new Clinician(
            "ada",
            "Invented ada",
            List.of(Capability.INJECT),
            List.of(night),
            List.of(),
            List.of());
    Diary diary =
        small()
            .withClinicians(List.of(nightly))
            .withCourses(List.of(course("A").withVisits(List.of(Diaries.visit(1, 180, 0, 0)))));
    Booking three =
        new Booking(
            "A/1",
            "A",
            1,
            at("2026-03-29T00:00"),
            180,
            "ada",
            "one",
            List.of("kit"),
            List.of(Capability.INJECT),
            BookingStatus.HELD);
    assertEquals(List.of(), DiaryAudit.read(diary.withBookings(List.of(three))));
    Booking tenPast = three.at(at("2026-03-29T00:10"), "ada", "one");
    List<DiaryFinding> findings = DiaryAudit.read(diary.withBookings(List.of(tenPast)));
    assertEquals(1, findings.size());
    assertTrue(findings.get(0).message().endsWith("Sun 29 Mar 2026 04:00"), findings.toString());
  }

  @Test
  void stockOfNoneHoldsNothing() {
    Diary diary = sound();
    Diary bare =
        new Diary(
            diary.zone(),
            10,
            diary.clinicians(),
            diary.chairs(),
            List.of(),
            new SterileStock(60, List.of(new SterileStock.SterileSet("kit", 0, true))),
            diary.courses(),
            List.of(A1),
            List.of(),
            List.of());
    finds(
        DiaryRule.SETS,
        "A/1: at Mon 2 Mar 2026 09:00 1 of the set kit are in use or being reprocessed; there are"
            + " 0",
        bare);
  }

  private static java.time.Instant at(String local) {
    return Diaries.at(local);
  }
}
