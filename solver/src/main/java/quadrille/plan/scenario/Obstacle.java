package quadrille.plan.scenario;

import quadrille.facts.chart.Alert;
import quadrille.plan.audit.Finding;
import quadrille.plan.planning.Clash;
import quadrille.plan.work.Unworkable;

/** Why a choice of a comparison is none. */
public sealed interface Obstacle {

  /** No course keeps every hard rule. */
  record NoCourse(Clash clash) implements Obstacle {}

  /** The practice, as changed, owns no insert that may do some of the work. */
  record NoInsert(Unworkable work) implements Obstacle {}

  /**
   * A rule of thumb's course breaks a rule.
   *
   * @param first what the audit finds first
   * @param more how many more findings there are of the same rule
   */
  record BreaksRule(Finding first, int more) implements Obstacle {}

  /** All visits on one day, which an alert forbids. */
  record DayForbidden(Alert alert) implements Obstacle {}

  /**
   * All visits on one day, where an alert asks for days between them.
   *
   * @param days 1 or more
   */
  record DaysAskedFor(Alert alert, int days) implements Obstacle {}

  /** Why, as a saved comparison has it in words. */
  record AsWritten(String words) implements Obstacle {}

  /** The search was asked to end before it was done, so that there may be a course after all. */
  record CutShort() implements Obstacle {}
}
