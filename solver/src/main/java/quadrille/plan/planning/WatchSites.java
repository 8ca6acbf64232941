package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Stream;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;

/**
 * What of a visit's teeth deserves watching: deep sites, furcations, implants, calculus bridges,
 * delicate surfaces.
 */
final class WatchSites {

  /** Least grade of a furcation or of mobility. Common practice, no source. */
  private static final int WORTH_WATCHING = 2;

  /** All but those that only take time. */
  private static final Set<Feature> DELICATE =
      EnumSet.complementOf(EnumSet.of(Feature.CROWDED, Feature.HEAVY_STAIN));

  private final Chart chart;
  private final Practice practice;

  WatchSites(Chart chart, Practice practice) {
    this.chart = chart;
    this.practice = practice;
  }

  List<WatchSite> of(Visit visit) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    for (Entry.Debride step : visit.steps()) {
      teeth.addAll(step.teeth());
    }
    return teeth.stream()
        .flatMap(tooth -> chart.tooth(tooth).stream())
        .map(this::of)
        .filter(site -> !site.empty())
        .map(WatchSite.class::cast)
        .toList();
  }

  private WatchSite.OfTooth of(ToothChart tooth) {
    double deep = practice.passes().finishingDepthMm().value();
    List<WatchSite.Probed> sites = new ArrayList<>();
    for (Aspect aspect : Aspect.values()) {
      List<Site> probed = tooth.sites(aspect);
      for (int i = 0; i < probed.size(); i++) {
        Integer depth = probed.get(i).depthMm();
        if (depth == null || depth >= deep) {
          sites.add(new WatchSite.Probed(aspect, i, depth));
        }
      }
    }
    return new WatchSite.OfTooth(
        tooth.tooth(),
        tooth.implant(),
        sites,
        tooth.furcation() >= WORTH_WATCHING ? tooth.furcation() : 0,
        tooth.mobility() >= WORTH_WATCHING ? tooth.mobility() : 0,
        Stream.of(Feature.values()).filter(DELICATE::contains).filter(tooth::has).toList());
  }
}
