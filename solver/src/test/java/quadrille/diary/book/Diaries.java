package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import quadrille.diary.book.SterileStock.SterileSet;
import quadrille.diary.calendar.Interval;

/** Small diaries in tests: Europe/Rome, where clocks change on 29 March and 25 October 2026. */
public final class Diaries {

  public static final ZoneId ROME = ZoneId.of("Europe/Rome");
  public static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);
  public static final List<DayOfWeek> WEEK =
      List.of(
          DayOfWeek.MONDAY,
          DayOfWeek.TUESDAY,
          DayOfWeek.WEDNESDAY,
          DayOfWeek.THURSDAY,
          DayOfWeek.FRIDAY);

  private Diaries() {}

  /** A moment by the clock in Rome. */
  public static Instant at(String local) {
    return java.time.LocalDateTime.parse(local).atZone(ROME).toInstant();
  }

  public static LocalTime time(String text) {
    return LocalTime.parse(text);
  }

  /** Nine to five with an hour's break at one. */
  public static WeeklyHours nineToFive() {
    return new WeeklyHours(
        WEEK,
        time("09:00"),
        time("17:00"),
        List.of(new WeeklyHours.Break(time("13:00"), time("14:00"))));
  }

  public static Clinician clinician(String id, Capability... may) {
    return new Clinician(
        id, "Invented " + id, List.of(may), List.of(nineToFive()), List.of(), List.of());
  }

  public static VisitRequest visit(int number, int minutes, int gapMin, int gapMax) {
    return new VisitRequest(
        number, minutes, List.of(Capability.INJECT), List.of("kit"), gapMin, gapMax);
  }

  /** Three visits of an hour with injections, 7 to 14 days apart. */
  public static CourseRequest course(String name) {
    return new CourseRequest(
        name,
        MONDAY,
        MONDAY,
        List.of(visit(1, 60, 0, 0), visit(2, 60, 7, 14), visit(3, 60, 7, 14)),
        6,
        12,
        Availability.ANY,
        Preferences.NONE);
  }

  public static Booking booking(String name, int visit, String start) {
    return new Booking(
        name + "/" + visit,
        name,
        visit,
        at(start),
        60,
        "ada",
        "one",
        List.of("kit"),
        List.of(Capability.INJECT),
        BookingStatus.PROMISED);
  }

  /**
   * Ada, who may inject, and Ben, who may not; chairs one and two; two kits, each back an hour
   * after its visit; courses A and B with nothing booked.
   */
  public static Diary small() {
    return new Diary(
            ROME,
            10,
            List.of(clinician("ada", Capability.INJECT), clinician("ben")),
            List.of(
                new Chair("one", "Chair one", List.of()), new Chair("two", "Chair two", List.of())),
            List.of(),
            new SterileStock(60, List.of(new SterileSet("kit", 2, true))),
            List.of(course("A"), course("B")),
            List.of(),
            List.of(),
            List.of())
        .withExportKey("0123456789abcdef0123456789abcdef");
  }

  public static Diary with(Booking... bookings) {
    return small().withBookings(List.of(bookings));
  }

  public static Interval span(String start, String end) {
    return new Interval(at(start), at(end));
  }
}
