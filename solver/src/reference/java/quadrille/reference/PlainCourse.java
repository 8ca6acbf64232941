package quadrille.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.plan.work.Step;

/**
 * A course as it comes: one side of the mouth, then the other, area by area, each side's work cut
 * into as many stretches as it has visits. It may break any rule but that passes stay together.
 */
final class PlainCourse {
  private final Problem problem;
  private final int[] blockOf;
  private final int[] lengths;

  /**
   * @param blockOf by step, its pass of its area
   * @param lengths by step, its seconds
   */
  PlainCourse(Problem problem, int[] blockOf, int[] lengths) {
    this.problem = problem;
    this.blockOf = blockOf;
    this.lengths = lengths;
  }

  /** For each visit its steps; a visit may be empty. */
  List<List<Integer>> orders() {
    int visits = problem.visits();
    Quadrant wanted = problem.patient().startWith();
    Side one = wanted == null ? Side.RIGHT : wanted.side();
    List<Integer> oneSide = steps(one, true);
    List<Integer> otherSide = steps(one, false);
    double share = (double) seconds(oneSide) / Math.max(1, seconds(oneSide) + seconds(otherSide));
    int visitsOfOne = (int) Math.round(visits * share);
    if (!otherSide.isEmpty()) {
      visitsOfOne = Math.min(visits - 1, visitsOfOne);
    }
    if (!oneSide.isEmpty()) {
      visitsOfOne = Math.max(1, visitsOfOne);
    }
    if (visitsOfOne < 1 || visits == 1) {
      oneSide.addAll(otherSide);
      return cut(oneSide, visits);
    }
    List<List<Integer>> orders = cut(oneSide, visitsOfOne);
    if (visits > visitsOfOne) {
      orders.addAll(cut(otherSide, visits - visitsOfOne));
    }
    return orders;
  }

  private int seconds(List<Integer> some) {
    return some.stream().mapToInt(step -> lengths[step]).sum();
  }

  private List<Integer> steps(Side side, boolean on) {
    List<Step> steps = problem.steps();
    List<Integer> some = new ArrayList<>();
    IntStream.range(0, steps.size())
        .filter(i -> (steps.get(i).area().quadrant().side() == side) == on)
        .forEach(some::add);
    return some;
  }

  /** Whole passes, at least one of them in each stretch while they last. */
  private List<List<Integer>> cut(List<Integer> some, int into) {
    int all = seconds(some);
    int done = 0;
    int stretch = 0;
    int block = -1;
    List<List<Integer>> cut = new ArrayList<>();
    for (int i = 0; i < into; i++) {
      cut.add(new ArrayList<>());
    }
    for (int i : some) {
      if (blockOf[i] != block) {
        block = blockOf[i];
        int right = (int) Math.min(into - 1, (long) done * into / Math.max(1, all));
        stretch = Math.min(right, stretch + (cut.get(stretch).isEmpty() ? 0 : 1));
      }
      cut.get(stretch).add(i);
      done += lengths[i];
    }
    return cut;
  }
}
