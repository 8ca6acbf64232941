package quadrille.plan.visit;

import java.util.List;
import java.util.stream.IntStream;

/**
 * How the visits of one case are evaluated and put in order, at one width of the beam search. Not
 * safe for use by several threads at once, since it remembers what it has reckoned.
 */
public final class CaseEvaluator {
  private static final int QUICK_WIDTH = 1;

  private final VisitEvaluator first;
  private final VisitEvaluator others;
  private final List<VisitEvaluator> visits;
  private final Sequencer sequencer;

  /** Orders visits as quickly as can be. */
  public CaseEvaluator(StagingCase staging) {
    this.others = new VisitEvaluator(staging);
    this.first =
        staging.standing().anythingGiven()
            ? new VisitEvaluator(staging, staging.standing())
            : others;
    this.visits =
        IntStream.range(0, staging.visits())
            .mapToObj(visit -> unframed(visit + 1).withFrame(staging.frameSeconds(visit)))
            .toList();
    this.sequencer = new Sequencer(others, QUICK_WIDTH);
  }

  private CaseEvaluator(CaseEvaluator known, int width) {
    this.first = known.first;
    this.others = known.others;
    this.visits = known.visits;
    this.sequencer = new Sequencer(others, width);
  }

  /** The same evaluation with orders sought more widely or less. */
  public CaseEvaluator ofWidth(int width) {
    return new CaseEvaluator(this, width);
  }

  public StagingCase staging() {
    return others.staging();
  }

  /**
   * Evaluates a visit: the first must mind what was given earlier on its day, and each has its own
   * frame.
   *
   * @param number 1, 2, 3 …
   */
  public VisitEvaluator visit(int number) {
    return visits.get(number - 1);
  }

  /** Evaluates a visit with the frame that every visit has. */
  public VisitEvaluator unframed(int number) {
    return number == 1 ? first : others;
  }

  /** Evaluates visits before which nothing was given on their day. */
  public VisitEvaluator visits() {
    return others;
  }

  /** A good order for the steps of a visit; remembered. */
  public int[] order(StepSet steps, int number) {
    return sequencer.sequence(steps, staging().frameSeconds(number - 1)).order();
  }
}
