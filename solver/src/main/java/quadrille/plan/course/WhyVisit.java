package quadrille.plan.course;

import java.util.List;
import quadrille.facts.practice.Figure;

/**
 * Why a visit is one of its own: what stands against taking its work in with other visits.
 *
 * @param visit its number
 * @param others numbers of the visits with which it cannot be one, ascending; empty where it is
 *     about the course
 */
public record WhyVisit(int visit, List<Integer> others, Because because) {

  public WhyVisit {
    others = List.copyOf(others);
  }

  /** What stands against it. */
  public sealed interface Because {}

  /** What is said without a figure. */
  public enum Known implements Because {
    /** They numb different sides. */
    NUMB_SIDE,
    /** A right and a left lower block would meet. */
    DOUBLE_BLOCK,
    /** More anaesthetic than may be given. */
    DOSE,
    /** Numbness would end before the work does. */
    NUMBNESS_ENDS,
    /** An area that is begun is finished in one visit; the course takes a visit more for it. */
    BEGUN_IS_FINISHED,
    /** A wish. */
    WISHED,
    /** Nothing; two visits cost less by the practice's weights. */
    COSTS_LESS,
    /** Nothing; so many visits were asked for. */
    ASKED_FOR
  }

  /**
   * Together they would be too long.
   *
   * @param minutes to be booked for both
   * @param longestMinutes that may be booked
   * @param limits what allows no more
   */
  public record TooLong(int minutes, int longestMinutes, List<LengthLimit> limits)
      implements Because {
    public TooLong {
      limits = List.copyOf(limits);
    }
  }

  /** Together they would use more inserts than a tray holds. */
  public record Tray(int inserts, Figure holds) implements Because {}
}
