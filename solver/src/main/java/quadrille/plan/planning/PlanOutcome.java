package quadrille.plan.planning;

import java.util.List;
import quadrille.plan.course.Course;
import quadrille.plan.course.Remedy;

/** What planning came to. */
public sealed interface PlanOutcome {

  /**
   * A course that passed the audit.
   *
   * @param course with no visit where nothing is due
   */
  record Planned(Course course, Explanation explanation) implements PlanOutcome {}

  /**
   * No course keeps every hard rule.
   *
   * @param clashes what stands in the way
   * @param remedies the smallest changes that would help, each one tried
   * @param cutShort whether the search was asked to end before it was done, so that there may be a
   *     course after all
   */
  record NoPlan(List<Clash> clashes, List<Remedy> remedies, boolean cutShort)
      implements PlanOutcome {
    public NoPlan {
      clashes = List.copyOf(clashes);
      remedies = List.copyOf(remedies);
    }

    /** The outcome of a search that was done. */
    NoPlan(List<Clash> clashes, List<Remedy> remedies) {
      this(clashes, remedies, false);
    }
  }
}
