package quadrille.plan.planning;

import java.util.List;
import quadrille.plan.course.Course;

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
   * @param clashes the rules that stand in the way, in words
   * @param remedies the smallest changes that would help, each one tried
   * @param cutShort whether the search was asked to end before it was done, so that there may be a
   *     course after all
   */
  record NoPlan(List<String> clashes, List<Remedy> remedies, boolean cutShort)
      implements PlanOutcome {
    public NoPlan {
      clashes = List.copyOf(clashes);
      remedies = List.copyOf(remedies);
    }

    /** The outcome of a search that was done. */
    NoPlan(List<String> clashes, List<Remedy> remedies) {
      this(clashes, remedies, false);
    }
  }

  /**
   * A change that would help.
   *
   * @param words what to change, such as {@code plan 4 visits instead of 3}
   * @param result what came of it when it was tried, such as {@code 4 visits, 70 minutes at the
   *     longest}
   */
  record Remedy(String words, String result) {}
}
