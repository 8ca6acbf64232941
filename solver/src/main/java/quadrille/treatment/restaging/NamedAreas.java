package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;

/**
 * The areas that plans of a course were cut into, so that what is left keeps the cuts. Earlier ones
 * give way to later ones; teeth that none covers make areas of their own.
 */
final class NamedAreas {

  private NamedAreas() {}

  /**
   * @param plans the latest first
   */
  static List<Area> of(Chart chart, List<Course> plans) {
    List<Area> areas = new ArrayList<>();
    for (Course plan : plans) {
      for (AreaRef ref : refs(plan)) {
        List<Tooth> teeth =
            chart.worked().stream().map(ToothChart::tooth).filter(ref::holds).toList();
        boolean free =
            areas.stream().noneMatch(area -> area.teeth().stream().anyMatch(teeth::contains));
        if (!teeth.isEmpty() && free) {
          areas.add(new Area(ref, teeth));
        }
      }
    }
    List<Area> all = new ArrayList<>(areas);
    Area.of(chart).forEach(half -> all.addAll(half.uncovered(areas)));
    all.sort(Area.order());
    return List.copyOf(all);
  }

  private static Set<AreaRef> refs(Course plan) {
    Set<AreaRef> refs = new LinkedHashSet<>();
    plan.visits().forEach(visit -> visit.steps().forEach(step -> refs.add(step.area())));
    plan.heldBack().stream().map(HeldBack::area).forEach(refs::add);
    return refs;
  }
}
