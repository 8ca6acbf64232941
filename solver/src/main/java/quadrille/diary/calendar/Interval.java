package quadrille.diary.calendar;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;

/**
 * A span of time: from its start up to, but without, its end.
 *
 * @param start first moment within
 * @param end first moment no longer within, after the start
 */
public record Interval(Instant start, Instant end) implements Comparable<Interval> {

  private static final Comparator<Interval> ORDER =
      Comparator.comparing(Interval::start).thenComparing(Interval::end);

  public Interval {
    if (!start.isBefore(end)) {
      throw new IllegalArgumentException(
          "The span (" + start + " to " + end + ") does not end after its start.");
    }
  }

  /** A span of so many minutes, 1 or more; minutes that pass, whatever clocks on walls show. */
  public static Interval of(Instant start, int minutes) {
    return new Interval(start, start.plus(Duration.ofMinutes(minutes)));
  }

  /** Whether any moment lies in both; spans that only touch have none. */
  public boolean overlaps(Interval other) {
    return start.isBefore(other.end) && other.start.isBefore(end);
  }

  /** Whether all of the other lies within this one. */
  public boolean contains(Interval other) {
    return !start.isAfter(other.start) && !end.isBefore(other.end);
  }

  public Duration length() {
    return Duration.between(start, end);
  }

  /** Whole minutes that pass, rounded down. */
  public long minutes() {
    return length().toMinutes();
  }

  /** By start, then by end. */
  @Override
  public int compareTo(Interval other) {
    return ORDER.compare(this, other);
  }
}
