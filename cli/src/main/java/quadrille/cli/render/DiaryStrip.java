package quadrille.cli.render;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
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

  /** Minutes drawn. */
  public int minutes() {
    return 60 * (toHour - fromHour);
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
      int from = Math.max(0, minute(span.start(), day, zone) - 60 * fromHour);
      int to = Math.min(minutes(), minute(span.end(), day, zone) - 60 * fromHour);
      if (from < to) {
        parts.add(new Part(kind, from, to - from));
      }
    }
  }
}
