package quadrille.cli.render.page;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import quadrille.cli.render.DiaryStrip;
import quadrille.cli.render.DiaryWords;
import quadrille.cli.render.MindWords;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;

/** A week of a diary, to look at and print. */
public record DiaryPage(
    String title, String zone, List<Day> days, List<Course> courses, List<String> notes) {

  /**
   * One day.
   *
   * @param hours what is written over each strip
   * @param minutes that a strip is wide
   * @param rows clinicians
   * @param chairs chairs, with what is booked in them in place of what is free
   */
  public record Day(
      String title,
      List<Integer> hours,
      int minutes,
      List<Row> rows,
      List<Row> chairs,
      List<Booked> bookings) {}

  /**
   * A visit on a strip.
   *
   * @param left where it begins, in percent of the strip, as style sheets write it
   * @param width how wide it is
   * @param time when it begins, such as 09:30
   * @param booking id
   * @param from minute of the strip at which it begins
   * @param minutes that it takes
   */
  public record Block(
      String left,
      String width,
      String time,
      String caseName,
      String booking,
      int from,
      int minutes) {}

  /**
   * A visit of a course.
   *
   * @param stops what is asked before anything is touched
   */
  public record Booked(String words, List<String> stops) {}

  /**
   * One clinician's day, or a chair's.
   *
   * @param id the clinician's or the chair's
   * @param parts of the strip, those on top last
   * @param blocks on the strip
   * @param free in words
   */
  public record Row(
      String id,
      String name,
      boolean mayInject,
      List<DiaryStrip.Part> parts,
      List<Block> blocks,
      String free) {}

  /** What a course needs next. */
  public record Course(String caseName, List<String> sentences) {}

  static DiaryPage of(Diary diary, DiaryWeek week, List<String> notes) {
    ZoneId zone = diary.zone();
    DiaryStrip strip = DiaryStrip.of(week, zone);
    List<Day> days = new ArrayList<>();
    for (DiaryWeek.Day day : week.days()) {
      List<Row> rows = new ArrayList<>();
      for (DiaryWeek.Person person : day.people()) {
        if (!person.working().isEmpty() || !person.booked().isEmpty()) {
          rows.add(
              new Row(
                  person.clinician().id(),
                  person.clinician().name(),
                  person.clinician().mayInject(),
                  strip.parts(person, day.date(), zone),
                  blocks(
                      diary,
                      strip,
                      day,
                      booking -> booking.clinician().equals(person.clinician().id())),
                  DiaryWords.spans(person.free(), zone)));
        }
      }
      days.add(
          new Day(
              DiaryWords.day(day.date()),
              strip.hours(day.date(), zone),
              strip.minutes(day.date(), zone),
              rows,
              diary.chairs().stream().map(chair -> chair(diary, strip, day, chair)).toList(),
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
        days,
        week.courses().stream()
            .map(next -> new Course(next.course().caseName(), DiaryWords.next(diary, next)))
            .toList(),
        notes);
  }

  private static Row chair(Diary diary, DiaryStrip strip, DiaryWeek.Day day, Chair chair) {
    ZoneId zone = diary.zone();
    List<DiaryStrip.Part> parts = new ArrayList<>();
    for (BusyTime busy : diary.busy()) {
      if (busy.takesChair(chair.id())) {
        strip.part("busy", busy.time(), day.date(), zone).ifPresent(parts::add);
      }
    }
    List<Booking> booked =
        day.bookings().stream().filter(one -> one.chair().equals(chair.id())).toList();
    booked.forEach(one -> strip.part("booked", one.time(), day.date(), zone).ifPresent(parts::add));
    return new Row(
        chair.id(),
        chair.name(),
        false,
        parts,
        blocks(diary, strip, day, one -> one.chair().equals(chair.id())),
        DiaryWords.spans(booked.stream().map(Booking::time).toList(), zone));
  }

  private static List<Block> blocks(
      Diary diary, DiaryStrip strip, DiaryWeek.Day day, Predicate<Booking> which) {
    ZoneId zone = diary.zone();
    int minutes = strip.minutes(day.date(), zone);
    return day.bookings().stream()
        .filter(which)
        .flatMap(
            booking ->
                strip.part("booked", booking.time(), day.date(), zone).stream()
                    .map(
                        part ->
                            new Block(
                                percent(part.from(), minutes),
                                percent(part.minutes(), minutes),
                                DiaryWords.time(booking.start(), zone),
                                booking.caseName(),
                                booking.id(),
                                part.from(),
                                part.minutes())))
        .toList();
  }

  private static String percent(int part, int whole) {
    return Math.round(1000.0 * part / whole) / 10.0 + "%";
  }
}
