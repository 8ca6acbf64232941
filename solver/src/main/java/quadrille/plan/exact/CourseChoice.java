package quadrille.plan.exact;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Weights;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.VisitTimeline;

/**
 * The dynamic programme over subsets for the set partitioning problem (Held and Karp, "A dynamic
 * programming approach to sequencing problems", 1962; for set partitioning, Balas and Padberg, "Set
 * partitioning: a survey", 1976): deals units to visits so that the course costs least, each visit
 * one of the sets that were priced.
 *
 * <p>All terms of the cost add up over visits, but for the longest visit. So the cheapest course is
 * sought for visits of any length, then among shorter ones than its longest, as long as that can
 * still cost less.
 */
final class CourseChoice {
  private static final double NEVER = 1e15;

  private final StagingCase staging;
  private final List<Position> positions;
  private final Weights weights;
  private final double balance;
  private final int full;
  private final boolean atLeast;
  private final long[] unitAreas;
  private final List<List<VisitPrice>> open = new ArrayList<>();
  private final List<double[]> costs = new ArrayList<>();

  /**
   * A visit of the course.
   *
   * @param visit its place, 0, 1, 2 …
   * @param longest seconds that may be booked for it at the most
   * @param frame seconds of its frame beyond what every visit has
   * @param sets what it may hold; one set without units where it stays as it is
   */
  record Position(int visit, int longest, int frame, List<VisitPrice> sets) {}

  /**
   * A course chosen.
   *
   * @param seconds its cost, before the balance is rounded and less what a quadrant's first visit
   *     does not cost
   * @param visits its visits, in order
   */
  record Chosen(double seconds, List<VisitPrice> visits) {}

  private CourseChoice(StagingCase staging, int full, List<Position> positions, boolean atLeast) {
    this.staging = staging;
    this.positions = positions;
    this.weights = staging.practice().weights();
    // A single visit is as long as the mean.
    this.balance = positions.size() > 1 ? weights.balance().value() : 0;
    this.full = full;
    this.atLeast = atLeast;
    this.unitAreas = staging.freeUnits().stream().mapToLong(staging::areasOf).toArray();
    for (Position position : positions) {
      List<VisitPrice> sets = new ArrayList<>();
      for (VisitPrice any : position.sets()) {
        VisitPrice price = any.within(position.longest() - position.frame());
        // A visit that stays as it is must fit too: another practice's minutes may be longer.
        if (chair(price) < VisitPrice.NEVER
            && needed(price) + position.frame() <= position.longest()) {
          sets.add(price);
        }
      }
      open.add(sets);
      double frame = position.frame() * (1 - balance / positions.size());
      costs.add(
          sets.stream().mapToDouble(price -> frame + cost(price, position.visit())).toArray());
    }
  }

  /**
   * The cheapest course; null where there is none.
   *
   * @param full all units, as bits
   * @param positions every visit of the course, in order
   * @param atLeast whether visits take what they take at the least, and not what is known to do
   */
  static @Nullable Chosen best(
      StagingCase staging, int full, List<Position> positions, boolean atLeast) {
    return new CourseChoice(staging, full, positions, atLeast).best();
  }

  private int chair(VisitPrice price) {
    return atLeast ? price.least() : price.most();
  }

  /** Chair seconds as they are weighed: where little is known, all that the visit costs. */
  private int time(VisitPrice price) {
    return atLeast && !price.exact() ? price.leastCost() : price.most();
  }

  /** What the order costs beside them. */
  private int order(VisitPrice price) {
    return atLeast && !price.exact() ? 0 : price.mostCost() - price.most();
  }

  private int needed(VisitPrice price) {
    return atLeast ? price.leastNeeded() : price.mostNeeded();
  }

