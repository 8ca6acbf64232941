package quadrille.plan.work;

import java.util.List;
import quadrille.facts.chart.Area;

/**
 * The work of a mouth.
 *
 * @param areas the areas it was made for, in order
 * @param steps in order of area, pass, aspect and insert; ids are their indexes
 * @param notes what a reader must know, such as a provisional fine pass or a tooth planned for
 *     extraction
 */
public record WorkList(List<Area> areas, List<Step> steps, List<WorkNote> notes) {

  public WorkList {
    areas = List.copyOf(areas);
    steps = List.copyOf(steps);
    notes = List.copyOf(notes);
  }
}
