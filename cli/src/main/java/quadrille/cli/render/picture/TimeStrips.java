package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseProgress;
import quadrille.treatment.record.VisitDone;

/**
 * The visits of a course under way one under the other, all to one scale, in minutes: what was
 * planned, with what fills it, and under it what it took.
 *
 * @param lines one a visit
 * @param minutes that every strip is wide
 * @param ticks minutes named on the scale
 */
public record TimeStrips(List<Line> lines, int minutes, List<Integer> ticks) {

  private static final int FEW_TICKS = 8;

  public TimeStrips {
    lines = List.copyOf(lines);
    ticks = List.copyOf(ticks);
  }

  /**
   * One visit.
   *
   * @param planned what fills its plan; empty where there was none
   * @param plannedMinutes the plan's whole length; empty where there was none
   * @param took how long it was; null where it is to come, or only parts of it were timed
   * @param booked minutes
   */
  public record Line(
      int visit,
      List<Block> planned,
      String plannedMinutes,
      @Nullable Took took,
      int booked,
      String description) {

    public Line {
      planned = List.copyOf(planned);
    }
  }

  /** An entry of the plan. */
  public record Block(String kind, String x, String width) {}

  /**
   * What a visit took.
   *
   * @param minutes in words
   * @param inside width of the part within the booked time
   * @param over width of the part beyond it
   */
  public record Took(String minutes, String inside, String over, boolean late) {}

  /** The strips of a course under way. */
  public static TimeStrips of(CourseProgress progress) {
    double longest = 1;
    for (CourseProgress.OfVisit visit : progress.visits()) {
      longest = Math.max(longest, booked(visit));
      longest = Math.max(longest, took(visit));
      @Nullable Visit planned = visit.planned();
      longest = Math.max(longest, planned == null ? 0 : planned.expectedSeconds() / 60.0);
    }
    int step = longest > 10.0 * FEW_TICKS ? (longest > 30.0 * FEW_TICKS ? 60 : 30) : 10;
    int minutes = step * (int) Math.ceil(longest / step);
    List<Integer> ticks = new ArrayList<>();
    for (int tick = 0; tick < minutes; tick += step) {
      ticks.add(tick);
    }
    return new TimeStrips(
        progress.visits().stream().map(TimeStrips::line).toList(), minutes, ticks);
  }

  /** The minutes that a visit is or was booked for. */
  public static int booked(CourseProgress.OfVisit visit) {
    if (visit.recorded() != null) {
      return visit.recorded().done().bookedMinutes();
    }
    if (visit.promised() != null) {
      return visit.promised().minutes();
    }
    return visit.planned() == null ? 0 : visit.planned().bookedMinutes();
  }

  private static double took(CourseProgress.OfVisit visit) {
    @Nullable Double minutes = visit.recorded() == null ? null : visit.recorded().done().minutes();
    return minutes == null ? 0 : minutes;
  }

  private static Line line(CourseProgress.OfVisit visit) {
    List<Block> blocks = new ArrayList<>();
    @Nullable Visit planned = visit.planned();
    String plannedMinutes = "";
    if (planned != null) {
      plannedMinutes = minutes(planned.expectedSeconds() / 60.0);
      for (Entry entry : planned.sequence()) {
        blocks.add(
            new Block(
                VisitStrip.style(entry),
                Svg.number(entry.startSecond() / 60.0),
                Svg.number(entry.seconds() / 60.0)));
      }
    }
    int booked = booked(visit);
    @Nullable Took took = null;
    if (visit.recorded() != null) {
      VisitDone done = visit.recorded().done();
      if (done.minutes() != null) {
        double inside = Math.min(done.minutes(), booked);
        took =
            new Took(
                minutes(done.minutes()),
                Svg.number(inside),
                Svg.number(done.minutes() - inside),
                done.minutes() > booked);
      }
    }
    List<String> words = new ArrayList<>();
    if (!plannedMinutes.isEmpty()) {
      words.add("planned " + plannedMinutes);
    }
    words.add(took == null ? "" : "took " + took.minutes());
    words.add("booked " + booked + " minutes");
    return new Line(
        visit.number(),
        blocks,
        plannedMinutes,
        took,
        booked,
        "Visit "
            + visit.number()
            + " to scale: "
            + String.join(", ", words.stream().filter(word -> !word.isEmpty()).toList())
            + ".");
  }

  private static String minutes(double minutes) {
    return Math.round(minutes) + "\u00a0min";
  }
}
