package quadrille.diary.booking;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import quadrille.diary.book.Availability;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.SterileStock.SterileSet;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.calendar.Interval;

/** Invented practices and patients, the same for the same seed. */
final class RandomDiary {

  static final ZoneId ZONE = ZoneId.of("Europe/Berlin");
  static final LocalDate FIRST = LocalDate.of(2026, 3, 9);
  static final List<DayOfWeek> WEEK =
      List.of(
          DayOfWeek.MONDAY,
          DayOfWeek.TUESDAY,
          DayOfWeek.WEDNESDAY,
          DayOfWeek.THURSDAY,
          DayOfWeek.FRIDAY);

  private final Random random;

  RandomDiary(long seed) {
    this.random = new Random(seed);
  }

  /** A diary with nothing but other things in it, as full as a share of the hours. */
  Diary diary(int clinicians, int chairs, int grid, int days, double full) {
    return diary(clinicians, chairs, grid, days, full, 2);
  }

  /**
   * The same with a number of ultrasonic sets.
   *
   * @param full chance that something else begins in an hour
   */
  Diary diary(int clinicians, int chairs, int grid, int days, double full, int sets) {
    List<Clinician> people = new ArrayList<>();
    for (int i = 0; i < clinicians; i++) {
      LocalTime from = LocalTime.of(8, 0).plusMinutes(30L * random.nextInt(3));
      LocalTime to = LocalTime.of(16, 0).plusMinutes(30L * random.nextInt(5));
      LocalTime pause = LocalTime.of(12, 0).plusMinutes(30L * random.nextInt(2));
      List<DayOfWeek> works = new ArrayList<>(WEEK);
      if (random.nextInt(3) == 0) {
        works.remove(random.nextInt(5));
      }
      List<TimeOff> off = new ArrayList<>();
      if (random.nextInt(3) == 0) {
        LocalDate leave = FIRST.plusDays(random.nextInt(days));
        off.add(new TimeOff(leave, leave.plusDays(random.nextInt(4)), null, null, null));
      }
      people.add(
          new Clinician(
              "c" + (i + 1),
              "Clinician " + (i + 1),
              i % 3 == 2 ? List.of() : List.of(Capability.INJECT),
              List.of(
                  new WeeklyHours(
                      works,
                      from,
                      to,
                      List.of(new WeeklyHours.Break(pause, pause.plusMinutes(45))))),
              List.of(),
              off));
    }
    List<Chair> rooms = new ArrayList<>();
    for (int i = 0; i < chairs; i++) {
      rooms.add(new Chair("r" + (i + 1), "Chair " + (i + 1), List.of()));
    }
    List<BusyTime> busy = new ArrayList<>();
    for (int day = 0; day < days; day++) {
      for (int i = 0; i < clinicians; i++) {
        for (int hour = 8; hour < 18; hour++) {
          if (random.nextDouble() < full) {
            LocalTime at = LocalTime.of(hour, 5 * random.nextInt(12));
            Instant start = FIRST.plusDays(day).atTime(at).atZone(ZONE).toInstant();
            busy.add(
                new BusyTime(
                    Interval.of(start, 10 + 5 * random.nextInt(11)),
                    "c" + (i + 1),
                    i < chairs ? "r" + (i + 1) : null,
                    random.nextInt(4) == 0 ? List.of("ultrasonic") : List.of(),
                    null));
          }
        }
      }
    }
    List<TimeOff> closed = List.of(TimeOff.day(FIRST.plusDays(random.nextInt(days)), "holiday"));
    SterileStock stock =
        new SterileStock(
            60,
            List.of(new SterileSet("basic", 6, true), new SterileSet("ultrasonic", sets, false)));
    return new Diary(
        ZONE, grid, people, rooms, closed, stock, List.of(), List.of(), busy, List.of());
  }

  /** A patient's course. */
  CourseRequest course(String caseName, int visits, Diary diary) {
    return course(caseName, visits, diary, FIRST, 7, 14);
  }

  CourseRequest course(
      String caseName, int visits, Diary diary, LocalDate asked, int gapMin, int gapMax) {
    List<VisitRequest> requests = new ArrayList<>();
    for (int i = 0; i < visits; i++) {
      requests.add(
          new VisitRequest(
              i + 1,
              40 + 10 * random.nextInt(5),
              random.nextInt(3) > 0 ? List.of(Capability.INJECT) : List.of(),
              random.nextInt(2) == 0 ? List.of("basic", "ultrasonic") : List.of("basic"),
              i == 0 ? 0 : gapMin,
              i == 0 ? 0 : gapMax));
    }
    Availability availability =
        switch (random.nextInt(4)) {
          case 0 ->
              new Availability(
                  List.of(hours(LocalTime.of(8, 0), LocalTime.of(13, 0))), List.of(), List.of());
          case 1 ->
              new Availability(
                  List.of(),
                  List.of(TimeOff.day(asked.plusDays(1 + random.nextInt(20)), null)),
                  List.of());
          default -> Availability.ANY;
        };
    Preferences preferences =
        switch (random.nextInt(4)) {
          case 0 -> new Preferences(List.of(hours(LocalTime.of(8, 0), LocalTime.of(12, 0))), null);
          case 1 ->
              new Preferences(
                  List.of(hours(LocalTime.of(14, 0), LocalTime.of(18, 0))),
                  diary.clinicians().get(0).id());
          default -> Preferences.NONE;
        };
    return new CourseRequest(caseName, asked, asked, requests, 6, 12, availability, preferences);
  }

  private WeeklyHours hours(LocalTime from, LocalTime to) {
    List<DayOfWeek> days = new ArrayList<>(WEEK);
    days.remove(random.nextInt(5));
    return new WeeklyHours(days, from, to, List.of());
  }
}
