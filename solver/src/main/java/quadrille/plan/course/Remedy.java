package quadrille.plan.course;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Figure;

/**
 * A change that would help, and what came of it when it was tried.
 *
 * @param visits of the course found
 * @param longestMinutes booked for its longest visit
 */
public record Remedy(Change change, int visits, int longestMinutes) {

  /** What to change. */
  public sealed interface Change {

    /** Another number of visits. */
    record Visits(int number) implements Change {}

    /**
     * Longer visits.
     *
     * @param limits whose limits have to give way; an alert's is for a clinician to judge
     */
    record LongerVisits(int minutes, int insteadOfMinutes, List<LengthLimit> limits)
        implements Change {
      public LongerVisits {
        limits = List.copyOf(limits);
      }
    }

    /** More inserts on a tray. */
    record LargerTray(int inserts, Figure insteadOf) implements Change {}

    /**
     * Visits that end inside their booked time less often.
     *
     * @param certainty share of visits that do, 0 to 1
     * @param insteadOf the one in force
     */
    record LessCertainty(double certainty, Figure insteadOf) implements Change {}

    /** An agent of the practice's table that it does not prefer, by its name there. */
    record AllowAgent(String agent) implements Change {}

    /** Front teeth numbed across the midline by infiltrations, which the practice does not do. */
    record FrontAcrossMidline() implements Change {}

    /**
     * A wish left out.
     *
     * @param wish null for all of them
     * @param numbering how it names teeth
     */
    record WithoutWish(@Nullable Wish wish, Numbering numbering) implements Change {}

    /** Passes of an area in different visits, which the practice does not allow (H11). */
    record PassesApart() implements Change {}
  }
}
