package quadrille.plan.planning;

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

  /** An agent that was given earlier that day is none of the practice's table. */
  record UnknownAgentGiven(String agent) implements Clash {}
}
