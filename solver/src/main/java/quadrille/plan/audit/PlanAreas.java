package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;

/**
 * The areas of a plan, read from their names: half a quadrant ({@code UR posterior}) or a part of
 * one ({@code UR posterior 18-17}). Any cutting between two teeth is legal.
 */
final class PlanAreas {

  private static final Pattern NAME =
      Pattern.compile("(UR|UL|LL|LR) (posterior|anterior)(?: ([1-4][1-8])(?:-([1-4][1-8]))?)?");

  private final Chart chart;
  private final Findings findings;

  private PlanAreas(Chart chart, Findings findings) {
    this.chart = chart;
    this.findings = findings;
  }

  /**
   * Areas that hold each natural tooth and implant of the chart once. Teeth that no name covers
   * make areas of their own, so that work left out there comes to light.
   *
   * @param names as the plan uses them; one that means nothing is passed over, as the steps there
   *     are found to be no work of the chart
   */
  static List<Area> of(Chart chart, Collection<String> names, Findings findings) {
    PlanAreas reading = new PlanAreas(chart, findings);
    List<Area> areas = new ArrayList<>();
    for (String name : new TreeSet<>(names)) {
      reading.parse(name).ifPresent(area -> reading.add(area, areas));
    }
    reading.addRest(areas);
    areas.sort(Area.order());
    return List.copyOf(areas);
  }

  private Optional<Area> parse(String name) {
    Matcher matcher = NAME.matcher(name);
    if (!matcher.matches()) {
      return Optional.empty();
    }
    Quadrant quadrant = Quadrant.valueOf(matcher.group(1));
    boolean posterior = matcher.group(2).equals("posterior");
    List<Tooth> teeth = standing(quadrant, posterior);
    String back = matcher.group(3);
    if (back != null) {
      String front = matcher.group(4) == null ? back : matcher.group(4);
      Tooth first = Tooth.ofIso(Integer.parseInt(front));
      Tooth last = Tooth.ofIso(Integer.parseInt(back));
      if (!teeth.contains(first) || !teeth.contains(last) || first.compareTo(last) > 0) {
        return Optional.empty();
      }
      teeth = teeth.subList(teeth.indexOf(first), teeth.indexOf(last) + 1);
    }
    return teeth.isEmpty()
        ? Optional.empty()
        : Optional.of(new Area(name, quadrant, posterior, teeth));
  }

  private void add(Area area, List<Area> areas) {
    for (Area other : areas) {
      if (other.teeth().stream().anyMatch(area.teeth()::contains)) {
        findings.course(
            Rule.WORK, "The areas " + other.name() + " and " + area.name() + " overlap.");
        return;
      }
    }
    areas.add(area);
  }

  private void addRest(List<Area> areas) {
    List<Area> rest = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (boolean posterior : new boolean[] {true, false}) {
        List<Tooth> teeth = standing(quadrant, posterior);
        List<Tooth> run = new ArrayList<>();
        for (Tooth tooth : teeth) {
          if (areas.stream().anyMatch(area -> area.teeth().contains(tooth))) {
            addRun(run, teeth, rest);
          } else {
            run.add(tooth);
          }
        }
        addRun(run, teeth, rest);
      }
    }
    areas.addAll(rest);
  }

  private static void addRun(List<Tooth> run, List<Tooth> half, List<Area> areas) {
    if (run.isEmpty()) {
      return;
    }
    Tooth front = run.get(0);
    Tooth back = run.get(run.size() - 1);
    String whole = Area.wholeName(front.quadrant(), front.posterior());
    String range = front.equals(back) ? front.toString() : back + "-" + front;
    String name = run.equals(half) ? whole : whole + " " + range;
    areas.add(new Area(name, front.quadrant(), front.posterior(), run));
    run.clear();
  }

  private List<Tooth> standing(Quadrant quadrant, boolean posterior) {
    return chart.worked().stream()
        .map(ToothChart::tooth)
        .filter(tooth -> tooth.quadrant() == quadrant && tooth.posterior() == posterior)
        .toList();
  }
}
