package quadrille.plan.work;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;

/**
 * Working seconds of one tooth in one pass.
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
}
