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

  /** More sets than this are not looked at, of which most are too long with their injections. */
  private static final int MOST_LOOKED_AT = 10 * MOST_SETS;

  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private final List<StepSet> units;
  private final int longestSeconds;
  private final int mostInserts;
  private final int visits;
  private final List<Grown> grown = new ArrayList<>();
  private final List<VisitPrice> prices = new ArrayList<>();
  private final int[] fixed;
  private final int[] working;
  private final long[] inserts;
  private final int[] sides;
  private final Map<Integer, VisitPrice> known;
  private boolean tooMany;

  /** A set that may do, as far as can be told without its injections. */
  private record Grown(int held, StepSet steps) {}

  private VisitPrices(
      VisitEvaluator evaluator, int longestSeconds, int visits, Map<Integer, VisitPrice> known) {
    this.visits = visits;
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
   * @param visits sets are left out that no course of so many visits, or fewer, can have
   * @param known sets of the same units that are priced already, by their units
   */
  static @Nullable List<VisitPrice> of(
      VisitEvaluator evaluator, int longestSeconds, int visits, Map<Integer, VisitPrice> known) {
    VisitPrices prices = new VisitPrices(evaluator, longestSeconds, visits, known);
    if (prices.units.size() > MOST_UNITS) {
      return null;
    }
    int empty = prices.staging.setUp() + prices.staging.close();
    prices.grow(0, 0, StepSet.EMPTY, empty, 0, 0, 0);
    prices.price();
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
      int changes = all.size() > OrderProblem.MOST ? 0 : evaluator.leastChanges(all);
      if (staging.neededSeconds(fixedHere + changes, work) > longestSeconds) {
        continue;
      }
      tooMany |= grown.size() == MOST_LOOKED_AT;
      grown.add(new Grown(held | 1 << u, all));
      grow(u + 1, held | 1 << u, all, fixedHere, work, used, bound);
    }
  }

  private void price() {
    int full = (1 << units.size()) - 1;
    boolean[] rest = visits < units.size() && units.size() <= FEW_UNITS ? dealt(full) : null;
    for (Grown one : grown) {
      if (!tooMany && (rest == null || rest[full & ~one.held()])) {
        add(one.held(), one.steps());
      }
    }
  }

  /** Which units can be dealt to one visit less than there are. */
  private boolean[] dealt(int full) {
    boolean[] dealt = new boolean[full + 1];
    dealt[0] = true;
    for (int visit = 1; visit < visits; visit++) {
      boolean[] more = dealt.clone();
      for (Grown one : grown) {
        int others = full & ~one.held();
        for (int before = others; before != 0; before = (before - 1) & others) {
          more[before | one.held()] |= dealt[before];
        }
        more[one.held()] = true;
      }
      dealt = more;
    }
    return dealt;
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
