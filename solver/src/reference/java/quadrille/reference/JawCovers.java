package quadrille.reference;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Numbing;
import quadrille.plan.work.Target;

/**
 * For every choice of the passes of a jaw that must be numb, the injections that a visit with just
 * these gives in it. Choices that would numb both sides have none (H1).
 */
final class JawCovers {

  /**
   * A pass of an area that needs injections.
   *
   * @param number its place among all passes of areas
   */
  record Numbed(int number, Quadrant quadrant, SortedSet<Target> needs) {}

  /**
   * A choice of the jaw's passes, as bits of their places, and its injections.
   *
   * @param cover place in {@link #covers}
   */
  record Row(int chosen, int cover) {}

  /**
   * The injections of one jaw in a visit, in the order in which they are given: one group.
   *
   * @param side the numb side; null where none, or only both sides of the front palate, are numb
   */
  record Cover(List<Shot> shots, @Nullable Side side) {
    int seconds(Numbing numbing) {
      return shots.stream().mapToInt(shot -> shot.seconds(numbing)).sum();
    }

    double ml() {
      return shots.stream().mapToDouble(Shot::ml).sum();
    }

    boolean numbs(Collection<Target> needs) {
      return needs.stream().allMatch(need -> shots.stream().anyMatch(shot -> shot.numbs(need)));
    }

    /** Seconds from the start of the group until all of it is numb. */
    int ready(Collection<Target> needs, Agent agent, Numbing numbing) {
      int ready = 0;
      for (Target need : needs) {
        int end = 0;
        for (Shot shot : shots) {
          end += shot.seconds(numbing);
          if (shot.numbs(need)) {
            ready = Math.max(ready, end + shot.onset(agent, need.kind()));
            break;
          }
        }
      }
      return ready;
    }

    /** Seconds from the start of the group until the first of it wears off. */
    int wornOff(Collection<Target> needs, Agent agent, Numbing numbing) {
      int wornOff = Integer.MAX_VALUE;
      for (Target need : needs) {
        int end = 0;
        for (Shot shot : shots) {
          end += shot.seconds(numbing);
          if (shot.numbs(need)) {
            wornOff = Math.min(wornOff, end + shot.lasts(agent, need.kind()));
            break;
          }
        }
      }
      return wornOff;
    }
  }

  private final List<Numbed> passes;
  private final Map<Side, Shots> shots = new LinkedHashMap<>();
  private final List<Cover> covers = new ArrayList<>();
  private final List<Row> rows = new ArrayList<>();

  JawCovers(Problem problem, Jaw jaw, List<Numbed> all) {
    this.passes = all.stream().filter(pass -> pass.quadrant().jaw() == jaw).toList();
    if (passes.size() > 20) {
      throw new IllegalArgumentException("More than 20 passes of one jaw must be numb.");
    }
    for (Side side : Side.values()) {
      shots.put(side, new Shots(problem, Quadrant.of(jaw, side), needs(~0, side)));
    }
    Map<List<Shot>, Integer> known = new LinkedHashMap<>();
    known.put(List.of(), 0);
    covers.add(new Cover(List.of(), null));
    rows.add(new Row(0, 0));
    Comparator<Shot> given =
        Comparator.comparingInt(
                (Shot shot) ->
                    problem.agents().isEmpty() ? 0 : -shot.longestOnset(problem.agents().get(0)))
            .thenComparingInt(Shot::number);
    for (int chosen = 1; chosen < 1 << passes.size(); chosen++) {
      Shots.Some some = cheapest(chosen);
      if (some != null) {
        List<Shot> inOrder = some.shots().stream().sorted(given).toList();
        Integer cover = known.putIfAbsent(inOrder, covers.size());
        if (cover == null) {
          cover = covers.size();
          covers.add(new Cover(inOrder, side(inOrder)));
        }
        rows.add(new Row(chosen, cover));
      }
    }
  }

  private static @Nullable Side side(List<Shot> shots) {
    return shots.stream()
        .filter(shot -> !shot.kind().bothSides())
        .map(shot -> shot.quadrant().side())
        .findFirst()
        .orElse(null);
  }

  private SortedSet<Target> needs(int chosen, Side side) {
    SortedSet<Target> needs = new TreeSet<>();
    for (int i = 0; i < passes.size(); i++) {
      if ((chosen >> i & 1) == 1 && passes.get(i).quadrant().side() == side) {
        needs.addAll(passes.get(i).needs());
      }
    }
    return needs;
  }

  /** Null where the cheapest injections numb both sides, or nothing numbs all of it. */
  private Shots.@Nullable Some cheapest(int chosen) {
    SortedSet<Target> right = needs(chosen, Side.RIGHT);
    SortedSet<Target> left = needs(chosen, Side.LEFT);
    if (left.isEmpty()) {
      return of(Side.RIGHT).cheapest(right, null);
    }
    if (right.isEmpty()) {
      return of(Side.LEFT).cheapest(left, null);
    }
    // Only the shared injection can serve a second side.
    Shots.Some rightShared = of(Side.RIGHT).cheapest(right, true);
    Shots.Some leftShared = of(Side.LEFT).cheapest(left, true);
    if (rightShared == null || leftShared == null) {
      return null;
    }
    Shots.Some best =
        leftShared.shots().size() == 1
            ? rightShared
            : rightShared.shots().size() == 1 ? leftShared : null;
    Shots.Some rightAlone = of(Side.RIGHT).cheapest(right, false);
    Shots.Some leftAlone = of(Side.LEFT).cheapest(left, false);
    if (best == null || rightAlone == null || leftAlone == null) {
      return best;
    }
    List<Shot> both = new ArrayList<>(rightAlone.shots());
    both.addAll(leftAlone.shots());
    both.sort(Comparator.comparingInt(Shot::number));
    Shots.Some apart =
        new Shots.Some(
            both,
            0,
            rightAlone.cost() + leftAlone.cost(),
            rightAlone.microlitres() + leftAlone.microlitres());
    return Shots.Some.ORDER.compare(apart, best) < 0 ? null : best;
  }

  private Shots of(Side side) {
    return java.util.Objects.requireNonNull(shots.get(side));
  }

  List<Numbed> passes() {
    return passes;
  }

  /** The first gives nothing. */
  List<Cover> covers() {
    return covers;
  }

  List<Row> rows() {
    return rows;
  }
}
