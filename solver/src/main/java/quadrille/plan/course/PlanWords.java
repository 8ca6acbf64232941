package quadrille.plan.course;

import quadrille.facts.chart.Numbering;

/**
 * The words that a plan file shows beside its typed keys. They are for people: whoever reads the
 * file back passes over them. Who shows plans makes them; this package only says where they go.
 */
public interface PlanWords {

  /** What an entry injects, puts in or waits for, or where it moves to; empty for the others. */
  String entry(Entry entry, Numbering numbering);

  /** A line on a site to watch. */
  String watch(WatchSite site, Numbering numbering);

  /** Why work is held back: a clause without a full stop. */
  String reason(HeldBack.Reason reason);

  /** What the clinician is asked to mind: a clause or a sentence. */
  String caution(Caution caution, Numbering numbering);

  /** What is asked before anything is touched: a sentence or more. */
  String stopQuestion(StopQuestion question);

  /** What the numbers rest on: a clause without a full stop. */
  String assumption(Assumption assumption);

  /** That the search was asked to end early: a clause without a full stop. */
  String cutShort();

  /** Why a visit is one of its own: a sentence. */
  String why(WhyVisit why);

  /** What one visit fewer would need: a sentence, or several. */
  String oneVisitFewer(OneVisitFewer fewer);

  /** What became of a wish: a sentence or more. */
  String wish(WishOutcome outcome, Numbering numbering);

  /** What changed against the plan before: a sentence. */
  String what(PlanChange change, Numbering numbering);

  /** Why it changed: a sentence. */
  String why(PlanChange change);
}
