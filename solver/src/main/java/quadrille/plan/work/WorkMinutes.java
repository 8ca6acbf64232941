package quadrille.plan.work;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;

/**
 * Working seconds of one tooth in one pass, and what they rest on.
 *
 * <ul>
 *   <li>Fine: over the sites of the aspect, the seconds of the site's depth band, times the root
 *       factor, times the furcation factor. The root factor is the root surface area of the
 *       position over the mean area of positions 1 to 5 of that jaw, so that it is 1 for a
 *       single-rooted tooth of mean area.
 *   <li>Gross: the seconds of the deposit grade times the crown factor, half of it to each aspect.
 *   <li>Finishing and implant care: a flat time a tooth, half of it to each aspect.
 * </ul>
 */
public final class WorkMinutes {

  /** How many positions, counted from the midline, the mean root area is taken over. */
  private static final int MEAN_OVER = 5;

  private final Minutes minutes;

  public WorkMinutes(Minutes minutes) {
    this.minutes = minutes;
  }

  /**
   * Seconds and how they come about.
   *
   * @param seconds not rounded
   * @param parts what they are made of, in order
   */
  public record Explanation(double seconds, List<Part> parts) {

    public Explanation {
      parts = List.copyOf(parts);
    }
  }

  /**
   * One number that went in.
   *
   * @param what in words, such as {@code facial, distal site of 6 mm: 32.3 s}
   * @param source how the number is known
   */
  public record Part(String what, String source) {}

  /** Seconds of a tooth in a pass, over the aspects that the step sweeps; not rounded. */
  public double seconds(ToothChart tooth, Pass pass, StepAspect aspect) {
    double sum = 0;
    for (Aspect side : aspect.aspects()) {
      sum += seconds(tooth, pass, side);
    }
    return sum;
  }

  /** Seconds of a tooth in a pass on one aspect; not rounded. */
  public double seconds(ToothChart tooth, Pass pass, Aspect aspect) {
    return switch (pass) {
      case GROSS ->
          grossFigure(tooth).value() * crownFigure(tooth.tooth()).value() / Aspect.values().length;
      case FINE ->
          siteSeconds(tooth, aspect) * rootFactor(tooth.tooth()) * furcationFigure(tooth).value();
      case FINISHING -> minutes.finishingSeconds().value() / Aspect.values().length;
      case IMPLANT_CARE -> minutes.implantCareSeconds().value() / Aspect.values().length;
    };
  }

  /**
   * Seconds of a site of a single-rooted tooth of mean root area.
   *
   * @param depthMm 0 or more
   */
  public Figure siteSeconds(double depthMm) {
    Figure figure = minutes.fineBands().get(0).seconds();
    for (Minutes.FineBand band : minutes.fineBands()) {
      if (depthMm >= band.fromMm()) {
        figure = band.seconds();
      }
    }
    return figure;
  }

  /** Root surface area of the position over the mean area of positions 1 to 5 of its jaw. */
  public double rootFactor(Tooth tooth) {
    return areas(tooth).get(tooth.position() - 1).value() / meanRootArea(tooth);
  }

  /**
   * The same seconds as {@link #seconds(ToothChart, Pass, StepAspect)}, with every number in them.
   */
  public Explanation explain(ToothChart tooth, Pass pass, StepAspect aspect) {
    List<Part> parts = new ArrayList<>();
    switch (pass) {
      case GROSS -> {
        Figure gross = grossFigure(tooth);
        Figure crown = crownFigure(tooth.tooth());
        parts.add(
            new Part(tooth.deposit().word() + " deposit: " + number(gross) + " s", gross.source()));
        parts.add(new Part("crown factor " + number(crown), crown.source()));
        if (aspect != StepAspect.BOTH) {
          parts.add(new Part("half of it to each aspect", "assumption"));
        }
      }
      case FINE -> {
        explainSites(tooth, aspect, parts);
        Figure area = areas(tooth.tooth()).get(tooth.tooth().position() - 1);
        parts.add(
            new Part(
                "root factor "
                    + number(rootFactor(tooth.tooth()))
                    + " = "
                    + number(area)
                    + " mm2 / "
                    + number(meanRootArea(tooth.tooth()))
                    + " mm2, the mean of the five front teeth",
                area.source()));
        Figure furcation = furcationFigure(tooth);
        parts.add(
            new Part(
                "furcation " + tooth.furcation() + ": factor " + number(furcation),
                furcation.source()));
      }
      case FINISHING -> parts.add(flat("finishing", minutes.finishingSeconds()));
      case IMPLANT_CARE -> parts.add(flat("implant care", minutes.implantCareSeconds()));
    }
    return new Explanation(seconds(tooth, pass, aspect), parts);
  }

  private static Part flat(String what, Figure figure) {
    return new Part(what + ": " + number(figure) + " s a tooth, both aspects", figure.source());
  }

  private void explainSites(ToothChart tooth, StepAspect aspect, List<Part> parts) {
    List<String> names = List.of("distal", "middle", "mesial");
    for (Aspect side : aspect.aspects()) {
      List<Site> sites = tooth.sites(side);
      for (int i = 0; i < sites.size(); i++) {
        boolean probed = sites.get(i).depthMm() != null;
        double depth = Depths.of(sites.get(i), minutes);
        Figure seconds = siteSeconds(depth);
        parts.add(
            new Part(
                side.word()
                    + ", "
                    + names.get(i)
                    + (probed ? " site of " : " site not probed, taken as ")
                    + number(depth)
                    + " mm: "
                    + number(seconds)
                    + " s",
                probed
                    ? seconds.source()
                    : seconds.source()
                        + "; provisional depth: "
                        + minutes.provisionalDepthMm().source()));
      }
    }
  }

  private double siteSeconds(ToothChart tooth, Aspect aspect) {
    return tooth.sites(aspect).stream()
        .mapToDouble(site -> siteSeconds(Depths.of(site, minutes)).value())
        .sum();
  }

  private double meanRootArea(Tooth tooth) {
    return areas(tooth).subList(0, MEAN_OVER).stream().mapToDouble(Figure::value).sum() / MEAN_OVER;
  }

  private List<Figure> areas(Tooth tooth) {
    Jaw jaw = tooth.quadrant().jaw();
    return of(minutes.rootAreaMm2().get(jaw), "root areas of the " + jaw + " jaw");
  }

  private Figure grossFigure(ToothChart tooth) {
    return of(minutes.grossSeconds().get(tooth.deposit()), tooth.deposit() + " deposit");
  }

  private Figure crownFigure(Tooth tooth) {
    return minutes.crownFactor().get(tooth.position() - 1);
  }

  private Figure furcationFigure(ToothChart tooth) {
    return minutes.furcationFactor().get(tooth.furcation());
  }

  private static <T> T of(@Nullable T value, String what) {
    if (value == null) {
      throw new IllegalArgumentException("The practice (minutes) must have the " + what + ".");
    }
    return value;
  }

  private static String number(Figure figure) {
    return number(figure.value());
  }

  private static String number(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }
}
