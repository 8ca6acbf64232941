package quadrille.plan.work;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Minutes;

/**
 * How badly an area is diseased, for the goal that the worst areas are not treated late: the sum
 * over its sites of the depth above 3 mm. It is Quadrille's own measure (an assumption) and says
 * nothing of a diagnosis.
 */
public final class Burden {

  /** A healthy depth: what lies above it counts. Assumption. */
  private static final double HEALTHY_MM = 3;

  private Burden() {}

  /** In mm, 0 or more; a site that could not be probed has the practice's provisional depth. */
  public static double of(Area area, Chart chart, Minutes minutes) {
    double sum = 0;
    for (Tooth tooth : area.teeth()) {
      for (Site site : chart.tooth(tooth).map(ToothChart::sites).orElseThrow()) {
        sum += Math.max(0, Depths.of(site, minutes) - HEALTHY_MM);
      }
    }
    return sum;
  }

  /** That of each area, in the order given. */
  public static Map<AreaRef, Double> each(List<Area> areas, Chart chart, Minutes minutes) {
    Map<AreaRef, Double> burdens = new LinkedHashMap<>();
    for (Area area : areas) {
      burdens.put(area.ref(), of(area, chart, minutes));
    }
    return burdens;
  }
}
