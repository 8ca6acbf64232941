package quadrille.treatment.record;

import java.util.List;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Entry;
import quadrille.plan.work.StepAspect;

/**
 * How much of a step was done.
 *
 * @param teeth the teeth of the plan's step, sorted
 * @param insert the insert that was used
 * @param share of the step's work that was done: 0 nothing, 1 all of it
 */
public record StepDone(
    AreaRef area, Pass pass, StepAspect aspect, List<Tooth> teeth, String insert, double share) {

  public StepDone {
    teeth = teeth.stream().sorted().toList();
    if (!(share >= 0 && share <= 1)) {
      throw new IllegalArgumentException("The share done (" + share + ") must be 0 to 1.");
    }
  }

  /** So much of a step of the plan. */
  public static StepDone of(Entry.Debride step, double share) {
    return new StepDone(
        step.area(), step.pass(), step.aspect(), step.teeth(), step.insert(), share);
  }

  /** Whether nothing of it is left. */
  public boolean whole() {
    return share >= 1;
  }

  /** Whether another step works at a tooth and aspect of this one, in the same pass. */
  boolean sharesWith(StepDone other) {
    return pass == other.pass
        && teeth.stream().anyMatch(other.teeth::contains)
        && aspect.aspects().stream().anyMatch(other.aspect.aspects()::contains);
  }
}
