package quadrille.diary.desk;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Taking;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;

/**
 * Who gains by coming in time that has become free: courses whose next visit has no time yet, and
 * visits booked for later. Each alone would break no rule; nobody is moved, they are to be asked.
 */
public final class FreedTime {

  /** As many are offered for one freed time. */
  private static final int MOST = 5;

  /** As many are tried, so that a diary of thousands is answered at once. */
  private static final int TRIES = 60;

  private FreedTime() {}

  /**
   * Somebody who could come sooner.
   *
   * @param visit its number in the course
   * @param booking that would be moved; null where the visit has no time yet
   * @param start when it would begin
   * @param clinician who would treat it, the one of the freed time
   * @param chair that is free then
   * @param days sooner than it is booked, or, without a time, of waiting so far
   */
  public record Sooner(
      String caseName,
      int visit,
      @Nullable Booking booking,
      Instant start,
      String clinician,
      String chair,
      long days) {}

  /**
   * Who could come, those who gain most first: who waits longest without a time, then who comes
   * soonest by most days.
   *
   * @param read the diary in which the time is free already
   * @param freed the booking whose time is free
   * @param now what begins before is offered to nobody
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static List<Sooner> of(LoadedDiary read, Booking freed, Instant now)
      throws InvalidDocumentException {
    if (!freed.start().isAfter(now)) {
      return List.of();
    }
    Diary diary = read.diary();
    ZoneId zone = diary.zone();
    LocalDate day = LocalDate.ofInstant(freed.start(), zone);
    Map<String, List<Booking>> byCase = new LinkedHashMap<>();
    for (Booking booking : diary.bookings()) {
      byCase.computeIfAbsent(booking.caseName(), none -> new ArrayList<>()).add(booking);
    }
    Map<String, CourseRequest> courses = new LinkedHashMap<>();
    List<Sooner> all = new ArrayList<>();
    for (CourseRequest course : diary.courses()) {
      courses.put(course.caseName(), course);
      // Who has just called it off does not want it.
      if (course.ended() != null || course.caseName().equals(freed.caseName())) {
        continue;
      }
      List<Booking> own = byCase.getOrDefault(course.caseName(), List.of());
      List<VisitRequest> open = diary.withBookings(own).unbooked(course);
      if (!open.isEmpty() && open.get(0).minutes() <= freed.minutes()) {
        all.add(sooner(course, open.get(0).number(), null, freed, days(course.asked(), day)));
      }
      for (Booking booking : own) {
        long days = days(day, LocalDate.ofInstant(booking.start(), zone));
        if (booking.coming() && days > 0 && booking.minutes() <= freed.minutes()) {
          all.add(sooner(course, booking.visit(), booking, freed, days));
        }
      }
    }
    all.removeIf(one -> one.days() < 0);
    all.sort(
        Comparator.comparing((Sooner one) -> one.booking() != null)
            .thenComparing(Comparator.comparingLong(Sooner::days).reversed())
            .thenComparing(Sooner::caseName));
    all.removeIf(one -> tooSoon(diary, courses, byCase, one, day));
    List<Sooner> legal = new ArrayList<>();
    for (int i = 0; i < Math.min(TRIES, all.size()) && legal.size() < MOST; i++) {
      if (DiaryFile.made(read, after(diary, all.get(i)), now).isEmpty()) {
        legal.add(all.get(i));
      }
    }
    return legal;
  }

  /**
   * Who could come in any of the times that an entry of the journal has freed.
   *
   * @param entry the last of the diary
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static List<Sooner> of(LoadedDiary read, JournalEntry entry, Instant now)
      throws InvalidDocumentException {
    List<Sooner> all = new ArrayList<>();
    for (JournalEntry.BookingChange change : entry.bookings()) {
      Booking from = change.from();
      Booking to = change.to();
      if (from != null && from.coming() && to != null && !to.status().takesTime()) {
        all.addAll(of(read, from, now));
      }
    }
    return all;
  }

  private static long days(LocalDate from, LocalDate to) {
    return ChronoUnit.DAYS.between(from, to);
  }

  private static Sooner sooner(
      CourseRequest course, int visit, @Nullable Booking booking, Booking freed, long days) {
    return new Sooner(
        course.caseName(), visit, booking, freed.start(), freed.clinician(), freed.chair(), days);
  }

  /** What needs no audit to be told: the days after the visit before, and before the next. */
  private static boolean tooSoon(
      Diary diary,
      Map<String, CourseRequest> courses,
      Map<String, List<Booking>> byCase,
      Sooner one,
      LocalDate day) {
    CourseRequest course = Objects.requireNonNull(courses.get(one.caseName()));
    List<Booking> own = byCase.getOrDefault(one.caseName(), List.of());
    int place = course.place(one.visit());
    if (day.isBefore(course.earliest()) || place < 0) {
      return true;
    }
    VisitRequest visit = course.visits().get(place);
    for (Booking booking : own) {
      if (!booking.status().takesTime() || booking.visit() == one.visit()) {
        continue;
      }
      long days = days(LocalDate.ofInstant(booking.start(), diary.zone()), day);
      int other = course.place(booking.visit());
      if (other == place - 1 && (days < visit.gapMinDays() || days > course.gapMaxDays(visit))) {
        return true;
      }
      if (other == place + 1 && -days > course.gapMaxDays(course.visits().get(other))) {
        return true;
      }
    }
    return false;
  }

  private static Diary after(Diary diary, Sooner one) {
    Booking booking = one.booking();
    if (booking == null) {
      VisitRequest visit =
          diary.course(one.caseName()).flatMap(c -> c.visit(one.visit())).orElseThrow();
      return Taking.booked(
          diary,
          List.of(
              new OfferedVisit(
                  one.caseName(),
                  one.visit(),
                  one.start(),
                  visit.minutes(),
                  one.clinician(),
                  one.chair())));
    }
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    bookings.set(
        bookings.indexOf(booking),
        booking.at(one.start(), one.clinician(), one.chair(), List.of()));
    return diary.withBookings(bookings);
  }
}
