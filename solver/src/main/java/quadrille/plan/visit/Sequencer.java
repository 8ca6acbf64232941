package quadrille.plan.visit;

import java.util.HashMap;
import java.util.Map;
import java.util.Objects;

/**
 * Finds a good order for the steps of one visit: that of a narrow {@link OrderSearch}, bettered by
 * shifting runs of steps where it was not proven.
 */
public final class Sequencer {
  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private final int width;
  private final Map<StepSet, Sequence> known = new HashMap<>();
  private final Map<Framed, Sequence> framed = new HashMap<>();

  private record Framed(StepSet steps, int frameSeconds) {}

  /**
   * An order of steps.
   *
   * @param exact whether no order costs less
   */
  public record Sequence(int[] order, boolean exact) {}

  /**
   * @param width how many partial visits of each length are kept, 1 or more
   */
  public Sequencer(VisitEvaluator evaluator, int width) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.width = width;
  }

  /** A good order for the steps; remembered. */
  public Sequence sequence(StepSet steps) {
    Sequence sequence = known.get(steps);
    if (sequence == null) {
      sequence = search(steps, 0);
      known.put(steps, sequence);
    }
    return sequence;
  }

  /**
   * A good order for the steps; remembered.
   *
   * @param frameSeconds the visit's frame beyond what every visit has
   */
  public Sequence sequence(StepSet steps, int frameSeconds) {
    Sequence sequence = sequence(steps);
    SetEvaluation set = evaluator.set(steps);
    if (frameSeconds == 0 || set.count() > OrderProblem.MOST || set.hopeless(staging)) {
      return sequence;
    }
    VisitTimeline plain = evaluator.layout(sequence.order());
    boolean fits =
        plain.broken() > 0 || plain.neededSeconds() + frameSeconds <= staging.longestSeconds();
    if (fits) {
      return sequence;
    }
    Framed key = new Framed(steps, frameSeconds);
    Sequence shorter = framed.get(key);
    if (shorter == null) {
      shorter = search(steps, frameSeconds);
      framed.put(key, shorter);
    }
    return shorter;
  }

  private Sequence search(StepSet steps, int frameSeconds) {
    int[] members = steps.members();
    if (members.length == 0) {
      return new Sequence(members, true);
    }
    if (members.length > OrderProblem.MOST) {
      return new Sequence(members, false);
    }
    SetEvaluation set = evaluator.set(steps);
    if (set.hopeless(staging)) {
      return shortest(members, set, 1);
    }
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      OrderSearch.Found found = inTime(members, set, dosing, frameSeconds);
      if (found.order() != null) {
        int[] order = inCase(members, found.order());
        return found.exact()
            ? new Sequence(order, true)
            : new Sequence(Shifting.improve(evaluator.withFrame(frameSeconds), order), false);
      }
    }
    // Numbness lasts for no order that was met: the shortest visit then, and the rule book will say
    // so.
    return new Sequence(Shifting.improve(evaluator, shortest(members, set, width).order()), false);
  }

  /** The best order that fits the longest visit; where none is met that does, the best of all. */
  private OrderSearch.Found inTime(
      int[] members, SetEvaluation set, SetEvaluation.Dosing dosing, int frameSeconds) {
    OrderSearch.Found found = found(members, dosing, true, width);
    int latest = staging.latestWorkEnd(set, dosing, staging.longestSeconds()) - frameSeconds;
    if (found.order() == null || found.end() <= latest || found.soonest() > latest) {
      return found;
    }
    OrderSearch.Found inTime =
        OrderSearch.run(
            OrderProblem.of(staging, members, dosing, true, width > 1).endingBy(latest), width);
    return inTime.order() == null ? found : inTime;
  }

  private Sequence shortest(int[] members, SetEvaluation set, int kept) {
    OrderSearch.Found found = found(members, set.dosings().get(0), false, kept);
    return new Sequence(inCase(members, Objects.requireNonNull(found.order())), false);
  }

  private OrderSearch.Found found(
      int[] members, SetEvaluation.Dosing dosing, boolean lasting, int kept) {
    return OrderSearch.run(OrderProblem.of(staging, members, dosing, lasting, kept > 1), kept);
  }

  private static int[] inCase(int[] members, int[] order) {
    int[] steps = new int[order.length];
    for (int i = 0; i < order.length; i++) {
      steps[i] = members[order[i]];
    }
    return steps;
  }
}
