package quadrille.planning;

import java.util.List;
import quadrille.course.Course;

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
   */
  record NoPlan(List<String> clashes, List<Remedy> remedies) implements PlanOutcome {
    public NoPlan {
      clashes = List.copyOf(clashes);
      remedies = List.copyOf(remedies);
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
