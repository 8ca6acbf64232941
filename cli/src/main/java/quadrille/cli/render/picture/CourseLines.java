package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.cli.render.Words;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * The visits of several courses, one course under the other, all to one scale: each visit as long
 * as it is booked, with what fills it.
 *
 * @param markMinutes what the mark of the scale stands for
 * @param mark its length
 */
public record CourseLines(List<Line> lines, int markMinutes, String mark, double unitsPerMinute) {

  public static final int WIDTH = 1000;

  /** Free at the left end. */
  public static final int MARGIN = 14;

  private static final double APART = 10;

  /** The mark of the scale, minutes; a shorter one where no course is so long. */
  private static final int HOUR = 60;

  public CourseLines {
    lines = List.copyOf(lines);
  }

  /** A course to be drawn, and the key by which the tables name it. */
  public record Named(String key, String words, Course course) {}

  /**
   * A course.
   *
   * @param description what the picture shows, in words
   */
  public record Line(String key, String words, List<Stay> visits, String description) {}

  /** A visit: where it starts, how long it is booked, and its blocks. */
  public record Stay(int visit, String x, String width, String middle, List<Block> blocks) {}

  /** An entry of its sequence. */
  public record Block(String kind, String x, String width) {}

  /** The lines of some courses; their order is kept. */
  public static CourseLines of(List<Named> courses) {
    double longest = 1;
    int most = 1;
    for (Named named : courses) {
      double minutes = 0;
      for (Visit visit : named.course().visits()) {
        minutes += Math.max(visit.bookedMinutes(), visit.expectedSeconds() / 60.0);
      }
      longest = Math.max(longest, minutes);
      most = Math.max(most, named.course().visits().size());
    }
    double scale = (WIDTH - 2 * MARGIN - APART * (most - 1)) / longest;
    int mark = longest >= HOUR ? HOUR : 10;
    return new CourseLines(
        courses.stream().map(named -> line(named, scale)).toList(),
        mark,
        Svg.number(mark * scale),
        scale);
  }

  private static Line line(Named named, double scale) {
    List<Stay> stays = new ArrayList<>();
    List<String> words = new ArrayList<>();
    double at = MARGIN;
    for (Visit visit : named.course().visits()) {
      double start = at;
      double width = scale * visit.bookedMinutes();
      stays.add(
          new Stay(
              visit.number(),
              Svg.number(start),
              Svg.number(width),
              Svg.number(start + width / 2),
              visit.sequence().stream().map(entry -> block(entry, start, scale)).toList()));
      at += Math.max(width, scale * visit.expectedSeconds() / 60.0) + APART;
      words.add(
          "visit "
              + visit.number()
              + " booked "
              + visit.bookedMinutes()
              + " minutes, expected "
              + Words.minutes(visit.expectedSeconds()));
    }
    return new Line(
        named.key(), named.words(), stays, Words.capital(String.join("; ", words)) + ".");
  }

  private static Block block(Entry entry, double start, double scale) {
    return new Block(
        VisitStrip.style(entry),
        Svg.number(start + scale * entry.startSecond() / 60.0),
        Svg.number(scale * entry.seconds() / 60.0));
  }
}
