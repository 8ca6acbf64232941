package quadrille.diary.book;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;

/**
 * Turns times of day into moments. Where the clock is put forward, a time that the clock skips is
 * the moment of the change. Where it is put back, a time comes twice: hours in which something can
 * be booked then start at the later and end at the earlier of the two, and hours in which nothing
 * can be booked the other way round. So no time is offered that is open under one reading only.
 */
final class WallClock {

  private WallClock() {}

  /** Hours of a day in which something can be booked; none where the change of clock eats them. */
  static Optional<Interval> open(ZoneId zone, LocalDate day, LocalTime from, LocalTime to) {
    return span(moment(zone, day.atTime(from), true), moment(zone, end(day, to), false));
  }

  /** Hours of a day in which nothing can be booked. */
  static Optional<Interval> shut(ZoneId zone, LocalDate day, LocalTime from, LocalTime to) {
    return span(moment(zone, day.atTime(from), false), moment(zone, end(day, to), true));
  }

  /** Whole days, both included. */
  static Interval days(ZoneId zone, LocalDate first, LocalDate last) {
    return new Interval(
        moment(zone, first.atStartOfDay(), false),
        moment(zone, last.plusDays(1).atStartOfDay(), true));
  }

  private static LocalDateTime end(LocalDate day, LocalTime to) {
    return to.equals(LocalTime.MIDNIGHT) ? day.plusDays(1).atStartOfDay() : day.atTime(to);
  }

  private static Optional<Interval> span(Instant start, Instant end) {
    return start.isBefore(end) ? Optional.of(new Interval(start, end)) : Optional.empty();
  }

  private static Instant moment(ZoneId zone, LocalDateTime time, boolean later) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
    if (offsets.isEmpty()) {
      @Nullable ZoneOffsetTransition change = zone.getRules().getTransition(time);
      if (change == null) {
        throw new IllegalStateException(
            "The zone (" + zone + ") skips (" + time + ") unexplained.");
      }
      return change.getInstant();
    }
    return time.toInstant(offsets.get(later ? offsets.size() - 1 : 0));
  }
}
