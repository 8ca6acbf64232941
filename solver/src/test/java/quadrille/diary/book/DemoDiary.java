package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import quadrille.diary.book.SterileStock.SterileSet;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * The diary in demo-data: three hygienists of whom two may inject, two chairs, one steriliser,
 * mostly full for ten weeks from Monday 2 March 2026. The zone changes its clocks on 29 March.
 */
final class DemoDiary {

  private static final ZoneId ZONE = ZoneId.of("Europe/Rome");
  private static final LocalDate FIRST = LocalDate.of(2026, 3, 2);
  private static final int WEEKS = 10;

  /** Of a gap that a recall visit fits into, so many are filled. */
  private static final double FULL = 0.88;

  /** Of the half days of those who inject, so many are kept for long visits. */
  private static final double KEPT = 0.12;

  /** A prevacuum cycle of 4 min and 20 to 30 of drying (CDC 2008, table 7); the rest assumed. */
  private static final int REPROCESSING = 75;

  private DemoDiary() {}

  static Diary make() {
    List<Clinician> clinicians =
        List.of(
            new Clinician(
                "hanna",
                "Hanna Example",
                List.of(Capability.INJECT),
                List.of(
                    hours("08:30", "17:00", "12:30", "13:15", 1, 2, 3),
                    hours("08:30", "12:30", null, null, 4)),
                List.of(),
                List.of(off("2026-03-30", "2026-04-03", "leave"))),
            new Clinician(
                "ines",
                "Ines Example",
                List.of(Capability.INJECT),
                List.of(hours("09:00", "17:30", "13:00", "13:45", 1, 3, 4, 5)),
                List.of(
                    new ExtraHours(
                        LocalDate.of(2026, 4, 11), LocalTime.of(9, 0), LocalTime.of(13, 0))),
                List.of()),
            new Clinician(
                "jon",
                "Jon Example",
                List.of(),
                List.of(hours("08:30", "16:00", "12:00", "12:30", 1, 2, 3, 4, 5)),
                List.of(),
                List.of(off("2026-03-16", "2026-03-17", "course"))));
    List<Chair> chairs =
        List.of(
            new Chair("1", "Chair 1", List.of()),
            new Chair(
                "2",
                "Chair 2",
                List.of(
                    new TimeOff(
                        LocalDate.of(2026, 3, 25),
                        LocalDate.of(2026, 3, 25),
                        LocalTime.of(8, 0),
                        LocalTime.of(11, 0),
                        "service"))));
    SterileStock stock =
        new SterileStock(
            REPROCESSING,
            List.of(
                new SterileSet("basic kit", 6, true),
                new SterileSet("slim curved right", 4, false),
                new SterileSet("slim curved left", 4, false),
                new SterileSet("sleeved for implants", 3, false)));
    Diary empty =
        new Diary(
            ZONE,
            10,
            clinicians,
            chairs,
            List.of(
                off("2026-04-06", "2026-04-06", "holiday"),
                off("2026-05-01", "2026-05-01", "holiday")),
            stock,
            courses(),
            bookings(),
            List.of(),
            List.of(new CalendarLink("hanna.ics", "hanna", null)));
    return filled(empty, new Random(20260302));
  }

  private static WeeklyHours hours(
      String from, String to, String breakFrom, String breakTo, int... days) {
    List<DayOfWeek> week = new ArrayList<>();
    for (int day : days) {
      week.add(DayOfWeek.of(day));
    }
    return new WeeklyHours(
        week,
        LocalTime.parse(from),
        LocalTime.parse(to),
        breakFrom == null
            ? List.of()
            : List.of(new WeeklyHours.Break(LocalTime.parse(breakFrom), LocalTime.parse(breakTo))));
  }

  private static TimeOff off(String first, String last, String because) {
    return new TimeOff(LocalDate.parse(first), LocalDate.parse(last), null, null, because);
  }

  private static final List<String> CURVED =
      List.of("basic kit", "slim curved right", "slim curved left");

  private static VisitRequest visit(int number, int minutes) {
    return new VisitRequest(
        number,
        minutes,
        List.of(Capability.INJECT),
        CURVED,
        number == 1 ? 0 : 7,
        number == 1 ? 0 : 14);
  }

