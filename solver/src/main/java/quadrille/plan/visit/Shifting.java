package quadrille.plan.visit;

/**
 * Improves an order of steps by shifting runs of steps to other places in the visit, as long as the
 * visit costs less or keeps more rules. It mends what the narrow search of a {@link Sequencer}
 * misses.
 */
final class Shifting {
  private static final int LONGEST_RUN = 6;

  /** Shifts run through the clock in vain before the order is let be. */
  private static final int HOPES = 400;

  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private int[] order;
  private VisitTimeline layout;

  private Shifting(VisitEvaluator evaluator, int[] order) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.order = order;
    this.layout = evaluator.layout(order);
  }

  static int[] improve(VisitEvaluator evaluator, int[] order) {
    Shifting shifting = new Shifting(evaluator, order);
    while (shifting.improveOnce()) {
      // Until no shift helps.
    }
    return shifting.order;
  }

  private boolean improveOnce() {
    int n = order.length;
    int hopes = HOPES;
    for (int run = 1; run <= Math.min(LONGEST_RUN, n - 1); run++) {
      for (int from = 0; from + run <= n; from++) {
        // A run that goes back over some steps is those steps going forward over the run.
        for (int to = from + run + 1; to <= n; to++) {
          if (!mayPass(from, from + run, to)) {
            break;
          }
          int[] other = swapped(from, from + run, to);
          if (worthTrying(other, from, from + run, to)) {
            if (take(other)) {
              return true;
            }
            if (--hopes == 0) {
              return false;
            }
          }
        }
      }
    }
    return false;
  }

  /** Whether the last step of the stretch may come before the whole run. */
  private boolean mayPass(int from, int middle, int to) {
    StepFact passed = staging.steps().get(order[to - 1]);
    for (int i = from; i < middle; i++) {
      if (staging.mustPrecede(staging.steps().get(order[i]), passed)) {
        return false;
      }
    }
    return true;
  }

  /**
   * Whether the shift could help even if nobody had to wait, and no needle cost more, afterwards.
   */
  private boolean worthTrying(int[] other, int from, int middle, int to) {
    int before = change(from - 1, from) + change(middle - 1, middle) + change(to - 1, to);
    int after = change(from - 1, middle) + change(to - 1, from) + change(middle - 1, to);
    int dearer =
        staging.returnSeconds() * (staging.returns(other) - layout.returns())
            + staging.worstFirstSeconds(other[0], other)
            - staging.worstFirstSeconds(order[0], order);
    return after - before + dearer < layout.waitSeconds() + layout.givingSeconds()
        || layout.wornOffSeconds() > 0;
  }

  private int change(int from, int to) {
    return from < 0 || to >= order.length ? 0 : staging.change(order[from], order[to]);
  }

  private int[] swapped(int from, int middle, int to) {
    int[] other = order.clone();
    System.arraycopy(order, middle, other, from, to - middle);
    System.arraycopy(order, from, other, from + to - middle, middle - from);
    return other;
  }

  private boolean take(int[] other) {
    if (!evaluator.improves(other, layout)) {
      return false;
    }
    VisitTimeline shifted = evaluator.layout(other);
    boolean better =
        shifted.broken() < layout.broken()
            || (shifted.broken() == layout.broken() && shifted.cost() < layout.cost());
    if (better) {
      order = other;
      layout = shifted;
    }
    return better;
  }
}
