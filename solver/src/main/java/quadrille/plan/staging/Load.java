package quadrille.plan.staging;

import java.util.Arrays;
import java.util.List;

/**
 * Steps that a move carries to another visit together: a pass of an area, an area, a quadrant.
 *
 * @param steps indexes of the steps; never empty
 * @param facts the steps themselves
 * @param small whether it is worth exchanging for another
 */
public record Load(StepSet steps, List<StepFact> facts, boolean small) {

  static Load of(StagingCase staging, StepSet steps, boolean small) {
    return new Load(
        steps, Arrays.stream(steps.members()).mapToObj(staging.steps()::get).toList(), small);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Load load && load.steps.equals(steps);
  }

  @Override
  public int hashCode() {
    return steps.hashCode();
  }
}
