package quadrille.diary.booking.problem;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import quadrille.diary.calendar.Interval;

/**
 * The days in which times are sought, as minutes that pass from the first moment of the first day.
 * A day on which the clocks change is longer or shorter than 1440 of them. Days are counted from
 * the first; days before it have negative numbers.
 */
public final class TimeLine {

  /** Nineteen centuries; twice as many fit a number still. */
  private static final long FARTHEST = 1_000_000_000;

  private final ZoneId zone;
  private final LocalDate first;
  private final Instant origin;
  private final int[] dayStart;

  /**
   * @param last day, included, not before the first
   */
  public TimeLine(ZoneId zone, LocalDate first, LocalDate last) {
    this.zone = zone;
    this.first = first;
    this.origin = first.atStartOfDay(zone).toInstant();
    int days = Math.toIntExact(ChronoUnit.DAYS.between(first, last)) + 1;
    this.dayStart = new int[days + 1];
    for (int day = 0; day <= days; day++) {
      dayStart[day] = minuteUp(first.plusDays(day).atStartOfDay(zone).toInstant());
    }
  }

  public LocalDate first() {
    return first;
  }

  public int days() {
    return dayStart.length - 1;
  }

  /** Minutes of all days. */
  public int length() {
    return dayStart[days()];
  }

  public int dayStart(int day) {
    return dayStart[day];
  }

  /** The day of a minute, which may lie before the first day or after the last. */
  public int day(int minute) {
    if (minute < 0 || minute >= length()) {
      return number(instant(minute).atZone(zone).toLocalDate());
    }
    int found = Arrays.binarySearch(dayStart, minute);
    return found >= 0 ? found : -found - 2;
  }

  public int number(LocalDate date) {
    return Math.toIntExact(ChronoUnit.DAYS.between(first, date));
  }

  public LocalDate date(int day) {
    return first.plusDays(day);
  }

  public Instant instant(int minute) {
    return origin.plus(Duration.ofMinutes(minute));
  }

  /**
   * The minute in which a moment lies. One further away than {@value #FARTHEST} minutes counts as
   * so far away: either way it meets none of the days.
   */
  public int minute(Instant moment) {
    long minute = Math.floorDiv(Duration.between(origin, moment).getSeconds(), 60L);
    return (int) Math.max(-FARTHEST, Math.min(FARTHEST, minute));
  }

  /** The first whole minute at or after a moment. */
  public int minuteUp(Instant moment) {
    int minute = minute(moment);
    return instant(minute).equals(moment) ? minute : minute + 1;
  }

  /** The minutes that do not lie wholly within any of the spans; all after the last day. */
  public MinuteSet shut(List<Interval> open) {
    BitSet shut = new BitSet(length());
    shut.set(0, length());
    for (Interval span : open) {
      int from = Math.max(0, minuteUp(span.start()));
      int to = Math.min(length(), minute(span.end()));
      if (from < to) {
        shut.clear(from, to);
      }
    }
    return new MinuteSet(shut);
  }
}
