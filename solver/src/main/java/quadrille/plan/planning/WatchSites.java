package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * What of a visit's teeth deserves watching: deep sites, furcations, implants, calculus bridges,
 * delicate surfaces.
 */
final class WatchSites {
  private static final List<String> PLACES = List.of("distal", "middle", "mesial");

  private final Chart chart;
  private final Practice practice;

  WatchSites(Chart chart, Practice practice) {
    this.chart = chart;
    this.practice = practice;
  }

  List<String> of(Visit visit) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    for (Entry.Debride step : visit.steps()) {
      teeth.addAll(step.teeth());
    }
    List<String> lines = new ArrayList<>();
    for (Tooth tooth : teeth) {
      chart.tooth(tooth).ifPresent(charted -> addTo(lines, charted));
    }
    return lines;
  }

  private void addTo(List<String> lines, ToothChart tooth) {
    List<String> notes = new ArrayList<>();
    if (tooth.implant()) {
      notes.add("implant");
    }
    for (Aspect aspect : Aspect.values()) {
      String deep = deepSites(tooth.sites(aspect));
      if (!deep.isEmpty()) {
        notes.add(aspect.word() + " " + deep);
      }
    }
    if (tooth.furcation() >= 2) {
      notes.add("furcation " + tooth.furcation());
    }
    if (tooth.mobility() >= 2) {
      notes.add("mobility " + tooth.mobility());
    }
    for (Feature feature : Feature.values()) {
      if (tooth.has(feature) && feature != Feature.CROWDED && feature != Feature.HEAVY_STAIN) {
        notes.add(feature.word().replace('-', ' '));
      }
    }
    if (!notes.isEmpty()) {
      lines.add(chart.numbering().name(tooth.tooth()) + ": " + String.join(", ", notes));
    }
  }

  private String deepSites(List<Site> sites) {
    double deep = practice.passes().finishingDepthMm().value();
    List<String> found = new ArrayList<>();
    List<String> unprobed = new ArrayList<>();
    for (int i = 0; i < sites.size(); i++) {
      Integer depth = sites.get(i).depthMm();
      if (depth == null) {
        unprobed.add(PLACES.get(i));
      } else if (depth >= deep) {
        found.add(PLACES.get(i) + " " + depth + " mm");
      }
    }
    if (!unprobed.isEmpty()) {
      found.add(
          (unprobed.size() == PLACES.size() ? "" : String.join(" and ", unprobed) + " ")
              + "not probed");
    }
    return String.join(", ", found);
  }
}
