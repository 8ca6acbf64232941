package quadrille.plan.planning;

import java.util.List;
import quadrille.facts.practice.Agent;
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

  /**
   * A change that would help, and what came of it when it was tried.
   *
   * @param visits of the course found
   * @param longestMinutes booked for its longest visit
   */
  record Remedy(Change change, int visits, int longestMinutes) {}

  /** What to change. */
  sealed interface Change {

    /** Another number of visits. */
    record Visits(int number) implements Change {}

    /** Longer visits, for the practice and for the patient. */
    record LongerVisits(int minutes, int insteadOfMinutes) implements Change {}

    /** An agent of the practice's table that it does not prefer. */
    record AllowAgent(Agent agent) implements Change {}

    /** Passes of an area in different visits, which the practice does not allow (H11). */
    record PassesApart() implements Change {}
  }
}
