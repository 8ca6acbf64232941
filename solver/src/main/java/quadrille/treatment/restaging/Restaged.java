package quadrille.treatment.restaging;

import java.util.List;
import quadrille.facts.chart.Chart;
import quadrille.plan.course.Before;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanChange;

/**
 * A course that carries on another, and has passed its audit.
 *
 * @param course the visits to come; none where nothing is left
 * @param chart the mouth that it was made from, with all that was found
 * @param before what went before it
 * @param changes against the plan before, each with its reason; empty where nothing changed
 */
public record Restaged(Course course, Chart chart, Before before, List<PlanChange> changes) {
  public Restaged {
    changes = List.copyOf(changes);
  }
}
