package quadrille.diary.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.ExtraHours;
import quadrille.diary.book.FreeTimes;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * Free times and audit were written apart: a visit fits into the free times exactly where the
 * audit, minute by minute, finds nothing against it. Days around both changes of clock in three
 * zones; hours at any time of day.
 */
final class FreeTimesAgainstAuditProperties {

  private static final List<LocalDate> CHANGES =
      List.of(
          LocalDate.of(2026, 3, 29),
          LocalDate.of(2026, 10, 25),
          LocalDate.of(2026, 3, 8),
          LocalDate.of(2026, 11, 1),
          LocalDate.of(2026, 4, 5),
          LocalDate.of(2026, 10, 4));
  private static final List<String> ZONES =
      List.of("Europe/Rome", "America/New_York", "Australia/Lord_Howe");
  private static final Set<DiaryRule> OF_TIME =
      EnumSet.of(
          DiaryRule.CLINICIAN_ONCE,
          DiaryRule.CHAIR_ONCE,
          DiaryRule.HOURS,
          DiaryRule.AWAY,
          DiaryRule.CLOSED,
          DiaryRule.PATIENT);

  private final Random random = new Random();

  @Property(tries = 400, seed = "20260309", edgeCases = EdgeCasesMode.NONE)
  void aVisitIsFreeExactlyWhereTheAuditFindsNothing(@ForAll long seed) {
    random.setSeed(seed);
    int choice = random.nextInt(CHANGES.size());
    ZoneId zone = ZoneId.of(ZONES.get(choice / 2));
    LocalDate day = CHANGES.get(choice);
    LocalDate first = day.minusDays(1);
    LocalDate last = day.plusDays(1);
    int minutes = 5 * (1 + random.nextInt(40));
    CourseRequest course =
        new CourseRequest(
            "A",
            first,
            first,
            List.of(new VisitRequest(1, minutes, List.of(), List.of(), 0, 0)),
            6,
            12,
            random.nextBoolean()
                ? Availability.ANY
                : new Availability(
                    week(),
                    off(day),
                    List.of(Interval.of(moment(first, zone), 5 + random.nextInt(90)))),
            Preferences.NONE);
    Diary diary =
        new Diary(
            zone,
            5,
            List.of(new Clinician("c", "C", List.of(), week(), extra(day), off(day))),
            List.of(new Chair("r", "R", off(day))),
            off(day),
            new SterileStock(0, List.of()),
            List.of(course),
            List.of(),
            List.of(
                new BusyTime(
                    Interval.of(moment(first, zone), 5 + random.nextInt(90)),
                    random.nextBoolean() ? "c" : null,
                    random.nextBoolean() ? "r" : null,
                    List.of(),
                    null)),
            List.of());
    FreeTimes times = new FreeTimes(diary);
    List<Interval> free =
        Intervals.both(
            Intervals.both(
                times.ofClinician(diary.clinicians().get(0), first, last),
                times.ofChair(diary.chairs().get(0), first, last)),
            times.ofPatient(course.availability(), first, last));
    for (int i = 0; i < 200; i++) {
      Instant start = moment(first, zone);
      Interval visit = Interval.of(start, minutes);
      if (!times.day(visit.end()).isBefore(last.plusDays(1))) {
        continue;
      }
      boolean fits = free.stream().anyMatch(span -> span.contains(visit));
      Booking booking =
          new Booking(
              "A/1", "A", 1, start, minutes, "c", "r", List.of(), List.of(), BookingStatus.HELD);
      List<DiaryFinding> against =
          DiaryAudit.read(diary.withBookings(List.of(booking))).stream()
              .filter(finding -> OF_TIME.contains(finding.rule()))
              .toList();
      if (fits) {
        assertEquals(List.of(), against, () -> start + " in " + free);
      } else if (!repeats(zone, visit)) {
        // In an hour that the clock shows twice, fewer times are offered than would do.
        assertTrue(!against.isEmpty(), () -> start + " not in " + free);
      }
    }
  }

  /** Whether the clock shows a minute of the visit a second time, or has shown it before. */
  private static boolean repeats(ZoneId zone, Interval visit) {
    for (Instant at = visit.start(); at.isBefore(visit.end()); at = at.plusSeconds(60)) {
      if (zone.getRules().getValidOffsets(at.atZone(zone).toLocalDateTime()).size() > 1) {
        return true;
      }
    }
    return false;
  }

  private Instant moment(LocalDate first, ZoneId zone) {
    return first.atStartOfDay(zone).toInstant().plusSeconds(60L * 5 * random.nextInt(3 * 24 * 12));
  }

  private LocalTime time(int fromHour, int toHour) {
    return LocalTime.of(fromHour + random.nextInt(toHour - fromHour), 5 * random.nextInt(12));
  }

  private List<WeeklyHours> week() {
    List<WeeklyHours> week = new ArrayList<>();
    week.add(
        new WeeklyHours(
            Arrays.asList(DayOfWeek.values()),
            time(0, 3),
            random.nextBoolean() ? LocalTime.MIDNIGHT : time(4, 24),
            random.nextBoolean()
                ? List.of()
                : List.of(new WeeklyHours.Break(LocalTime.of(3, 0), LocalTime.of(3, 20)))));
    if (random.nextBoolean()) {
      week.add(
          new WeeklyHours(
              List.of(DayOfWeek.SUNDAY, DayOfWeek.MONDAY), time(8, 12), time(13, 20), List.of()));
    }
    return week;
  }

  private List<ExtraHours> extra(LocalDate day) {
    return random.nextBoolean() ? List.of() : List.of(new ExtraHours(day, time(0, 2), time(3, 6)));
  }

  private List<TimeOff> off(LocalDate day) {
    return switch (random.nextInt(6)) {
      case 0 -> List.of(TimeOff.day(day.minusDays(1), null));
      case 1 ->
          List.of(
              new TimeOff(
                  day,
                  day.plusDays(random.nextInt(2)),
                  time(1, 3),
                  random.nextBoolean() ? LocalTime.MIDNIGHT : time(4, 9),
                  null));
      default -> List.of();
    };
  }
}
