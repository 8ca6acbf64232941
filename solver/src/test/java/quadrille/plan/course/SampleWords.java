package quadrille.plan.course;

import quadrille.facts.chart.Numbering;

/** Words of a kind, for tests that only ask where they go. */
public final class SampleWords implements PlanWords {

  /** The one of its kind. */
  public static final PlanWords WORDS = new SampleWords();

  private SampleWords() {}

  @Override
  public String entry(Entry entry, Numbering numbering) {
    return "the words of " + entry.kind().word();
  }

  @Override
  public String watch(WatchSite site, Numbering numbering) {
    return "a site to watch";
  }

  @Override
  public String reason(HeldBack.Reason reason) {
    return "a reason";
  }

  @Override
  public String caution(Caution caution, Numbering numbering) {
    return "a caution";
  }

  @Override
  public String stopQuestion(StopQuestion question) {
    return "a question";
  }

  @Override
  public String assumption(Assumption assumption) {
    return "an assumption";
  }

  @Override
  public String cutShort() {
    return "cut short";
  }

  @Override
  public String why(WhyVisit why) {
    return "a reason for a visit";
  }

  @Override
  public String oneVisitFewer(OneVisitFewer fewer) {
    return "what one visit fewer would need";
  }

  @Override
  public String wish(WishOutcome outcome, Numbering numbering) {
    return "what became of a wish";
  }

  @Override
  public String what(PlanChange change, Numbering numbering) {
    return "a change";
  }

  @Override
  public String why(PlanChange change) {
    return "a reason for it";
  }
}
