package quadrille.diary.book;

import java.time.Instant;
import quadrille.diary.calendar.Interval;

/**
 * Someone who comes into a booked visit only to inject, since its own clinician may not.
 *
 * @param clinician id of who injects
 * @param from first minute, from the start of the visit, 0 or more
 * @param to first minute after it, more than {@code from}
 */
public record InjectorCall(String clinician, int from, int to) {

  public InjectorCall {
    if (from < 0 || to <= from) {
      throw new IllegalArgumentException(
          "Nobody injects from minute (" + from + ") to (" + to + ").");
    }
  }

  public int minutes() {
    return to - from;
  }

  /** When it is in a visit that starts then. */
  public Interval time(Instant start) {
    return Interval.of(start.plusSeconds(60L * from), minutes());
  }
}
