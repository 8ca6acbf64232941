package quadrille.diary.file;

import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;

/**
 * The bookings of which a change could make something right or wrong: those that it changes, those
 * of the same courses, and all that lie near enough to one that it changes to meet it or its sets.
 * Of any other, the audit finds after the change what it found before.
 */
final class Touched implements Predicate<Booking> {

  private static final Duration DAY = Duration.ofDays(1);

  private final boolean all;
  private final Set<String> cases = new LinkedHashSet<>();
  // Spans near what is changed, by their starts; what begins together is one.
  private final TreeMap<Instant, Instant> near = new TreeMap<>();
  private final Duration margin;
  private Duration longest = Duration.ZERO;

  private Touched(boolean all, Duration margin) {
    this.all = all;
    this.margin = margin;
  }

  static Touched between(Diary before, Diary after) {
    boolean all =
        !before
            .withCourses(after.courses())
            .withBookings(after.bookings())
            .withJournal(after.journal())
            .equals(after);
    Touched touched =
        new Touched(all, DAY.plus(Duration.ofMinutes(after.stock().reprocessingMinutes())));
    if (all) {
      return touched;
    }
    Map<String, Booking> was = new LinkedHashMap<>();
    before.bookings().forEach(one -> was.put(one.id(), one));
    for (Booking now : after.bookings()) {
      Booking then = was.remove(now.id());
      if (!now.equals(then)) {
        touched.add(now);
        if (then != null) {
          touched.add(then);
        }
      }
    }
    was.values().forEach(touched::add);
    Map<String, CourseRequest> asked = new LinkedHashMap<>();
    before.courses().forEach(one -> asked.put(one.caseName(), one));
    for (CourseRequest now : after.courses()) {
      if (!now.equals(asked.remove(now.caseName()))) {
        touched.cases.add(now.caseName());
      }
    }
    touched.cases.addAll(asked.keySet());
    return touched;
  }

  private void add(Booking booking) {
    cases.add(booking.caseName());
    Instant from = booking.start().minus(margin);
    Instant to = booking.end().plus(margin);
    near.merge(from, to, (one, other) -> one.isAfter(other) ? one : other);
    Duration length = Duration.between(from, to);
    longest = longest.compareTo(length) > 0 ? longest : length;
  }

  @Override
  public boolean test(Booking booking) {
    if (all || cases.contains(booking.caseName())) {
      return true;
    }
    Instant start = booking.start();
    return near.subMap(start.minus(longest), true, booking.end(), true).values().stream()
        .anyMatch(end -> !end.isBefore(start));
  }
}
