package quadrille.plan.planning;

import java.util.List;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Wish;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.HeldBack;

/** Why no course of a mouth, or of what is left of one, keeps every hard rule. */
public sealed interface Clash {

  /**
   * There is less work than visits, none of which may be empty.
   *
   * @param visits the fewest asked for
   */
  record TooLittleWork(int visits) implements Clash {}

  /**
   * What the nearest course breaks.
   *
   * @param nearest the course tried that broke the least
   */
  record Broken(HardRule rule, Nearest nearest) implements Clash {}

  /**
   * The course tried that broke the least.
   *
   * @param visits how many it has
   * @param visitsGiven whether no other number of visits was tried, and so need not be said
   * @param longestMinutes booked for its longest visit
   * @param allowedMinutes the most that may be booked for a visit
   */
  record Nearest(int visits, boolean visitsGiven, int longestMinutes, int allowedMinutes) {}

  /**
   * Visits are so short that areas were cut into more pieces than can be staged.
   *
   * @param allowedMinutes the most that may be booked for a visit
   */
  record TooManyPieces(int allowedMinutes) implements Clash {}

  /** What a course under way has left is cut into more pieces than can be staged. */
  record TooManyPiecesLeft() implements Clash {}

  /**
   * All work is held back.
   *
   * @param reason why its first piece is
   */
  record EverythingWaits(HeldBack.Reason reason) implements Clash {}

  /**
   * A wish that must be kept and cannot be, not even alone.
   *
   * @param numbering how it names teeth
   * @param against hard rules, each of which would let it be kept if it alone gave way, as was
   *     tried; none where that takes more than one
   */
  record NotAsWished(Wish wish, Numbering numbering, List<HardRule> against) implements Clash {
    public NotAsWished {
      against = List.copyOf(against);
    }
  }

  /**
   * A wish that must be kept and is for a number of visits that was not asked for.
   *
   * @param visits those asked for
   */
  record WishedOtherNumber(Wish wish, Numbering numbering, VisitRange visits) implements Clash {}

  /** Wishes of which each could be kept alone, but not all together. */
  record WishesClash(List<Wish> wishes, Numbering numbering) implements Clash {
    public WishesClash {
      wishes = List.copyOf(wishes);
    }
  }

  /**
   * A wish names an insert that the practice does not have.
   *
   * @param inserts those it has
   */
  record UnknownInsert(Wish wish, Numbering numbering, List<String> inserts) implements Clash {
    public UnknownInsert {
      inserts = List.copyOf(inserts);
    }
  }

  /** An agent that was given earlier that day is none of the practice's table. */
  record UnknownAgentGiven(String agent) implements Clash {}
}
