package quadrille.plan.bound;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Weights;
import quadrille.plan.visit.Block;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;

/**
 * Lagrangian relaxation with subgradient steps (Held and Karp, "The traveling-salesman problem and
 * minimum spanning trees: part II", 1971; Fisher, "The Lagrangian relaxation method for solving
 * integer programming problems", 1981): a bound by prices. Whatever price each block is given, a
 * legal course costs no less than
 *
 * <ul>
 *   <li>the sum of the prices, as each block is in exactly one visit, and
 *   <li>for each visit, the least that any visit costs which is paid the price of every block that
 *       it holds ({@link VisitPricing}),
 * </ul>
 *
 * since the prices that the visits of the course are paid add up to the first sum. This holds for
 * any prices; rounds of better prices only raise the bound: a block that too many visits would take
 * gets cheaper, one that none would take gets dearer.
 *
 * <p>Two kinds of rule that tie visits together are priced as well. An area's next pass in an early
 * visit is charged, and its pass before is paid, as much: where the pass before comes no later, as
 * H5 asks, the course pays nothing or gains. And the longest visit is at least any average of all
 * visits, whatever the weights, so the balance of a course is at least such an average less the
 * mean.
 */
final class PricedBound {
  private static final int ROUNDS = 150;

  /** Branches after which no further round begins. */
  private static final long BRANCHES = 500_000;

  /** Rounds without a better bound before smaller steps are taken, from the best prices. */
  private static final int PATIENCE = 6;

  private static final double SHRINK = 0.5;

  /** A first step aims to raise the bound by this share. */
  private static final double AIM = 0.03;

  /** How much of the last round's direction is kept, which dampens zigzags. */
  private static final double KEPT = 0.6;

  // Seconds that count as much as one block too many.
  private static final double BOOKED_SCALE = 2000;
  private static final double CHAIR_SCALE = 6000;

  private final StagingCase staging;
  private final int visits;
  private final VisitPricing pricing;
  private final List<int[]> passes = new ArrayList<>();
  private final double balance;
  private final double constant;
  private final double rounding;

  // Prices, all in one row: blocks; then passes by visit; then booked seconds; then shares.
  private final int blocks;
  private final int passesFrom;
  private final int bookedFrom;
  private final int sharesFrom;
  private final int all;

  private PricedBound(StagingCase staging) {
    this.staging = staging;
    this.visits = staging.visits();
    this.pricing = new VisitPricing(staging);
    for (Block block : staging.blocks()) {
      Block next = next(block);
      if (next != null) {
        passes.add(new int[] {block.index(), next.index()});
      }
    }
    Weights weights = staging.practice().weights();
    // A balance that counts more than the time itself is taken for no more.
    this.balance = Math.min(visits, weights.balance().value());
    long fineQuadrants =
        staging.blocks().stream()
            .filter(block -> block.pass() == Pass.FINE)
            .map(block -> block.area().quadrant())
            .distinct()
            .count();
    // The balance may take back as much of what the frames add as it weighs on the mean.
    this.constant =
        staging.frameSeconds() * (1 - balance / visits)
            - weights.splitQuadrant().value() * fineQuadrants;
    // Terms are rounded to whole seconds.
    this.rounding =
        (visits > 1 && balance > 0 ? 0.5 : 0)
            + half(weights.splitQuadrant().value())
            + half(staging.injectionWeight())
            + half(staging.blockPrice())
            + half(weights.cartridge().value());
    this.blocks = staging.blocks().size();
    this.passesFrom = blocks;
    this.bookedFrom = passesFrom + passes.size() * visits;
    this.sharesFrom = bookedFrom + visits;
    this.all = sharesFrom + visits;
  }

  /** A bound in whole seconds; 0 where the case is too large to say one. */
  static long of(StagingCase staging) {
    return VisitPricing.canPrice(staging) ? new PricedBound(staging).best() : 0;
  }

  private static double half(double weight) {
    return weight == Math.rint(weight) ? 0 : 0.5;
  }

  /** The block of the area's next pass, if it has one. */
  private @Nullable Block next(Block block) {
    Block next = null;
    for (Block other : staging.blocks()) {
      boolean later =
          other.areaIndex() == block.areaIndex()
              && block.pass() != Pass.IMPLANT_CARE
              && other.pass() != Pass.IMPLANT_CARE
              && block.pass().compareTo(other.pass()) < 0;
      if (later && (next == null || other.pass().compareTo(next.pass()) < 0)) {
        next = other;
      }
    }
    return next;
  }

