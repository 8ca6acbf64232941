package quadrille.plan.exact;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.plan.visit.OrderProblem;
import quadrille.plan.visit.OrderSearch;
import quadrille.plan.visit.SetEvaluation;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.VisitEvaluator;
import quadrille.plan.visit.VisitTimeline;

/**
 * What a visit with some whole areas takes: the best order known, and how long the visit takes at
 * the least. That is told from the steps alone at first, and made tighter on demand, so that time is
 * spent only on visits that may be chosen.
 */
final class VisitPrice {
  /** No order keeps numbness: longer than any visit. */
  static final int NEVER = 1_000_000;

  // Each widens the search; the last is what is spent at the most.
  private static final int[] WIDTHS = {20, 200, 2_000, 20_000};

  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private final int units;
  private final SetEvaluation set;
  private int level;
  private int least;
  private int fewestCartridges;
  private @Nullable VisitTimeline best;

  /**
   * @param units which units it holds, as bits
   */
  VisitPrice(VisitEvaluator evaluator, int units, SetEvaluation set) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.units = units;
    this.set = set;
    this.least = NEVER;
    this.fewestCartridges = Integer.MAX_VALUE;
    int[] members = set.steps().members();
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      int end = OrderSearch.bound(OrderProblem.of(staging, members, dosing));
      least = Math.min(least, end + staging.close());
      fewestCartridges = Math.min(fewestCartridges, dosing.cartridges());
    }
  }

  private VisitPrice(VisitEvaluator evaluator, VisitTimeline stays) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.units = 0;
    this.set = stays.set();
    this.level = WIDTHS.length;
    this.least = stays.chairSeconds();
    this.fewestCartridges = stays.dosing().cartridges();
    this.best = stays;
  }

  /** A visit that stays as it is. */
  static VisitPrice fixed(VisitEvaluator evaluator, int[] order) {
    return new VisitPrice(evaluator, evaluator.layout(order));
  }

  /** The units, as bits; 0 where the visit stays as it is. */
  int units() {
    return units;
  }

  SetEvaluation set() {
    return set;
  }

  /** The best legal order known; null where none is known. */
  @Nullable VisitTimeline best() {
    return best;
  }

  /** Chair seconds at the least; {@link #NEVER} where no order keeps numbness. */
  int least() {
    return least;
  }

  /** Chair seconds of the best order known; {@link #NEVER} where none is known. */
  int most() {
    return best == null ? NEVER : best.chairSeconds();
  }

  /** Cartridges opened, at the least. */
  int fewestCartridges() {
    return fewestCartridges;
  }

  /** Whether no order ends sooner, or none is legal. */
  boolean exact() {
    return least >= most();
  }

  /** Whether a wider search may still tell more. */
  boolean refinable() {
    return !exact() && level < WIDTHS.length;
  }

  /** Seconds that must be booked for so many seconds of chair time. */
  int neededSeconds(int chairSeconds) {
    return staging.neededSeconds(chairSeconds - set.workSeconds(), set.workSeconds());
  }

  /**
   * Looks for a better order, or shows that there is none, with a wider search than before. The
   * agent is the first that the practice likes with which numbness lasts; one that may yet be shown
   * to last counts for the least.
   */
  void refine() {
    int[] members = set.steps().members();
    List<SetEvaluation.Dosing> dosings = set.dosings();
    int soonest = NEVER;
    int cartridges = Integer.MAX_VALUE;
    for (SetEvaluation.Dosing dosing : dosings) {
      boolean lasts = best != null && best.dosing().equals(dosing);
      int known = lasts ? most() - staging.close() : NEVER;
      OrderSearch.Found found =
          OrderSearch.run(OrderProblem.of(staging, members, dosing), WIDTHS[level], known);
      if (found.order() != null) {
        lasts |= take(members, found.order(), dosing);
      }
      if (found.bound() < NEVER) {
        soonest = Math.min(soonest, found.bound() + staging.close());
        cartridges = Math.min(cartridges, dosing.cartridges());
      }
      if (lasts) {
        break;
      }
    }
    level++;
    least = Math.max(least, soonest);
    fewestCartridges = cartridges == Integer.MAX_VALUE ? 0 : cartridges;
  }

  /** Takes an order if the clock likes it better; answers whether it is with that agent. */
  private boolean take(int[] members, int[] found, SetEvaluation.Dosing dosing) {
    int[] order = new int[found.length];
    for (int i = 0; i < order.length; i++) {
      order[i] = members[found[i]];
    }
    VisitTimeline layout = evaluator.layout(order);
    if (layout.wornOffSeconds() > 0) {
      return false;
    }
    if (best == null
        || !layout.dosing().equals(best.dosing())
        || layout.chairSeconds() < best.chairSeconds()) {
      best = layout;
    }
    return layout.dosing().equals(dosing);
  }

  @Override
  public String toString() {
    return Integer.toBinaryString(units) + ": " + least + " to " + most();
  }
}