  /** Cost of a visit but for how far the longest one lies above the mean. */
  private double cost(VisitPrice price, int visit) {
    VisitTimeline known = atLeast ? null : price.best();
    int cartridges = known == null ? price.fewestCartridges() : known.dosing().cartridges();
    double injections =
        known == null ? price.leastInjections() : staging.injectionPrice(known.dosing());
    long unkept = staging.wishes().costAlone(visit, price.set().areas());
    long late = staging.lateCost(price.set().areasByPass()[Pass.FINE.ordinal()], visit);
    return time(price) * (1 - balance / positions.size())
        + order(price)
        + weights.splitQuadrant().value() * price.set().quadrantsWithFine()
        + late
        + unkept
        + injections
        + staging.visitPrice()
        + weights.cartridge().value() * cartridges;
  }

  private @Nullable Chosen best() {
    Chosen best = null;
    int shorterThan = Integer.MAX_VALUE;
    int shortest = shortest();
    while (true) {
      Chosen chosen = additive(shorterThan);
      if (chosen == null) {
        return best;
      }
      int longest = 0;
      for (int k = 0; k < positions.size(); k++) {
        longest = Math.max(longest, chair(chosen.visits().get(k)) + positions.get(k).frame());
      }
      double seconds = chosen.seconds() + balance * longest;
      if (best == null || seconds < best.seconds()) {
        best = new Chosen(seconds, chosen.visits());
      }
      if (balance == 0 || chosen.seconds() + balance * shortest >= best.seconds()) {
        return best;
      }
      shorterThan = longest;
    }
  }

  /** No course's longest visit is shorter: each unit is in some visit. */
  private int shortest() {
    int shortest = 0;
    for (int rest = full; rest != 0; rest &= rest - 1) {
      int unit = Integer.lowestOneBit(rest);
      int least = VisitPrice.NEVER;
      for (int k = 0; k < open.size(); k++) {
        for (VisitPrice price : open.get(k)) {
          if ((price.units() & unit) != 0) {
            least = Math.min(least, chair(price) + positions.get(k).frame());
          }
        }
      }
      shortest = Math.max(shortest, least);
    }
    return shortest;
  }

  /** The areas of the first visits, where some units are done in them, as bits. */
  private long areas(int visits, int done) {
    long areas = 0;
    for (int k = 0; k < visits; k++) {
      if (staging.standing().slot(k).pinned() != null) {
        areas |= positions.get(k).sets().stream().mapToLong(p -> p.set().areas()).sum();
      }
    }
    for (int rest = done; rest != 0; rest &= rest - 1) {
      areas |= unitAreas[Integer.numberOfTrailingZeros(rest)];
    }
    return areas;
  }

  /** The cheapest course of visits that are each shorter than a limit, balance left out. */
  private @Nullable Chosen additive(int shorterThan) {
    int visits = positions.size();
    double[][] cost = new double[visits + 1][full + 1];
    int[][] taken = new int[visits + 1][full + 1];
    for (double[] row : cost) {
      Arrays.fill(row, NEVER);
    }
    cost[0][0] = staging.wishes().fixedCost();
    boolean hanging = staging.wishes().hangsOnEarlier();
    for (int k = 0; k < visits; k++) {
      List<VisitPrice> sets = open.get(k);
      for (int s = 0; s < sets.size(); s++) {
        VisitPrice price = sets.get(s);
        if (chair(price) + positions.get(k).frame() >= shorterThan) {
          continue;
        }
        // All that is done before is what the set does not hold.
        int others = full & ~price.units();
        double own = costs.get(k)[s];
        for (int done = others; ; done = (done - 1) & others) {
          double sum = cost[k][done] + own;
          if (hanging && sum < NEVER) {
            sum += staging.wishes().costAfter(price.set().areas(), areas(k, done));
          }
          if (sum < cost[k + 1][done | price.units()]) {
            cost[k + 1][done | price.units()] = sum;
            taken[k + 1][done | price.units()] = s;
          }
          if (done == 0) {
            break;
          }
        }
      }
    }
    if (cost[visits][full] >= NEVER) {
      return null;
    }
    List<VisitPrice> chosen = new ArrayList<>();
    int done = full;
    for (int k = visits; k > 0; k--) {
      VisitPrice price = open.get(k - 1).get(taken[k][done]);
      chosen.add(0, price);
      done &= ~price.units();
    }
    return new Chosen(cost[visits][full], List.copyOf(chosen));
  }
}