  private long best() {
    double[] prices = first();
    double[] bestPrices = prices;
    double best = Double.NEGATIVE_INFINITY;
    double[] direction = new double[all];
    double step = 1;
    int inVain = 0;
    for (int round = 0; round < ROUNDS && pricing.branches() <= BRANCHES; round++) {
      double[] wish = new double[all];
      double bound = bound(prices, wish);
      if (bound == Double.POSITIVE_INFINITY) {
        return 0;
      }
      inVain = bound > best + 1e-5 * Math.abs(best) ? 0 : inVain + 1;
      if (bound > best) {
        best = bound;
        bestPrices = prices;
      }
      if (inVain >= PATIENCE) {
        inVain = 0;
        step *= SHRINK;
        prices = bestPrices;
      }
      double square = 0;
      for (int i = 0; i < all; i++) {
        direction[i] = KEPT * direction[i] + (1 - KEPT) * wish[i];
        if (i >= passesFrom && i < sharesFrom && prices[i] <= 0 && direction[i] < 0) {
          direction[i] = 0;
        }
        square += direction[i] * direction[i];
      }
      if (square < 1e-12) {
        break;
      }
      prices = stepped(prices, direction, step * AIM * Math.abs(best) / square);
    }
    return (long) Math.ceil(best - rounding - 1e-3);
  }

  /** Each block's own time, for a start. */
  private double[] first() {
    double[] prices = new double[all];
    for (QuadrantParts parts : pricing.quadrants()) {
      for (int i = 0; i < parts.blocks.length; i++) {
        prices[parts.blocks[i]] = parts.chair[1 << i] + parts.cover[1 << i];
      }
    }
    Arrays.fill(prices, sharesFrom, all, 1.0 / visits);
    return prices;
  }

  private double[] stepped(double[] prices, double[] direction, double step) {
    double[] next = new double[all];
    for (int i = 0; i < all; i++) {
      double scale = i < bookedFrom ? 1 : i < sharesFrom ? BOOKED_SCALE : CHAIR_SCALE;
      next[i] = prices[i] + step * direction[i] / scale;
      if (i >= passesFrom && i < sharesFrom) {
        next[i] = Math.max(0, next[i]);
      }
    }
    toShares(next);
    return next;
  }

  /** Moves the shares to the nearest ones that are 0 or more and add up to 1. */
  private void toShares(double[] prices) {
    double[] sorted = Arrays.copyOfRange(prices, sharesFrom, all);
    Arrays.sort(sorted);
    double sum = 0;
    double less = 0;
    for (int count = 1; count <= visits; count++) {
      double share = sorted[visits - count];
      sum += share;
      double excess = (sum - 1) / count;
      if (share > excess) {
        less = excess;
      }
    }
    for (int i = sharesFrom; i < all; i++) {
      prices[i] = Math.max(0, prices[i] - less);
    }
  }

  /**
   * The bound for some prices.
   *
   * @param wish takes for each price which way it should go
   */
  private double bound(double[] prices, double[] wish) {
    double bound = constant;
    for (int b = 0; b < blocks; b++) {
      bound += prices[b];
      wish[b] = 1;
    }
    double chair = 0;
    for (int visit = 0; visit < visits; visit++) {
      double perSecond = 1 - balance / visits + balance * share(prices, visit);
      double cheapest =
          pricing.cheapest(costs(prices, visit), visit == 0, perSecond, prices[bookedFrom + visit]);
      if (cheapest == Double.POSITIVE_INFINITY) {
        return cheapest;
      }
      bound += cheapest;
      StepSet held = pricing.blocks();
      for (int b : held.members()) {
        wish[b]--;
      }
      for (int p = 0; p < passes.size(); p++) {
        int late = (held.has(passes.get(p)[1]) ? 1 : 0) - (held.has(passes.get(p)[0]) ? 1 : 0);
        for (int until = visit; until < visits - 1; until++) {
          wish[passesFrom + p * visits + until] += late;
        }
      }
      wish[bookedFrom + visit] = pricing.secondsTooLong() / BOOKED_SCALE;
      wish[sharesFrom + visit] = balance * pricing.chairSeconds() / CHAIR_SCALE;
      chair += pricing.chairSeconds();
    }
    for (int visit = 0; visit < visits; visit++) {
      wish[sharesFrom + visit] -= balance * chair / visits / CHAIR_SCALE;
    }
    return bound;
  }

  private double share(double[] prices, int visit) {
    return prices[sharesFrom + visit];
  }

  private double[] costs(double[] prices, int visit) {
    double[] costs = new double[blocks];
    for (Block block : staging.blocks()) {
      costs[block.index()] = -prices[block.index()];
      if (block.pass() == Pass.FINE) {
        costs[block.index()] += staging.lateCost(1L << block.areaIndex(), visit);
      }
    }
    for (int p = 0; p < passes.size(); p++) {
      double charge = 0;
      for (int until = visit; until < visits - 1; until++) {
        charge += prices[passesFrom + p * visits + until];
      }
      costs[passes.get(p)[0]] -= charge;
      costs[passes.get(p)[1]] += charge;
    }
    return costs;
  }
}
