package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;

/** The areas of a plan. Any cutting between two teeth is legal. */
final class PlanAreas {

  private PlanAreas() {}

  /**
   * Areas that hold each natural tooth and implant of the chart once. Teeth that no area of the
   * plan covers make areas of their own, so that work left out there comes to light.
   *
   * @param refs as the plan uses them; one that is cut where no tooth stands is passed over, as the
   *     steps there are found to be no work of the chart
   */
  static List<Area> of(Chart chart, SortedSet<AreaRef> refs, Findings findings) {
    List<Area> areas = new ArrayList<>();
    for (AreaRef ref : refs) {
      standing(chart, ref).ifPresent(area -> add(area, areas, findings));
    }
    List<Area> all = new ArrayList<>(areas);
    Area.of(chart).forEach(half -> all.addAll(half.uncovered(areas)));
    all.sort(Area.order());
    return List.copyOf(all);
  }

  private static Optional<Area> standing(Chart chart, AreaRef ref) {
    List<Tooth> teeth = chart.worked().stream().map(ToothChart::tooth).filter(ref::holds).toList();
    Tooth from = ref.from();
    Tooth to = ref.to();
    boolean ends =
        from == null || to == null ? !teeth.isEmpty() : teeth.contains(from) && teeth.contains(to);
    return ends ? Optional.of(new Area(ref, teeth)) : Optional.empty();
  }

  private static void add(Area area, List<Area> areas, Findings findings) {
    for (Area other : areas) {
      if (other.teeth().stream().anyMatch(area.teeth()::contains)) {
        findings.course(
            Rule.WORK,
            "The areas "
                + findings.say().area(other.ref())
                + " and "
                + findings.say().area(area.ref())
                + " overlap.");
        return;
      }
    }
    areas.add(area);
  }
}
