package quadrille.plan.visit;

import quadrille.plan.work.Step;

/**
 * A step as the solver moves it: the planning value. Equal only to itself, so that the solver's
 * maps stay cheap.
 */
public final class StepFact {
  private final int index;
  private final Step step;
  private final int areaIndex;
  private final int blockIndex;

  StepFact(int index, Step step, int areaIndex, int blockIndex) {
    this.index = index;
    this.step = step;
    this.areaIndex = areaIndex;
    this.blockIndex = blockIndex;
  }

  /** Position in the case's list of steps. */
  public int index() {
    return index;
  }

  public Step step() {
    return step;
  }

  public int areaIndex() {
    return areaIndex;
  }

  public int blockIndex() {
    return blockIndex;
  }

  @Override
  public String toString() {
    return step.words();
  }
}
