package quadrille.plan.exact;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.plan.visit.OrderProblem;
import quadrille.plan.visit.OrderSearch;
import quadrille.plan.visit.SetEvaluation;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.VisitEvaluator;
import quadrille.plan.visit.VisitTimeline;

/**
 * What a visit with some whole areas takes: the best order known, and what the visit takes and
 * costs at the least. That is told from the steps alone at first, and made tighter on demand, so
 * that time is spent only on visits that may be chosen.
 *
 * <p>The order is the one that costs least among those that fit: its time, its returns to a
 * quadrant and where it begins. So where the cheapest is too long, what {@link #within} a length is
 * cheapest is another price.
 */
final class VisitPrice {
  /** No order keeps numbness: longer than any visit. */
  static final int NEVER = OrderSearch.NEVER;

  private static final long NONE = OrderSearch.rank(NEVER, NEVER);

  // Each widens the search; the last is what is spent at the most, on a mouth as it is and not on
  // what-ifs. Of 253 generated mouths it proves the courses of six more, by one or two visits each.
  private static final int[] WIDTHS = {20, 200, 2_000, 20_000, 100_000};

  /** A visit of more steps is not proven by the widest search either. Measured. */
  private static final int MOST_STEPS = 31;

  /** How many of them are tried where any order serves. */
  private static final int ANY_WIDTHS = 3;

  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private final int units;
  private final SetEvaluation set;
  private final List<SetEvaluation.Dosing> dosings;
  private final OrderSearch.@Nullable Found[] known;
  private final int longestSeconds;
  private final Map<Integer, VisitPrice> shorter = new HashMap<>();
  private int level;
  private int least;
  private int leastCost;
  private int fewestCartridges;
  private double leastInjections;
  private @Nullable VisitTimeline best;

