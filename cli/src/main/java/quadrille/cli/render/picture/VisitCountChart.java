package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.cli.render.ChoiceWords;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.CourseFigures;

/**
 * Chair time of all visits and the longest visit, side by side for each number of visits. Bars
 * start at nought, and one scale of minutes holds both.
 *
 * @param pairs by number of visits; a number without a course has no bars
 * @param ticks of the scale of minutes
 * @param unitsPerMinute the scale
 * @param description what the picture shows, in words
 */
public record VisitCountChart(
    List<Pair> pairs, List<Tick> ticks, double unitsPerMinute, String description) {

  public static final int WIDTH = 480;
  public static final int HEIGHT = 236;

  /** Where the bars stand. */
  public static final int FOOT = 190;

  private static final int LEFT = 44;
  private static final int TOP = 24;
  private static final double WIDEST_BAR = 30;

  public VisitCountChart {
    pairs = List.copyOf(pairs);
    ticks = List.copyOf(ticks);
  }

  /** The bars of one number of visits. */
  public record Pair(String label, String middle, List<Bar> bars) {}

  /**
   * A bar.
   *
   * @param kind {@code chair} or {@code longest}
   * @param value in whole minutes
   */
  public record Bar(
      String kind, String x, String y, String width, String height, String middle, long value) {}

  /** A tick of the scale. */
  public record Tick(String y, int minutes) {}

  /** The chart of one set of conditions. */
  public static VisitCountChart of(List<Choice> choices) {
    double most = 1;
    for (Choice choice : choices) {
      CourseFigures figures = choice.figures();
      if (figures != null) {
        most = Math.max(most, Math.max(figures.chairSeconds() / 60.0, figures.longestMinutes()));
      }
    }
    // A value is written over its bar, and needs room there.
    Scale scale = Scale.holding(0, 1.08 * most);
    double unit = (FOOT - TOP) / (double) scale.to();
    double step = (WIDTH - LEFT) / (double) Math.max(1, choices.size());
    double bar = Math.min(WIDEST_BAR, step / 2 - 6);
    List<Pair> pairs = new ArrayList<>();
    List<String> words = new ArrayList<>();
    for (int i = 0; i < choices.size(); i++) {
      double middle = LEFT + step * (i + 0.5);
      CourseFigures figures = choices.get(i).figures();
      List<Bar> bars = new ArrayList<>();
      if (figures != null) {
        double chair = figures.chairSeconds() / 60.0;
        bars.add(bar("chair", middle - bar - 1, bar, chair, unit));
        bars.add(bar("longest", middle + 1, bar, figures.longestMinutes(), unit));
        words.add(
            ChoiceWords.name(choices.get(i))
                + ": "
                + Math.round(chair)
                + " minutes in the chair, longest visit "
                + figures.longestMinutes());
      } else {
        words.add(ChoiceWords.name(choices.get(i)) + ": not possible");
      }
      pairs.add(new Pair(Integer.toString(choices.get(i).visits()), Svg.number(middle), bars));
    }
    return new VisitCountChart(
        pairs,
        scale.ticks().stream().map(tick -> new Tick(Svg.number(FOOT - unit * tick), tick)).toList(),
        unit,
        String.join("; ", words) + ".");
  }

  private static Bar bar(String kind, double x, double width, double minutes, double unit) {
    double height = unit * minutes;
    return new Bar(
        kind,
        Svg.number(x),
        Svg.number(FOOT - height),
        Svg.number(width),
        Svg.number(height),
        Svg.number(x + width / 2),
        Math.round(minutes));
  }
}
