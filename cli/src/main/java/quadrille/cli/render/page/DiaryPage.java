package quadrille.cli.render.page;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import quadrille.cli.render.DiaryStrip;
import quadrille.cli.render.DiaryWords;
import quadrille.cli.render.MindWords;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;

/**
 * A week of a diary, to look at and print.
 *
 * @param hours what is written over each strip
 * @param minutes that a strip is wide
 */
public record DiaryPage(
    String title,
    String zone,
    List<Integer> hours,
    int minutes,
    List<Day> days,
    List<Course> courses,
    List<String> notes) {

  /** One day. */
  public record Day(String title, List<Row> rows, List<Booked> bookings) {}

  /**
   * A visit of a course.
   *
   * @param stops what is asked before anything is touched
   */
  public record Booked(String words, List<String> stops) {}

  /**
   * One clinician's day.
   *
   * @param parts of the strip, those on top last
   * @param free in words
   */
  public record Row(String name, boolean mayInject, List<DiaryStrip.Part> parts, String free) {}

  /** What a course needs next. */
  public record Course(String caseName, List<String> sentences) {}

  static DiaryPage of(Diary diary, DiaryWeek week, List<String> notes) {
    ZoneId zone = diary.zone();
    DiaryStrip strip = DiaryStrip.of(week, zone);
    List<Integer> hours = new ArrayList<>();
    for (int hour = strip.fromHour(); hour < strip.toHour(); hour++) {
      hours.add(hour);
    }
    List<Day> days = new ArrayList<>();
    for (DiaryWeek.Day day : week.days()) {
      List<Row> rows = new ArrayList<>();
      for (DiaryWeek.Person person : day.people()) {
        if (!person.working().isEmpty() || !person.booked().isEmpty()) {
          rows.add(
              new Row(
                  person.clinician().name(),
                  person.clinician().mayInject(),
                  strip.parts(person, day.date(), zone),
                  DiaryWords.spans(person.free(), zone)));
        }
      }
      days.add(
          new Day(
              DiaryWords.day(day.date()),
              rows,
              day.bookings().stream()
                  .map(
                      booking ->
                          new Booked(
                              DiaryWords.span(booking.time(), zone)
                                  + " "
                                  + DiaryWords.booking(diary, booking),
                              DiaryWords.asked(diary, booking).stream()
                                  .map(MindWords::of)
                                  .toList()))
                  .toList()));
    }
    return new DiaryPage(
        "Week of " + DiaryWords.day(week.monday()),
        zone.getId(),
        hours,
        strip.minutes(),
        days,
        week.courses().stream()
            .map(next -> new Course(next.course().caseName(), DiaryWords.next(diary, next)))
            .toList(),
        notes);
  }
}
