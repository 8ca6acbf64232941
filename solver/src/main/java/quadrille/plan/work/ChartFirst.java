package quadrille.plan.work;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;

/**
 * Whether so much of a mouth is unprobed that it is made chartable first: the gross pass of the
 * areas with sites not probed, and a new chart; all other work on natural teeth waits for that. An
 * area of which every site was probed waits whole, so that nothing is begun there and left.
 *
 * @param unprobed sites of natural teeth that were not probed
 * @param sites all sites of natural teeth that are worked on
 * @param mostShare of them that may be unprobed
 */
public record ChartFirst(int unprobed, int sites, Figure mostShare) {

  public static ChartFirst of(Chart chart, Practice practice) {
    List<Site> sites =
        chart.worked().stream()
            .filter(tooth -> !tooth.implant())
            .flatMap(tooth -> tooth.sites().stream())
            .toList();
    return new ChartFirst(
        (int) sites.stream().filter(site -> site.depthMm() == null).count(),
        sites.size(),
        practice.passes().chartFirstShare());
  }

  /** Whether more is unprobed than the practice plans with. */
  public boolean holds() {
    return unprobed > mostShare.value() * sites;
  }

  /** The steps that wait for the new chart; none where enough was probed. */
  public List<Step> waiting(List<Step> steps, Chart chart) {
    List<Step> waiting = new ArrayList<>();
    if (holds()) {
      Map<Area, List<Step>> byArea = new LinkedHashMap<>();
      steps.forEach(step -> byArea.computeIfAbsent(step.area(), a -> new ArrayList<>()).add(step));
      byArea.forEach(
          (area, some) -> {
            boolean chartable =
                unprobed(area, chart) && some.stream().anyMatch(step -> step.pass() == Pass.GROSS);
            boolean natural = some.stream().anyMatch(step -> !step.implant());
            some.stream()
                .filter(step -> chartable ? later(step.pass()) : natural)
                .forEach(waiting::add);
          });
    }
    return waiting;
  }

  private static boolean later(Pass pass) {
    return pass == Pass.FINE || pass == Pass.FINISHING;
  }

  static boolean unprobed(Area area, Chart chart) {
    return area.teeth().stream()
        .flatMap(tooth -> chart.tooth(tooth).stream())
        .anyMatch(tooth -> !tooth.implant() && unprobed(tooth));
  }

  /** Whether a site of it was not probed. */
  static boolean unprobed(ToothChart tooth) {
    return tooth.sites().stream().anyMatch(site -> site.depthMm() == null);
  }

  /** Whole seconds to chart teeth anew, on those of some aspects on which a site was not probed. */
  static int seconds(List<Tooth> teeth, List<Aspect> aspects, Chart chart, Practice practice) {
    long charted =
        teeth.stream()
            .flatMap(tooth -> chart.tooth(tooth).stream())
            .filter(tooth -> !tooth.implant())
            .mapToLong(
                tooth ->
                    aspects.stream()
                        .filter(
                            aspect ->
                                tooth.sites(aspect).stream()
                                    .anyMatch(site -> site.depthMm() == null))
                        .count())
            .sum();
    return (int)
        Math.round(
            charted * practice.minutes().chartToothSeconds().value() / Aspect.values().length);
  }
}
