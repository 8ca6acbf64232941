package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.WholeMinutes;
import quadrille.cli.render.Words;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * The clock of a visit drawn to scale: one block for each entry of its sequence, exactly as wide as
 * it is long. All strips of a course have one scale, set by its longest visit.
 *
 * @param visit the visit's number
 * @param blocks in order; together they fill the strip without a gap
 * @param areas where work stays in one area, longest stays named
 * @param numb stretches of work that must be numb
 * @param ticks of the scale, in minutes
 * @param booked where the booked time ends
 * @param bookedMinutes the booked time
 * @param unitsPerMinute the scale
 * @param description what the picture shows, in words
 */
public record VisitStrip(
    int visit,
    List<Block> blocks,
    List<Stretch> areas,
    List<Stretch> numb,
    List<Tick> ticks,
    String booked,
    int bookedMinutes,
    double unitsPerMinute,
    String description) {

  /** Width of the picture. */
  public static final int WIDTH = 1000;

  /** Free at each end, for the scale's first and last number. */
  public static final int MARGIN = 14;

  /** Narrower blocks carry no letter. */
  private static final double LETTER = 18;

  private static final double NARROWEST_LABEL = 26;
  private static final double LETTER_WIDTH = 8;

  public VisitStrip {
    blocks = List.copyOf(blocks);
    areas = List.copyOf(areas);
    numb = List.copyOf(numb);
    ticks = List.copyOf(ticks);
  }

  /**
   * One entry of the sequence.
   *
   * @param kind how it is drawn: setup, inject, wait, change-tip, reposition, debride or close
   * @param pattern the pattern of its insert, or 0
   * @param startSecond from the start of the visit
   * @param middle of the block
   * @param letter of its insert, where there is room for it
   * @param words what it is, for a pointer that rests on it
   */
  public record Block(
      String kind,
      int pattern,
      int startSecond,
      int seconds,
      String x,
      String width,
      String middle,
      String letter,
      String words) {}

  /** A stretch of the strip and what is said of it; the text is empty where it has no room. */
  public record Stretch(String x, String width, String middle, String text) {}

  /**
   * How an entry is drawn: gel like an injection, the frame and charting like set-up, a look like
   * waiting; its words tell them apart.
   */
  static String style(Entry entry) {
    Entry.Kind kind =
        entry instanceof Entry.OfFrame
            ? Entry.Kind.SET_UP
            : switch (entry.kind()) {
              case APPLY_GEL -> Entry.Kind.INJECT;
              case LOOK -> Entry.Kind.WAIT;
              case PROBE -> Entry.Kind.SET_UP;
              default -> entry.kind();
            };
    return kind.word();
  }

  /** Width of the booked time. */
  public String bookedWidth() {
    return Svg.number(unitsPerMinute * bookedMinutes);
  }

  /** A tick of the scale. */
  public record Tick(String x, int minute) {}

  /** The strips of a course, one a visit. */
  public static List<VisitStrip> of(
      Course course, Chart chart, Practice practice, InsertMarks marks) {
    double longest = 1;
    for (Visit visit : course.visits()) {
      longest = Math.max(longest, visit.bookedMinutes());
      longest = Math.max(longest, visit.expectedSeconds() / 60.0);
    }
    double scale = (WIDTH - 2 * MARGIN) / longest;
    return course.visits().stream()
        .map(visit -> new Drawing(visit, chart, practice, marks, scale).strip())
        .toList();
  }

  private record Drawing(
      Visit visit, Chart chart, Practice practice, InsertMarks marks, double scale) {

    VisitStrip strip() {
      return new VisitStrip(
          visit.number(),
          visit.sequence().stream().map(this::block).toList(),
          areas(),
          numb(),
          ticks(),
          Svg.number(x(60 * visit.bookedMinutes())),
          visit.bookedMinutes(),
          scale,
          description());
    }

    private Block block(Entry entry) {
      double width = width(entry.seconds());
      int pattern = 0;
      String letter = "";
      if (entry instanceof Entry.Debride step) {
        InsertMarks.Mark mark = marks.of(step.insert());
        pattern = mark.pattern();
        letter = width < LETTER * mark.letter().length() ? "" : mark.letter();
      }
      return new Block(
          VisitStrip.style(entry),
          pattern,
          entry.startSecond(),
          entry.seconds(),
          Svg.number(x(entry.startSecond())),
          Svg.number(width),
          Svg.number(x(entry.startSecond()) + width / 2),
          letter,
          "Minute "
              + WholeMinutes.at(entry.startSecond())
              + ": "
              + SequenceWords.of(entry, chart, practice)
              + ", "
              + WholeMinutes.words(entry.startSecond(), entry.endSecond())
              + "\u00a0min");
    }

    /** Stays in one area, from its first step to its last with nothing of another area between. */
    private List<Stretch> areas() {
      List<Stretch> stays = new ArrayList<>();
      List<Entry.Debride> steps = visit.steps();
      int first = 0;
      for (int i = 0; i < steps.size(); i++) {
        boolean last =
            i + 1 == steps.size() || !steps.get(i + 1).area().equals(steps.get(first).area());
        if (last) {
          int start = steps.get(first).startSecond();
          stays.add(stretch(start, steps.get(i).endSecond() - start, steps.get(first).area()));
          first = i + 1;
        }
      }
      return stays;
    }

    private List<Stretch> numb() {
      return visit.steps().stream()
          .filter(Entry.Debride::needsNumb)
          .map(step -> stretch(step.startSecond(), step.seconds(), null))
          .toList();
    }

    private Stretch stretch(int start, int seconds, @Nullable AreaRef area) {
      double width = width(seconds);
      return new Stretch(
          Svg.number(x(start)),
          Svg.number(width),
          Svg.number(x(start) + width / 2),
          area == null ? "" : fitting(area, width));
    }

    /** The whole name, or the quadrant alone, or nothing. */
    private String fitting(AreaRef area, double width) {
      String text = Words.area(area, chart);
      if (text.codePointCount(0, text.length()) * LETTER_WIDTH <= width) {
        return text;
      }
      return width >= NARROWEST_LABEL ? area.quadrant().name() : "";
    }

    private List<Tick> ticks() {
      int last = Math.max(visit.bookedMinutes(), visit.expectedSeconds() / 60);
      List<Tick> ticks = new ArrayList<>();
      for (int minute = 0; minute <= last; minute += 10) {
        ticks.add(new Tick(Svg.number(x(60 * minute)), minute));
      }
      return ticks;
    }

    private String description() {
      return "Visit "
          + visit.number()
          + " to scale: "
          + visit.sequence().size()
          + (visit.sequence().size() == 1 ? "\u00a0entry" : "\u00a0entries")
          + " over "
          + Words.minutes(visit.expectedSeconds())
          + ", booked "
          + visit.bookedMinutes()
          + ". The table of the sequence says the same.";
    }

    private double x(int second) {
      return MARGIN + width(second);
    }

    private double width(int seconds) {
      return scale * seconds / 60.0;
    }
  }
}
