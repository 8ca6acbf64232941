package quadrille.plan.staging;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Pass;
import quadrille.plan.visit.Block;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;

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

  /**
   * What a move can carry at once: a pass of an area, an area, a quadrant; and, so that a visit can
   * be freed of an insert, every pass of an area that uses it, or every area's part of a pass, on
   * one side or on both.
   */
  static List<Load> all(StagingCase staging) {
    StepSet pinned = staging.pinnedSteps();
    Set<StepSet> loads = new LinkedHashSet<>();
    if (!staging.areasWhole()) {
      staging.blocks().forEach(block -> loads.add(block.steps().minus(pinned)));
    }
    staging.areas().forEach(area -> loads.add(staging.stepsOf(area::equals).minus(pinned)));
    for (Quadrant quadrant : Quadrant.values()) {
      loads.add(staging.stepsOf(area -> area.quadrant() == quadrant).minus(pinned));
    }
    int small = loads.size();
    if (!staging.areasWhole()) {
      addParts(staging, pinned, loads);
    }
    List<Load> all = new ArrayList<>();
    int number = 0;
    for (StepSet set : loads) {
      if (!set.isEmpty()) {
        all.add(of(staging, set, number < small));
      }
      number++;
    }
    return List.copyOf(all);
  }

  private static void addParts(StagingCase staging, StepSet pinned, Set<StepSet> loads) {
    List<Integer> inserts = staging.steps().stream().map(staging::insertIndex).distinct().toList();
    for (Side side : Side.values()) {
      for (Pass pass : Pass.values()) {
        loads.add(union(staging, block -> block.pass() == pass && on(block, side)).minus(pinned));
      }
      for (int insert : inserts) {
        loads.add(
            union(staging, block -> uses(staging, block, insert) && on(block, side)).minus(pinned));
      }
    }
    for (Pass pass : Pass.values()) {
      loads.add(union(staging, block -> block.pass() == pass).minus(pinned));
    }
    for (int insert : inserts) {
      loads.add(union(staging, block -> uses(staging, block, insert)).minus(pinned));
    }
  }

  private static boolean on(Block block, Side side) {
    return block.area().quadrant().side() == side;
  }

  private static boolean uses(StagingCase staging, Block block, int insert) {
    for (int index : block.steps().members()) {
      if (staging.insertIndex(staging.steps().get(index)) == insert) {
        return true;
      }
    }
    return false;
  }

  private static StepSet union(StagingCase staging, Predicate<Block> wanted) {
    StepSet all = StepSet.EMPTY;
    for (Block block : staging.blocks()) {
      if (wanted.test(block)) {
        all = all.union(block.steps());
      }
    }
    return all;
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
