package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;

/** The sites to watch, read from the chart again. */
final class WatchCheck {

  private WatchCheck() {}

  static void check(VisitParts reading, Facts facts, Findings findings) {
    List<WatchSite> stated = reading.visit().watch();
    if (stated.stream().anyMatch(WatchSite.AsWritten.class::isInstance)) {
      // Words of the first version, which nothing rests on.
      return;
    }
    List<WatchSite> due = due(reading.visit(), facts);
    if (stated.equals(due)) {
      return;
    }
    List<WatchSite> wrong = new ArrayList<>(stated);
    wrong.removeAll(due);
    List<WatchSite> missing = new ArrayList<>(due);
    missing.removeAll(stated);
    findings.visit(
        Rule.REPORT,
        reading.place(),
        "The sites to watch are not those of the chart: wrong are those of "
            + Say.list(teeth(wrong, findings.say()))
            + ", missing are those of "
            + Say.list(teeth(missing, findings.say()))
            + ".");
  }

  private static List<String> teeth(List<WatchSite> sites, Say say) {
    return sites.stream().map(site -> say.tooth(((WatchSite.OfTooth) site).tooth())).toList();
  }

  /** What the teeth of a visit's steps have that deserves watching. */
  static List<WatchSite> due(Visit visit, Facts facts) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    for (Entry.Debride step : visit.steps()) {
      teeth.addAll(step.teeth());
    }
    List<WatchSite> due = new ArrayList<>();
    for (Tooth tooth : teeth) {
      facts.chart().tooth(tooth).map(charted -> due(charted, facts)).ifPresent(due::addAll);
    }
    return due;
  }

  private static List<WatchSite> due(ToothChart tooth, Facts facts) {
    double deep = facts.practice().passes().finishingDepthMm().value();
    List<WatchSite.Probed> sites = new ArrayList<>();
    for (Aspect aspect : Aspect.values()) {
      int place = 0;
      for (Site site : tooth.sites(aspect)) {
        Integer depth = site.depthMm();
        if (depth == null || depth >= deep) {
          sites.add(new WatchSite.Probed(aspect, place, depth));
        }
        place++;
      }
    }
    List<Feature> features = new ArrayList<>();
    for (Feature feature : Feature.values()) {
      switch (feature) {
        case CROWDED, HEAVY_STAIN -> {
          // They take time, and are no danger.
        }
        default -> {
          if (tooth.has(feature)) {
            features.add(feature);
          }
        }
      }
    }
    int furcation = tooth.furcation() < 2 ? 0 : tooth.furcation();
    int mobility = tooth.mobility() < 2 ? 0 : tooth.mobility();
    boolean nothing =
        !tooth.implant()
            && sites.isEmpty()
            && features.isEmpty()
            && furcation == 0
            && mobility == 0;
    return nothing
        ? List.of()
        : List.of(
            new WatchSite.OfTooth(
                tooth.tooth(), tooth.implant(), sites, furcation, mobility, features));
  }
}
