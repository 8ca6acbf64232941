package quadrille.diary.book;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * When a patient can come.
 *
 * @param weekly only within these hours; empty for any time
 * @param off days or hours that do not suit
 * @param busy times taken, such as those of the patient's own calendar
 */
public record Availability(List<WeeklyHours> weekly, List<TimeOff> off, List<Interval> busy) {

  /** Any time. */
  public static final Availability ANY = new Availability(List.of(), List.of(), List.of());

  public Availability {
    weekly = List.copyOf(weekly);
    off = List.copyOf(off);
    busy = List.copyOf(busy);
  }

  /**
   * The same with what the patient's own calendars say of a span of time, in place of the times
   * taken that were known there before. Only what lies within the span is kept, in whole minutes.
   */
  public Availability withCalendars(List<Interval> taken, Interval within) {
    List<Interval> minutes = new ArrayList<>();
    for (Interval time : Intervals.both(taken, List.of(within))) {
      Instant start = time.start().truncatedTo(ChronoUnit.MINUTES);
      Instant end = time.end().truncatedTo(ChronoUnit.MINUTES);
      minutes.add(
          new Interval(start, end.isBefore(time.end()) ? end.plus(1, ChronoUnit.MINUTES) : end));
    }
    minutes.addAll(Intervals.without(busy, List.of(within)));
    return new Availability(weekly, off, Intervals.union(minutes));
  }

  public boolean any() {
    return weekly.isEmpty() && off.isEmpty() && busy.isEmpty();
  }
}
