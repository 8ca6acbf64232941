package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * A week of a diary in plain sight: what is booked, what is free, and what each course needs next.
 *
 * @param monday its first day
 * @param days those on which somebody works or anything is booked, Monday to Sunday
 * @param courses for which something is to be done, in the order in which they asked
 */
public record DiaryWeek(LocalDate monday, List<Day> days, List<Next> courses) {

  public DiaryWeek {
    days = List.copyOf(days);
    courses = List.copyOf(courses);
  }

  /**
   * One day.
   *
   * @param people in the diary's order, also those who do not work
   * @param bookings that take time, by start
   */
  public record Day(LocalDate date, List<Person> people, List<Booking> bookings) {}

  /**
   * One clinician's day.
   *
   * @param working without breaks and absence
   * @param booked visits of courses, and where they only inject
   * @param busy everything else
   * @param free working and nothing else, with some chair free
   * @param chairless free, but no chair is
   */
  public record Person(
      Clinician clinician,
      List<Interval> working,
      List<Interval> booked,
      List<Interval> busy,
      List<Interval> free,
      List<Interval> chairless) {}

  /**
   * What a course needs next.
   *
   * @param visit the first visit without a booking; null where all are booked
   * @param from first day that visit may be on, not before today
   * @param to last day that it may be on, which may be past; null where nothing limits it
   * @param booked its next visit that is held and may be promised; null where there is none
   */
  public record Next(
      CourseRequest course,
      @Nullable VisitRequest visit,
      LocalDate from,
      @Nullable LocalDate to,
      @Nullable Booking booked) {}

  /** The first day of the week in which something is next: held or promised, else busy. */
  public static Optional<LocalDate> first(Diary diary) {
    return diary.bookings().stream()
        .filter(booking -> coming(booking.status()))
        .map(Booking::start)
        .min(Comparator.naturalOrder())
        .or(
            () ->
                diary.busy().stream()
                    .map(busy -> busy.time().start())
                    .min(Comparator.naturalOrder()))
        .map(moment -> monday(moment.atZone(diary.zone()).toLocalDate()));
  }

  /** The Monday of a day's week. */
  public static LocalDate monday(LocalDate day) {
    return day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
  }

  /**
   * The week of a day.
   *
   * @param diary with the busy times of its calendars in that week
   * @param today before which nothing is next
   */
  public static DiaryWeek of(Diary diary, LocalDate day, LocalDate today) {
    LocalDate monday = monday(day);
    FreeTimes times = new FreeTimes(diary);
    List<Day> days = new ArrayList<>();
    for (int i = 0; i < 7; i++) {
      Day one = day(diary, times, monday.plusDays(i));
      boolean idle = one.people().stream().allMatch(person -> person.working().isEmpty());
      if (!idle || !one.bookings().isEmpty()) {
        days.add(one);
      }
    }
    Map<String, List<Booking>> byCase = new LinkedHashMap<>();
    for (Booking booking : diary.bookings()) {
      byCase.computeIfAbsent(booking.caseName(), none -> new ArrayList<>()).add(booking);
    }
    // Of each course only its own bookings matter.
    return new DiaryWeek(
        monday,
        days,
        diary.courses().stream()
            .flatMap(
                course ->
                    next(
                        diary.withBookings(byCase.getOrDefault(course.caseName(), List.of())),
                        course,
                        today)
                        .stream())
            .toList());
  }

  private static Day day(Diary diary, FreeTimes times, LocalDate date) {
    Interval whole = WallClock.days(diary.zone(), date, date);
    List<Interval> chairs =
        Intervals.union(
            diary.chairs().stream()
                .flatMap(chair -> times.ofChair(chair, date, date).stream())
                .toList());
    List<Person> people = new ArrayList<>();
    for (Clinician clinician : diary.clinicians()) {
      List<Interval> idle = times.ofClinician(clinician, date, date);
      people.add(
          new Person(
              clinician,
              times.working(clinician, date, date),
              Intervals.both(
                  List.of(whole),
                  diary.bookings().stream()
                      .filter(booking -> booking.status().takesTime())
                      .flatMap(booking -> booking.taken(clinician.id()).stream())
                      .toList()),
              Intervals.both(
                  List.of(whole),
                  diary.busy().stream()
                      .filter(busy -> busy.takesClinician(clinician.id()))
                      .map(BusyTime::time)
                      .toList()),
              Intervals.both(idle, chairs),
              Intervals.without(idle, chairs)));
    }
    List<Booking> bookings =
        diary.bookings().stream()
            .filter(booking -> booking.status().takesTime() && booking.time().overlaps(whole))
            .sorted(Comparator.comparing(Booking::start).thenComparing(Booking::id))
            .toList();
    return new Day(date, List.copyOf(people), bookings);
  }

  private static boolean coming(BookingStatus status) {
    return status == BookingStatus.HELD || status == BookingStatus.PROMISED;
  }

  private static Optional<Next> next(Diary diary, CourseRequest course, LocalDate today) {
    @Nullable Booking booked =
        diary.bookings().stream()
            .filter(one -> one.caseName().equals(course.caseName()))
            .filter(one -> one.status() == BookingStatus.HELD && !course.provisional())
            .min(Comparator.comparing(Booking::start))
            .orElse(null);
    List<VisitRequest> open = diary.unbooked(course);
    if (open.isEmpty()) {
      return booked == null
          ? Optional.empty()
          : Optional.of(new Next(course, null, later(course.earliest(), today), null, booked));
    }
    VisitRequest visit = open.get(0);
    int at = course.visits().indexOf(visit);
    Optional<LocalDate> before =
        at == 0
            ? Optional.empty()
            : diary
                .standing(course.caseName(), course.visits().get(at - 1).number())
                .map(one -> one.start().atZone(diary.zone()).toLocalDate());
    LocalDate from =
        before
            .map(day -> day.plus(visit.gapMinDays(), ChronoUnit.DAYS))
            .filter(day -> day.isAfter(course.earliest()))
            .orElse(course.earliest());
    @Nullable LocalDate to = before.map(day -> day.plusDays(course.gapMaxDays(visit))).orElse(null);
    for (CourseRequest.Deadline deadline : course.deadlines()) {
      @Nullable Booking begins = diary.standing(course.caseName(), deadline.from()).orElse(null);
      if (deadline.to() == visit.number() && begins != null) {
        LocalDate by = begins.start().atZone(diary.zone()).toLocalDate().plusDays(deadline.days());
        to = to == null || by.isBefore(to) ? by : to;
      }
    }
    return Optional.of(new Next(course, visit, later(from, today), to, booked));
  }

  private static LocalDate later(LocalDate one, LocalDate other) {
    return one.isAfter(other) ? one : other;
  }
}