  /**
   * @param units which units it holds, as bits
   */
  VisitPrice(VisitEvaluator evaluator, int units, SetEvaluation set) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.units = units;
    this.set = set;
    this.longestSeconds = Integer.MAX_VALUE;
    this.least = NEVER;
    this.leastCost = NEVER;
    this.fewestCartridges = Integer.MAX_VALUE;
    this.leastInjections = Double.MAX_VALUE;
    int[] members = set.steps().members();
    List<SetEvaluation.Dosing> lasting = new ArrayList<>();
    OrderProblem problem = null;
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      problem =
          problem == null
              ? OrderProblem.of(staging, members, dosing)
              : problem.givenBy(staging, members, dosing);
      OrderSearch.Found bound = OrderSearch.bound(problem);
      int close = set.closeSeconds(staging);
      if (bound.bound() == NEVER) {
        continue;
      }
      lasting.add(dosing);
      least = Math.min(least, bound.soonest() + close);
      leastCost = Math.min(leastCost, bound.bound() + close);
      fewestCartridges = Math.min(fewestCartridges, dosing.cartridges());
      leastInjections = Math.min(leastInjections, staging.injectionPrice(dosing));
      // What the practice likes less is not given then.
      if (surelyLasts(problem, members, dosing)) {
        break;
      }
    }
    this.dosings = lasting;
    this.known = new OrderSearch.Found[dosings.size()];
  }

  /** Whether a glance meets an order in which numbness lasts. */
  private boolean surelyLasts(OrderProblem problem, int[] members, SetEvaluation.Dosing dosing) {
    if (problem.lastsByQuadrants()) {
      return true;
    }
    int[] order = OrderSearch.run(problem, 1).order();
    VisitTimeline layout =
        order == null ? null : evaluator.layoutWithin(longestSeconds, inCase(members, order));
    return layout != null && layout.wornOffSeconds() == 0 && layout.dosing().equals(dosing);
  }

  /** The same visit, so short that no more than so many seconds are booked for it. */
  private VisitPrice(VisitPrice price, VisitTimeline tooLong, int longestSeconds) {
    this.evaluator = price.evaluator;
    this.staging = price.staging;
    this.units = price.units;
    this.set = price.set;
    // An agent that is liked less is no way to a shorter visit.
    this.dosings = price.dosings.subList(0, price.dosings.indexOf(tooLong.dosing()) + 1);
    this.longestSeconds = longestSeconds;
    this.known = new OrderSearch.Found[dosings.size()];
    refine();
  }

  private VisitPrice(VisitEvaluator evaluator, VisitTimeline stays) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.units = 0;
    this.set = stays.set();
    this.dosings = List.of(stays.dosing());
    this.longestSeconds = Integer.MAX_VALUE;
    this.known = new OrderSearch.Found[0];
    this.level = WIDTHS.length;
    this.least = stays.chairSeconds();
    this.leastCost = stays.cost();
    this.fewestCartridges = stays.dosing().cartridges();
    this.leastInjections = staging.injectionPrice(stays.dosing());
    this.best = stays;
  }

  /** A visit that stays as it is. */
  static VisitPrice fixed(VisitEvaluator evaluator, int[] order) {
    return new VisitPrice(evaluator, evaluator.layout(order));
  }

  /**
   * What it takes where no more than so many seconds may be booked; it may still be too long where
   * nothing shorter is possible, or none is known.
   */
  VisitPrice within(int longestSeconds) {
    VisitTimeline known = best;
    boolean settled =
        units == 0
            || known == null
            || known.neededSeconds() <= longestSeconds
            || leastNeeded() > longestSeconds;
    return settled || known == null
        ? this
        : shorter.computeIfAbsent(longestSeconds, most -> new VisitPrice(this, known, most));
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
    return exact() ? most() : least;
  }

  /** Chair seconds and what the order costs, at the least. */
  int leastCost() {
    return leastCost;
  }

  /** Chair seconds and what the order costs, of the best order known. */
  int mostCost() {
    return best == null ? NEVER : best.cost();
  }

  /** Chair seconds of the best order known; {@link #NEVER} where none is known. */
  int most() {
    return best == null ? NEVER : best.chairSeconds();
  }

  /** Cartridges opened, at the least. */
  int fewestCartridges() {
    return fewestCartridges;
  }

  /** What the injections cost beside their time, at the least. */
  double leastInjections() {
    return leastInjections;
  }

  /** Whether nothing that may be done costs less, injections and all, or nothing is legal. */
  boolean exact() {
    return leastCost >= mostCost()
        && (best == null
            || (fewestCartridges >= best.dosing().cartridges()
                && leastInjections >= staging.injectionPrice(best.dosing())));
  }

  /**
   * Whether a wider search may still tell more.
   *
   * @param any whether it is enough to know some order
   * @param widest whether the widest search may be spent on it
   */
  boolean open(boolean any, boolean widest) {
    boolean worth = widest && set.count() <= MOST_STEPS;
    int most = any ? ANY_WIDTHS : worth ? WIDTHS.length : WIDTHS.length - 1;
    return level < most && !exact() && !(any && best != null);
  }

  /**
   * Seconds that must be booked for it, at the least; the order that costs least may need more than
   * another.
   */
  int leastNeeded() {
    return least
        - set.workSeconds()
        + dosings.stream()
            .mapToInt(SetEvaluation.Dosing::neededWorkSeconds)
            .min()
            .orElse(set.workSeconds());
  }

  /** Seconds that must be booked for the best order known. */
  int mostNeeded() {
    return best == null ? NEVER : best.neededSeconds();
  }

  private int latestEnd(SetEvaluation.Dosing dosing) {
    return longestSeconds == Integer.MAX_VALUE
        ? longestSeconds
        : staging.latestWorkEnd(set, dosing, longestSeconds);
  }

  /**
   * Looks for a better order, or shows that there is none, with a wider search than before. The
   * agent is the first that the practice likes with which numbness lasts; one that may yet be shown
   * to last counts for the least.
   */
  void refine() {
    int[] members = set.steps().members();
    // None is asked about that comes after one with which numbness is known to last.
    for (int i = 0; i < lastDosing(); i++) {
      OrderSearch.Found before = known[i];
      SetEvaluation.Dosing dosing = dosings.get(i);
      boolean lasts = best != null && best.dosing().equals(dosing);
      if (before != null && before.leastRank() >= (lasts ? rank() : NONE)) {
        continue;
      }
      OrderSearch.Found found =
          OrderSearch.run(
              OrderProblem.of(staging, members, dosing).endingBy(latestEnd(dosing)),
              WIDTHS[level],
              lasts ? rank() : NONE);
      known[i] = found;
      if (found.order() != null) {
        take(members, found.order());
      }
    }
    level++;
    tighten();
  }

  /** How many dosings may be it: those up to the one with which numbness is known to last. */
  private int lastDosing() {
    return best == null ? dosings.size() : dosings.indexOf(best.dosing()) + 1;
  }

  private void tighten() {
    int soonest = NEVER;
    int cheapest = NEVER;
    int cartridges = Integer.MAX_VALUE;
    double injections = Double.MAX_VALUE;
    for (int i = 0; i < lastDosing(); i++) {
      OrderSearch.Found one = Objects.requireNonNull(known[i]);
      if (one.bound() < NEVER) {
        soonest = Math.min(soonest, Math.min(one.soonest(), NEVER) + set.closeSeconds(staging));
        cheapest = Math.min(cheapest, one.bound() + set.closeSeconds(staging));
        cartridges = Math.min(cartridges, dosings.get(i).cartridges());
        injections = Math.min(injections, staging.injectionPrice(dosings.get(i)));
      }
    }
    least = Math.max(least, Math.min(soonest, most()));
    leastCost = Math.max(leastCost, cheapest);
    fewestCartridges = cartridges == Integer.MAX_VALUE ? 0 : cartridges;
    leastInjections = injections == Double.MAX_VALUE ? 0 : injections;
  }

  private long rank() {
    return OrderSearch.rank(
        mostCost() - set.closeSeconds(staging), most() - set.closeSeconds(staging));
  }

  /** Takes an order if it serves by the clock too, and better than the one known. */
  private void take(int[] members, int[] found) {
    VisitTimeline layout = evaluator.layoutWithin(longestSeconds, inCase(members, found));
    boolean serves =
        layout.wornOffSeconds() == 0
            && layout.neededSeconds() <= longestSeconds
            && dosings.contains(layout.dosing());
    if (serves
        && (best == null
            || !layout.dosing().equals(best.dosing())
            || OrderSearch.rank(layout.cost(), layout.chairSeconds())
                < OrderSearch.rank(best.cost(), best.chairSeconds()))) {
      best = layout;
    }
  }

  private static int[] inCase(int[] members, int[] found) {
    return Arrays.stream(found).map(place -> members[place]).toArray();
  }

  @Override
  public String toString() {
    return Integer.toBinaryString(units) + ": " + leastCost + " to " + mostCost();
  }
}
