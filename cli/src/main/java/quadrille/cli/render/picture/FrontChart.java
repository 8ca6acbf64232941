package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.plan.scenario.CourseFigures;

/**
 * All choices by longest visit and chair time. What nothing beats is filled. The two axes are two
 * of the four figures that decide; so a filled point need not lie at the edge.
 *
 * @param description what the picture shows, in words
 */
public record FrontChart(List<Dot> dots, List<Tick> across, List<Tick> up, String description) {

  public static final int WIDTH = 480;
  public static final int HEIGHT = 236;

  private static final int LEFT = 52;
  private static final int RIGHT = 456;
  private static final int TOP = 16;
  private static final int FOOT = 190;
  private static final double NEAR = 1;

  public FrontChart {
    dots = List.copyOf(dots);
    across = List.copyOf(across);
    up = List.copyOf(up);
  }

  /**
   * A choice to be drawn.
   *
   * @param key by which the tables name it
   */
  public record Point(String key, CourseFigures figures, boolean unbeaten) {}

  /**
   * A dot; choices at the same place share it.
   *
   * @param unbeaten whether nothing beats one of them
   */
  public record Dot(String keys, String x, String y, int width, boolean unbeaten) {}

  /** A tick of an axis. */
  public record Tick(String at, int minutes) {}

  /** The chart of some choices. */
  public static FrontChart of(List<Point> points) {
    double[] longest =
        points.stream().mapToDouble(point -> point.figures().longestMinutes()).toArray();
    double[] chair =
        points.stream().mapToDouble(point -> point.figures().chairSeconds() / 60.0).toArray();
    Scale across = scale(longest);
    Scale up = scale(chair);
    List<Dot> dots = new ArrayList<>();
    boolean[] drawn = new boolean[points.size()];
    for (int i = 0; i < points.size(); i++) {
      if (drawn[i]) {
        continue;
      }
      List<String> keys = new ArrayList<>();
      boolean unbeaten = false;
      for (int j = i; j < points.size(); j++) {
        if (Math.abs(x(across, longest[i]) - x(across, longest[j])) < NEAR
            && Math.abs(y(up, chair[i]) - y(up, chair[j])) < NEAR) {
          drawn[j] = true;
          keys.add(points.get(j).key());
          unbeaten |= points.get(j).unbeaten();
        }
      }
      String words = String.join(", ", keys);
      dots.add(
          new Dot(
              words,
              Svg.number(x(across, longest[i])),
              Svg.number(y(up, chair[i])),
              14 + 8 * words.length(),
              unbeaten));
    }
    List<String> filled = points.stream().filter(Point::unbeaten).map(Point::key).toList();
    return new FrontChart(
        dots,
        across.ticks().stream().map(t -> new Tick(Svg.number(x(across, t)), t)).toList(),
        up.ticks().stream().map(t -> new Tick(Svg.number(y(up, t)), t)).toList(),
        "Nothing beats "
            + (filled.isEmpty() ? "none" : String.join(", ", filled))
            + ". The tables have the minutes.");
  }

  private static Scale scale(double[] values) {
    double least = java.util.Arrays.stream(values).min().orElse(0);
    double most = java.util.Arrays.stream(values).max().orElse(1);
    return Scale.holding(Math.max(0, least - 3), most + 3);
  }

  private static double x(Scale scale, double value) {
    return LEFT + (RIGHT - LEFT) * scale.share(value);
  }

  private static double y(Scale scale, double value) {
    return FOOT - (FOOT - TOP) * scale.share(value);
  }
}
