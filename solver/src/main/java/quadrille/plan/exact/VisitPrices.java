package quadrille.plan.exact;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Side;
import quadrille.plan.visit.OrderProblem;
import quadrille.plan.visit.SetEvaluation;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitEvaluator;

/**
 * Every set of units that one visit can hold, priced once. Sets grow unit by unit; one is given up,
 * with all that hold it, where more units cannot mend it: too much work for the longest visit, too
 * many inserts for a kit, work on both sides that binds to a numb side.
 */
final class VisitPrices {
  /** More sets than this are not gone through. */
  private static final int MOST_SETS = 3_000;

  /**
   * Where there are more units than this, choosing among sets takes so long that all of them are
   * priced first.
   */
  private static final int FEW_UNITS = 14;

  /** More units than this are not gone through. */
  private static final int MOST_UNITS = 18;

  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private final List<StepSet> units;
  private final int longestSeconds;
  private final int mostInserts;
  private final List<VisitPrice> prices = new ArrayList<>();
  private final int[] fixed;
  private final int[] working;
  private final long[] inserts;
  private final int[] sides;
  private final Map<Integer, VisitPrice> known;
  private boolean tooMany;

  private VisitPrices(
      VisitEvaluator evaluator, int longestSeconds, Map<Integer, VisitPrice> known) {
    this.known = known;
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.units = staging.freeUnits();
    this.longestSeconds = longestSeconds;
    this.mostInserts = staging.practice().appointments().kitHolds().asInt();
    int n = units.size();
    this.fixed = new int[n];
    this.working = new int[n];
    this.inserts = new long[n];
    this.sides = new int[n];
    for (int u = 0; u < n; u++) {
      for (int index : units.get(u).members()) {
        StepFact fact = staging.steps().get(index);
        fixed[u] += staging.besideSeconds(fact);
        working[u] += fact.step().seconds();
        inserts[u] |= 1L << staging.insertIndex(fact);
        if (staging.bindsSide(fact)) {
          sides[u] |= fact.step().area().quadrant().side() == Side.RIGHT ? 1 : 2;
        }
      }
    }
  }

  /**
   * All legal sets, in a fixed order; null where they are too many.
   *
   * @param longestSeconds the longest visit on offer, in seconds that may be booked
   * @param known sets of the same units that are priced already, by their units
   */
  static @Nullable List<VisitPrice> of(
      VisitEvaluator evaluator, int longestSeconds, Map<Integer, VisitPrice> known) {
    VisitPrices prices = new VisitPrices(evaluator, longestSeconds, known);
    if (prices.units.size() > MOST_UNITS) {
      return null;
    }
    int empty = prices.staging.setUp() + prices.staging.close();
    prices.grow(0, 0, StepSet.EMPTY, empty, 0, 0, 0);
    return prices.tooMany ? null : List.copyOf(prices.prices);
  }

  private void grow(
      int from, int held, StepSet steps, int fixedSoFar, int workSoFar, long kit, int numb) {
    for (int u = from; u < units.size() && !tooMany; u++) {
      int fixedHere = fixedSoFar + fixed[u];
      int work = workSoFar + working[u];
      long used = kit | inserts[u];
      int bound = numb | sides[u];
      boolean oneSide = staging.practice().appointments().oneNumbSide();
      if (staging.neededSeconds(fixedHere, work) > longestSeconds
          || Long.bitCount(used) > mostInserts
          || (oneSide && bound == 3)) {
        continue;
      }
      StepSet all = steps.union(units.get(u));
      add(held | 1 << u, all);
      grow(u + 1, held | 1 << u, all, fixedHere, work, used, bound);
    }
  }

  private void add(int held, StepSet steps) {
    VisitPrice before = known.get(held);
    if (before != null) {
      tooMany |= prices.size() == MOST_SETS;
      prices.add(before);
      return;
    }
    SetEvaluation set = evaluator.set(steps);
    if (set.hopeless(staging)
        || set.wrongInsert() > 0
        || set.dosings().get(0).unnumbable() > 0
        || set.dosings().get(0).excess() > 0) {
      return;
    }
    tooMany |= prices.size() == MOST_SETS || set.count() > OrderProblem.MOST;
    if (!tooMany) {
      VisitPrice price = new VisitPrice(evaluator, held, set);
      if (units.size() > FEW_UNITS) {
        price.refine();
      }
      if (price.leastNeeded() <= longestSeconds) {
        prices.add(price);
      }
    }
  }
}
