package quadrille.diary.book;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;

/**
 * Which times of a diary are free. All answers are moments on the one line that all clocks share,
 * in order, so that a visit lasts as long on a day when the clocks change as on any other. A time
 * of day that a change of clocks skips is the moment of the change; one that it repeats is read so
 * that nothing is offered that is open under one reading only.
 *
 * <p>Linked calendars count only once their events have been added to the diary's busy times.
 */
public final class FreeTimes {

  private final Diary diary;
  private final ZoneId zone;

  public FreeTimes(Diary diary) {
    this.diary = diary;
    this.zone = diary.zone();
  }

  /**
   * When a clinician works: hours and extra hours, without breaks, absence and closed times;
   * bookings do not count.
   *
   * @param first day
   * @param last day, included; an earlier one gives nothing
   */
  public List<Interval> working(Clinician clinician, LocalDate first, LocalDate last) {
    List<Interval> open = new ArrayList<>(weekly(clinician.hours(), first, last));
    for (ExtraHours extra : clinician.extra()) {
      if (!extra.date().isBefore(first) && !extra.date().isAfter(last)) {
        WallClock.open(zone, extra.date(), extra.from(), extra.to()).ifPresent(open::add);
      }
    }
    List<Interval> shut = new ArrayList<>(off(clinician.off(), first, last));
    shut.addAll(off(diary.closed(), first, last));
    return Intervals.without(open, shut);
  }

  /** When a clinician works and has nothing else: neither bookings nor busy times. */
  public List<Interval> ofClinician(Clinician clinician, LocalDate first, LocalDate last) {
    List<Interval> taken = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      if (booking.status().takesTime()) {
        taken.addAll(booking.taken(clinician.id()));
      }
    }
    for (BusyTime busy : diary.busy()) {
      if (busy.takesClinician(clinician.id())) {
        taken.add(busy.time());
      }
    }
    return Intervals.without(working(clinician, first, last), taken);
  }

  /**
   * When a chair is in use by nobody: on days that are not closed, at any hour, without the times
   * it is out of use, bookings and busy times.
   */
  public List<Interval> ofChair(Chair chair, LocalDate first, LocalDate last) {
    if (last.isBefore(first)) {
      return List.of();
    }
    List<Interval> taken = new ArrayList<>(off(chair.off(), first, last));
    taken.addAll(off(diary.closed(), first, last));
    for (Booking booking : diary.bookings()) {
      if (booking.status().takesTime() && booking.chair().equals(chair.id())) {
        taken.add(booking.time());
      }
    }
    for (BusyTime busy : diary.busy()) {
      if (busy.takesChair(chair.id())) {
        taken.add(busy.time());
      }
    }
    return Intervals.without(List.of(WallClock.days(zone, first, last)), taken);
  }

  /** When a patient can come; their bookings do not count. */
  public List<Interval> ofPatient(Availability availability, LocalDate first, LocalDate last) {
    if (last.isBefore(first)) {
      return List.of();
    }
    List<Interval> open =
        availability.weekly().isEmpty()
            ? List.of(WallClock.days(zone, first, last))
            : weekly(availability.weekly(), first, last);
    List<Interval> shut = new ArrayList<>(off(availability.off(), first, last));
    shut.addAll(availability.busy());
    return Intervals.without(open, shut);
  }

  /** The hours of the week that a patient likes; nothing where none is liked better. */
  public List<Interval> preferred(Preferences preferences, LocalDate first, LocalDate last) {
    return Intervals.union(weekly(preferences.times(), first, last));
  }

  /**
   * The moments on the diary's grid at which so many minutes can start within a span.
   *
   * @param minutes 1 or more
   */
  public List<Instant> starts(Interval free, int minutes) {
    List<Instant> starts = new ArrayList<>();
    Duration length = Duration.ofMinutes(minutes);
    for (Instant at = onGrid(free.start());
        !at.plus(length).isAfter(free.end());
        at = onGrid(at.plusSeconds(1))) {
      starts.add(at);
    }
    return List.copyOf(starts);
  }

  /** The first moment at or after this one at which a visit may start, by the clock on the wall. */
  public Instant onGrid(Instant moment) {
    ZonedDateTime wall = moment.atZone(zone);
    long second = wall.toLocalTime().toSecondOfDay() % 3600;
    long grid = 60L * diary.startEveryMinutes();
    boolean on = second % grid == 0 && wall.getNano() == 0;
    if (on) {
      return moment;
    }
    long forward = grid - second % grid;
    // Offsets are whole minutes, and changes of clock shift by whole grids nearly everywhere; where
    // one does not, the next round puts it right.
    Instant next = moment.minusNanos(wall.getNano()).plusSeconds(forward);
    return onGrid(next);
  }

  /** The day of a moment in the practice's zone. */
  public LocalDate day(Instant moment) {
    return moment.atZone(zone).toLocalDate();
  }

  private List<Interval> weekly(List<WeeklyHours> hours, LocalDate first, LocalDate last) {
    List<Interval> spans = new ArrayList<>();
    for (LocalDate day = first; !day.isAfter(last); day = day.plusDays(1)) {
      for (WeeklyHours one : hours) {
        if (one.on(day)) {
          List<Interval> breaks = new ArrayList<>();
          for (WeeklyHours.Break pause : one.breaks()) {
            WallClock.shut(zone, day, pause.from(), pause.to()).ifPresent(breaks::add);
          }
          Optional<Interval> open = WallClock.open(zone, day, one.from(), one.to());
          spans.addAll(Intervals.without(open.stream().toList(), breaks));
        }
      }
    }
    return spans;
  }

  private List<Interval> off(Collection<TimeOff> times, LocalDate first, LocalDate last) {
    List<Interval> spans = new ArrayList<>();
    for (TimeOff off : times) {
      LocalDate from = off.first().isBefore(first) ? first : off.first();
      LocalDate to = off.last().isAfter(last) ? last : off.last();
      LocalTime start = off.from();
      LocalTime end = off.to();
      if (start == null || end == null) {
        if (!to.isBefore(from)) {
          spans.add(WallClock.days(zone, from, to));
        }
        continue;
      }
      for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
        WallClock.shut(zone, day, start, end).ifPresent(spans::add);
      }
    }
    return spans;
  }
}
