package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Reassessment;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * What was probed at a tooth that a visit works on.
 *
 * @param facial distal to mesial
 * @param lingual distal to mesial
 * @param more furcation and mobility, such as {@code f2 m1}, or that it is an implant
 */
public record ToothDepths(String tooth, List<Depth> facial, List<Depth> lingual, String more) {

  public ToothDepths {
    facial = List.copyOf(facial);
    lingual = List.copyOf(lingual);
  }

  /**
   * A site.
   *
   * @param text its depth in mm, a {@code b} behind it where it bled; a dash where it was not
   *     probed
   * @param deep whether it is a pocket, or is not known
   */
  public record Depth(String text, boolean deep) {}

  /** The teeth of a visit in the order of the arch. */
  static List<ToothDepths> of(Visit visit, Chart chart) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    visit.steps().stream().map(Entry.Debride::teeth).forEach(teeth::addAll);
    return teeth.stream()
        .flatMap(tooth -> chart.tooth(tooth).stream())
        .map(tooth -> of(tooth, chart))
        .toList();
  }

  private static ToothDepths of(ToothChart tooth, Chart chart) {
    return new ToothDepths(
        chart.numbering().name(tooth.tooth()),
        depths(tooth.sites(Aspect.FACIAL)),
        depths(tooth.sites(Aspect.LINGUAL)),
        more(tooth));
  }

  private static List<Depth> depths(List<Site> sites) {
    return sites.stream()
        .map(
            site -> {
              Integer depth = site.depthMm();
              return new Depth(
                  (depth == null ? "–" : depth.toString()) + (site.bleeding() ? "b" : ""),
                  depth == null || depth >= Reassessment.POCKET_MM);
            })
        .toList();
  }

  private static String more(ToothChart tooth) {
    List<String> more = new ArrayList<>();
    if (tooth.implant()) {
      more.add("implant");
    }
    if (tooth.furcation() > 0) {
      more.add("f" + tooth.furcation());
    }
    if (tooth.mobility() > 0) {
      more.add("m" + tooth.mobility());
    }
    return String.join(" ", more);
  }
}
