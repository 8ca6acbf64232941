package quadrille.cli.render;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.calendar.Interval;

/**
 * The hours that a week is drawn over, the same for each of its days.
 *
 * @param fromHour first hour drawn
 * @param toHour end of the last hour drawn
 */
public record DiaryStrip(int fromHour, int toHour) {

  /** The hours within which anybody works or is booked, whole hours. */
  public static DiaryStrip of(DiaryWeek week, ZoneId zone) {
    int from = 24;
    int to = 0;
    for (DiaryWeek.Day day : week.days()) {
      for (DiaryWeek.Person person : day.people()) {
        List<Interval> spans =
            Stream.concat(person.working().stream(), person.booked().stream()).toList();
        for (Interval span : spans) {
          from = Math.min(from, minute(span.start(), day.date(), zone) / 60);
          to = Math.max(to, (minute(span.end(), day.date(), zone) + 59) / 60);
        }
      }
    }
    return from < to ? new DiaryStrip(from, to) : new DiaryStrip(8, 18);
  }

  /** The minute of a day by the clock on the wall; 1440 at its end. */
  static int minute(Instant moment, LocalDate day, ZoneId zone) {
    LocalDate date = moment.atZone(zone).toLocalDate();
    LocalTime time = moment.atZone(zone).toLocalTime();
    return date.isAfter(day) ? 1440 : date.isBefore(day) ? 0 : time.toSecondOfDay() / 60;
  }

  /** Minutes that pass in the hours drawn, on a day on which clocks do not change. */
  public int minutes() {
    return 60 * (toHour - fromHour);
  }

  /** Minutes that pass in the hours drawn. */
  public int minutes(LocalDate day, ZoneId zone) {
    Instant end = day.atStartOfDay().plusHours(toHour).atZone(zone).toInstant();
    return (int) Duration.between(begin(day, zone), end).toMinutes();
  }

  /** What the clock on the wall shows at the beginning of each hour that passes. */
  public List<Integer> hours(LocalDate day, ZoneId zone) {
    List<Integer> hours = new ArrayList<>();
    for (int minute = 0; minute < minutes(day, zone); minute += 60) {
      hours.add(begin(day, zone).plusSeconds(60L * minute).atZone(zone).getHour());
    }
    return hours;
  }

  private Instant begin(LocalDate day, ZoneId zone) {
    return day.atStartOfDay().plusHours(fromHour).atZone(zone).toInstant();
  }

  /** A part of a strip, in minutes from its start. */
  public record Part(String kind, int from, int minutes) {}

  /** The parts of a clinician's day, those on top last. */
  public List<Part> parts(DiaryWeek.Person person, LocalDate day, ZoneId zone) {
    List<Part> parts = new ArrayList<>();
    add(parts, "working", person.working(), day, zone);
    add(parts, "busy", person.busy(), day, zone);
    add(parts, "free", person.free(), day, zone);
    add(parts, "chairless", person.chairless(), day, zone);
    add(parts, "booked", person.booked(), day, zone);
    return parts;
  }

  private void add(
      List<Part> parts, String kind, List<Interval> spans, LocalDate day, ZoneId zone) {
    for (Interval span : spans) {
      part(kind, span, day, zone).ifPresent(parts::add);
    }
  }

  /** A span of time as a part of a day, by the minutes that pass; none where it lies outside. */
  public Optional<Part> part(String kind, Interval span, LocalDate day, ZoneId zone) {
    Instant begin = begin(day, zone);
    long from = Math.max(0, Duration.between(begin, span.start()).toMinutes());
    long to = Math.min(minutes(day, zone), Duration.between(begin, span.end()).toMinutes());
    return from < to
        ? Optional.of(new Part(kind, (int) from, (int) (to - from)))
        : Optional.empty();
  }
}