  private static List<CourseRequest> courses() {
    return List.of(
        new CourseRequest(
            "DEMO-201",
            LocalDate.of(2026, 2, 16),
            LocalDate.of(2026, 2, 16),
            List.of(visit(1, 70), visit(2, 80), visit(3, 80)),
            6,
            12,
            Availability.ANY,
            Preferences.NONE),
        new CourseRequest(
            "DEMO-202",
            LocalDate.of(2026, 2, 23),
            LocalDate.of(2026, 2, 23),
            List.of(visit(1, 90), visit(2, 90)),
            6,
            12,
            new Availability(
                List.of(
                    new WeeklyHours(
                        List.of(DayOfWeek.MONDAY, DayOfWeek.WEDNESDAY),
                        LocalTime.of(8, 0),
                        LocalTime.of(13, 30),
                        List.of())),
                List.of(off("2026-03-23", "2026-03-27", "away")),
                List.of()),
            new Preferences(List.of(), "hanna")),
        new CourseRequest(
            "DEMO-203",
            LocalDate.of(2026, 2, 27),
            LocalDate.of(2026, 3, 2),
            List.of(visit(1, 60), visit(2, 70), visit(3, 60)),
            6,
            12,
            Availability.ANY,
            new Preferences(
                List.of(
                    new WeeklyHours(
                        List.of(DayOfWeek.THURSDAY, DayOfWeek.FRIDAY),
                        LocalTime.of(14, 0),
                        LocalTime.of(18, 0),
                        List.of())),
                null)));
  }

  private static Booking booking(
      String name, int visit, String start, int minutes, String who, BookingStatus status) {
    return new Booking(
        name + "/" + visit,
        name,
        visit,
        java.time.LocalDateTime.parse(start).atZone(ZONE).toInstant(),
        minutes,
        who,
        who.equals("hanna") ? "1" : "2",
        CURVED,
        List.of(Capability.INJECT),
        status);
  }

  private static List<Booking> bookings() {
    return List.of(
        booking("DEMO-201", 1, "2026-02-26T09:30", 70, "ines", BookingStatus.DONE),
        booking("DEMO-201", 2, "2026-03-05T14:00", 80, "ines", BookingStatus.PROMISED),
        booking("DEMO-201", 3, "2026-03-19T09:00", 80, "ines", BookingStatus.PROMISED),
        booking("DEMO-202", 1, "2026-03-04T08:30", 90, "hanna", BookingStatus.PROMISED),
        booking("DEMO-202", 2, "2026-03-16T10:00", 90, "hanna", BookingStatus.PROMISED));
  }

  /** Puts recall visits into most of what is free, as long as chairs and kits last. */
  private static Diary filled(Diary diary, Random random) {
    Diary now = diary;
    for (LocalDate day = FIRST; day.isBefore(FIRST.plusWeeks(WEEKS)); day = day.plusDays(1)) {
      for (Clinician clinician : diary.clinicians()) {
        for (Interval free : new FreeTimes(now).ofClinician(clinician, day, day)) {
          boolean kept = clinician.mayInject() && random.nextDouble() < KEPT;
          now = kept ? now : filled(now, clinician, free, random);
        }
      }
    }
    List<BusyTime> busy = new ArrayList<>(now.busy());
    busy.sort((a, b) -> a.time().compareTo(b.time()));
    return now.withBusy(busy);
  }

  private static Diary filled(Diary diary, Clinician clinician, Interval free, Random random) {
    List<BusyTime> busy = new ArrayList<>(diary.busy());
    Instant at = free.start();
    while (at.isBefore(free.end())) {
      int minutes = 10 * (2 + random.nextInt(5));
      Interval time = Interval.of(at, minutes);
      boolean wanted = free.contains(time) && random.nextDouble() < FULL;
      boolean filled = false;
      if (wanted) {
        Diary now = diary.withBusy(busy);
        for (Chair chair : diary.chairs()) {
          LocalDate day = at.atZone(ZONE).toLocalDate();
          List<Interval> chairFree = new FreeTimes(now).ofChair(chair, day, day);
          if (Intervals.both(chairFree, List.of(time)).equals(List.of(time)) && kits(now, time)) {
            busy.add(new BusyTime(time, clinician.id(), chair.id(), List.of("basic kit"), null));
            filled = true;
            break;
          }
        }
      }
      at = at.plusSeconds(60L * (filled ? minutes : wanted ? 10 : 10 * (1 + random.nextInt(4))));
    }
    return diary.withBusy(busy);
  }

  /** Whether a basic kit is left throughout, until it would be back in stock. */
  private static boolean kits(Diary diary, Interval time) {
    Interval out = new Interval(time.start(), time.end().plusSeconds(60L * REPROCESSING));
    long others =
        diary.busy().stream().filter(busy -> out(busy.time()).overlaps(out)).count()
            + diary.bookings().stream().filter(one -> out(one.time()).overlaps(out)).count();
    return others < 6;
  }

  private static Interval out(Interval time) {
    return new Interval(time.start(), time.end().plusSeconds(60L * REPROCESSING));
  }
}
