package quadrille.treatment.day;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.diary.book.VisitRequest;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseProgress;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;

/**
 * A day of a practice, from its diary and the logs of its courses. A visit that both know of is the
 * diary's; one that only a log has promised comes too.
 *
 * @param date the day
 * @param coming who comes, by time
 * @param waiting which courses wait, whatever the day: to be recorded first, then to be planned
 *     again, to be booked, to be re-evaluated; each by case
 * @param next the first later day on which somebody comes; null where there is none
 */
public record PracticeDay(
    LocalDate date, List<Coming> coming, List<Waiting> waiting, @Nullable LocalDate next) {

  public PracticeDay {
    coming = List.copyOf(coming);
    waiting = List.copyOf(waiting);
  }

  /**
   * Reads a day.
   *
   * @param now on the practice's wall clock
   * @param diary null where the practice has none
   * @param logs at most one a case
   * @param charted the day of each case's last chart
   */
  public static PracticeDay of(
      LocalDate date,
      LocalDateTime now,
      @Nullable Diary diary,
      List<CourseLog> logs,
      Map<String, LocalDate> charted) {
    List<UnderWay> courses = logs.stream().map(UnderWay::of).toList();
    List<Coming> all = coming(diary, courses);
    return new PracticeDay(
        date,
        all.stream().filter(one -> one.start().toLocalDate().equals(date)).toList(),
        waiting(now, diary, courses, all, charted),
        all.stream()
            .map(one -> one.start().toLocalDate())
            .filter(day -> day.isAfter(date))
            .findFirst()
            .orElse(null));
  }

  private record UnderWay(CourseLog log, CourseState state) {
    static UnderWay of(CourseLog log) {
      return new UnderWay(log, CourseState.of(log));
    }

    String caseName() {
      return state.course().caseName();
    }

    @Nullable Visit visit(int number) {
      return state.course().visits().stream()
          .filter(visit -> visit.number() == number)
          .findFirst()
          .or(
              () ->
                  state.recorded().stream()
                      .filter(one -> one.done().visit() == number)
                      .flatMap(one -> Stream.ofNullable(one.planned()))
                      .findFirst())
          .orElse(null);
    }
  }

  /** All visits that are held, promised or done, by time. */
  private static List<Coming> coming(@Nullable Diary diary, List<UnderWay> courses) {
    List<Coming> coming = new ArrayList<>();
    if (diary != null) {
      for (Booking booking : diary.bookings()) {
        if (booking.status().takesTime()) {
          coming.add(
              visit(
                  booking.caseName(),
                  booking.visit(),
                  booking.start().atZone(diary.zone()).toLocalDateTime(),
                  booking.minutes(),
                  booking.clinician(),
                  booking.chair(),
                  booking.status(),
                  courses));
        }
      }
    }
    for (UnderWay course : courses) {
      for (Event.Appointment promised : course.state().booked().values()) {
        if (diary == null || !knows(diary, course.caseName(), promised.visit())) {
          coming.add(
              visit(
                  course.caseName(),
                  promised.visit(),
                  promised.start(),
                  promised.minutes(),
                  promised.clinician(),
                  null,
                  BookingStatus.PROMISED,
                  courses));
        }
      }
    }
    coming.sort(
        Comparator.comparing(Coming::start)
            .thenComparing(Coming::caseName)
            .thenComparing(Coming::visit));
    return coming;
  }

  /** Whether a diary has a visit, called off or not: then it knows better than the log. */
  private static boolean knows(Diary diary, String caseName, int visit) {
    return diary.bookings().stream()
        .anyMatch(one -> one.caseName().equals(caseName) && one.visit() == visit);
  }

  private static Coming visit(
      String caseName,
      int visit,
      LocalDateTime start,
      int minutes,
      @Nullable String clinician,
      @Nullable String chair,
      BookingStatus status,
      List<UnderWay> courses) {
    Optional<UnderWay> course = course(courses, caseName);
    return new Coming(
        caseName,
        visit,
        start,
        minutes,
        clinician,
        chair,
        status,
        course.map(UnderWay::log).orElse(null),
        course.map(one -> one.state().course()).orElse(null),
        course.map(one -> one.visit(visit)).orElse(null));
  }

  private static Optional<UnderWay> course(List<UnderWay> courses, String caseName) {
    return courses.stream().filter(one -> one.caseName().equals(caseName)).findFirst();
  }

  private static List<Waiting> waiting(
      LocalDateTime now,
      @Nullable Diary diary,
      List<UnderWay> courses,
      List<Coming> coming,
      Map<String, LocalDate> charted) {
    List<Waiting> waiting = new ArrayList<>();
    for (Coming visit : coming) {
      Optional<UnderWay> course = course(courses, visit.caseName());
      if (course.isPresent()
          && visit.end().isBefore(now)
          && course.get().state().toCome().stream()
              .anyMatch(one -> one.number() == visit.visit())) {
        waiting.add(
            new Waiting.ToRecord(visit.caseName(), visit.visit(), visit.start().toLocalDate()));
      }
    }
    for (UnderWay course : courses) {
      boolean held =
          ended(course.state(), charted) && !course.state().course().leadsToReevaluation();
      if (held || !CourseProgress.of(course.log()).leftOver().isEmpty()) {
        waiting.add(new Waiting.ToPlanAgain(course.caseName()));
      }
    }
    unbooked(diary, courses, coming)
        .forEach((name, visits) -> waiting.add(new Waiting.ToBook(name, visits)));
    for (UnderWay course : courses) {
      reevaluation(course.state(), now.toLocalDate(), charted).ifPresent(waiting::add);
    }
    return waiting;
  }

  /** By case: what the log has to come and nobody has booked, or what the diary waits for. */
  private static Map<String, List<Integer>> unbooked(
      @Nullable Diary diary, List<UnderWay> courses, List<Coming> coming) {
    Map<String, List<Integer>> unbooked = new LinkedHashMap<>();
    for (UnderWay course : courses) {
      List<Integer> visits =
          course.state().toCome().stream()
              .map(Visit::number)
              .filter(
                  number ->
                      coming.stream()
                          .noneMatch(
                              one ->
                                  one.caseName().equals(course.caseName())
                                      && one.visit() == number))
              .toList();
      if (!visits.isEmpty()) {
        unbooked.put(course.caseName(), visits);
      }
    }
    if (diary != null) {
      diary
          .unbooked()
          .forEach(
              (name, open) -> {
                if (course(courses, name).isEmpty()) {
                  unbooked.put(name, open.stream().map(VisitRequest::number).toList());
                }
              });
    }
    return unbooked;
  }

  private static Optional<Waiting> reevaluation(
      CourseState state, LocalDate today, Map<String, LocalDate> charted) {
    LocalDate last = state.lastDay();
    Course course = state.course();
    if (last == null || !ended(state, charted) || !course.leadsToReevaluation()) {
      return Optional.empty();
    }
    LocalDate from = last.plusWeeks(course.reevaluateFromWeeks());
    return today.isBefore(from)
        ? Optional.empty()
        : Optional.of(
            new Waiting.ToReevaluate(
                course.caseName(), from, last.plusWeeks(course.reevaluateToWeeks())));
  }

  /** Whether all visits took place, and the mouth has not been charted since. */
  private static boolean ended(CourseState state, Map<String, LocalDate> charted) {
    LocalDate last = state.lastDay();
    LocalDate since = charted.get(state.course().caseName());
    return last != null && state.toCome().isEmpty() && (since == null || !since.isAfter(last));
  }
}
