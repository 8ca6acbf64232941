package quadrille.plan.scenario;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.plan.course.Course;

/**
 * One row of a comparison.
 *
 * @param rule the rule of thumb that it comes from; null where it was sought
 * @param visits how many visits
 * @param figures what it comes to; null where there is no course that keeps every hard rule
 * @param course the course itself; null where there is none, or where only its figures are known
 * @param obstacles what stands in the way; empty where there is a course
 * @param hints what a clinician is asked to mind with this choice
 * @param unbeaten whether no other choice of the comparison is at least as good in chair time,
 *     number of visits, longest visit and dose, and better in one of them
 */
public record Choice(
    @Nullable RuleOfThumb rule,
    int visits,
    @Nullable CourseFigures figures,
    @Nullable Course course,
    List<Obstacle> obstacles,
    List<Hint> hints,
    boolean unbeaten) {

  public Choice {
    obstacles = List.copyOf(obstacles);
    hints = List.copyOf(hints);
    if ((figures == null) == obstacles.isEmpty()) {
      throw new IllegalArgumentException(
          "The choice of " + visits + " visits must have either figures or obstacles.");
    }
  }

  /** Whether there is a course that keeps every hard rule. */
  public boolean feasible() {
    return figures != null;
  }

  Choice marked(List<CourseFigures> all) {
    CourseFigures own = figures;
    return new Choice(
        rule,
        visits,
        own,
        course,
        obstacles,
        hints,
        own != null && all.stream().noneMatch(own::beatenBy));
  }
}
