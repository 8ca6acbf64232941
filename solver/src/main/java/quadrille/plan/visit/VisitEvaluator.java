package quadrille.plan.visit;

/**
 * Evaluates a visit: what follows from a set of steps, and what the clock shows for an order of
 * them. Sets are remembered, so one is for one thread at a time; orders are not, since there are
 * too many.
 */
public final class VisitEvaluator {
  private final StagingCase staging;
  private final SetEvaluator sets;
  private final int frameSeconds;

  /** For visits before which nothing was given on their day. */
  public VisitEvaluator(StagingCase staging) {
    this(staging, Commitments.NONE);
  }

  /**
   * @param earlier what was given before on the visit's day
   */
  VisitEvaluator(StagingCase staging, Commitments earlier) {
    this.staging = staging;
    this.sets = new SetEvaluator(staging, earlier);
    this.frameSeconds = 0;
  }

  private VisitEvaluator(VisitEvaluator other, int frameSeconds) {
    this.staging = other.staging;
    this.sets = other.sets;
    this.frameSeconds = frameSeconds;
  }

  /** The same for visits of a longer frame. */
  VisitEvaluator withFrame(int seconds) {
    return new VisitEvaluator(this, seconds);
  }

  public StagingCase staging() {
    return staging;
  }

  /** What follows from a visit's steps, whatever their order. */
  public SetEvaluation set(StepSet steps) {
    return sets.evaluate(steps);
  }

  /**
   * Lays a visit out. The groups of injections go where the visit ends soonest with numbness
   * lasting, and as late as that allows, so that nobody is numb before it pays.
   */
  public VisitTimeline layout(int... order) {
    return layout(order, false);
  }

  /** Lays a visit out with all its injections given before the first step. */
  public VisitTimeline layoutNumbedFirst(int[] order) {
    return layout(order, true);
  }

  private VisitTimeline layout(int[] order, boolean numbedFirst) {
    StepSet members = StepSet.EMPTY;
    for (int index : order) {
      members = members.with(index);
    }
    SetEvaluation set = set(members);
    VisitTimeline best = null;
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      VisitTimeline layout =
          new VisitClock(staging, set, dosing, order, frameSeconds).best(numbedFirst);
      if (best == null || layout.wornOffSeconds() < best.wornOffSeconds()) {
        best = layout;
      }
      if (best.wornOffSeconds() == 0) {
        break;
      }
    }
    if (best == null) {
      throw new IllegalStateException("A set of steps has no dosing: " + set);
    }
    return best;
  }

  /**
   * Whether another order of the same steps, with the same agent, ends sooner or keeps numbness
   * longer; much quicker than laying it out.
   */
  boolean improves(int[] order, VisitTimeline than) {
    return new VisitClock(staging, than.set(), than.dosing(), order, frameSeconds).beats(than);
  }
}
