package quadrille.plan.work;

import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Minutes;

/** Depths as the work is planned by: a site that could not be probed has the provisional depth. */
final class Depths {

  private Depths() {}

  static double of(Site site, Minutes minutes) {
    Integer depth = site.depthMm();
    return depth == null ? minutes.provisionalDepthMm().value() : depth;
  }

  /** The deepest site of one aspect, mm; 0 where nothing was charted. */
  static double deepest(ToothChart tooth, Aspect aspect, Minutes minutes) {
    return tooth.sites(aspect).stream().mapToDouble(site -> of(site, minutes)).max().orElse(0);
  }
}
