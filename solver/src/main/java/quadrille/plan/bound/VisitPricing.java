package quadrille.plan.bound;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.plan.anaesthesia.InjectionCover;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitEvaluator;

/**
 * Branch and bound (Land and Doig, "An automatic method of solving discrete programming problems",
 * 1960) for the pricing problem of a visit: finds what a visit costs at the least when each block
 * put into it has a price: the least over every set of blocks that could be a legal visit, and over
 * some that could not, since only some rules are looked at (one numb side, length, kit, no overdose
 * in one quadrant, the quadrant of the complaint).
 *
 * <p>A visit is one part of each quadrant ({@link QuadrantParts}), together with the changes of
 * inserts that the parts share. Parts are chosen quadrant by quadrant, depth first; a branch is
 * dropped when it costs, with the cheapest walk and parts that may follow, no less than what is
 * known. Whole visits are then reckoned with what does not add up over quadrants: whole cartridges,
 * and waiting.
 *
 * <p><b>Waiting.</b> No step that waits for numbness begins before the first injection of the visit
 * could have been given and have taken. From then on all such steps, and the changeovers between
 * them, are still to come.
 */
final class VisitPricing {

  /** So many branches are looked into for one visit; beyond, a weaker answer is given. */
  private static final int BRANCHES = 20_000;

  /** Visits remembered, as good ones under other prices. */
  private static final int REMEMBERED = 60;

  private static final double NEVER = 1e15;
  private static final double SLACK = 1e-9;

  private final StagingCase staging;
  private final InsertWalks walks;
  private final List<QuadrantParts> quadrants = new ArrayList<>();
  private final double cartridge;
  private final double cartridgeMl;
  private final double base;
  private final boolean[] kitHolds;
  private final double[][] value;
  private final Deque<int[]> remembered = new ArrayDeque<>();

  private double perSecond;
  private double perSecondBooked;
  private @Nullable Quadrant wanted;
  private double[][] rest = new double[0][];
  private int[] order = new int[0];
  private int numbSide;
  private double top;
  private final int[] topParts;
  private double topChair;
  private double topBooked;
  private int branches;
  private long allBranches;

  /** Whether a case is of a size, and its practice of a kind, that this can deal with. */
  static boolean canPrice(StagingCase staging) {
    boolean sided =
        staging.practice().injections().values().stream()
            .noneMatch(injection -> injection.bothSides() && injection.perTooth());
    for (Quadrant quadrant : Quadrant.values()) {
      long blocks =
          staging.blocks().stream().filter(block -> block.area().quadrant() == quadrant).count();
      sided &= blocks <= QuadrantParts.MOST;
    }
    return sided && new InsertWalks(staging).inserts() <= InsertWalks.MOST;
  }

  VisitPricing(StagingCase staging) {
    this.staging = staging;
    this.walks = new InsertWalks(staging);
    SharedInjections sharing = new SharedInjections(staging);
    VisitEvaluator evaluator = new VisitEvaluator(staging);
    InjectionCover covers = new InjectionCover(staging.practice(), staging.patient());
    for (Quadrant quadrant : Quadrant.values()) {
      QuadrantParts parts = new QuadrantParts(staging, quadrant, walks, evaluator, covers, sharing);
      if (parts.blocks.length > 0) {
        quadrants.add(parts);
      }
    }
    this.cartridge = staging.practice().weights().cartridge().value();
    this.cartridgeMl = sharing.cartridgeMl();
    // The first entry of a visit is free.
    this.base = staging.setUp() + staging.close() - walks.move();
    int sets = 1 << walks.inserts();
    this.kitHolds = new boolean[sets];
    int most = staging.practice().appointments().kitHolds().asInt();
    for (int set = 0; set < sets; set++) {
      kitHolds[set] = Integer.bitCount(set) <= most;
    }
    this.value = new double[quadrants.size()][];
    for (int q = 0; q < value.length; q++) {
      value[q] = new double[quadrants.get(q).size()];
    }
    this.topParts = new int[quadrants.size()];
  }

  List<QuadrantParts> quadrants() {
    return quadrants;
  }

  /** Blocks that the cheapest visit holds, as a set of block indexes. */
  StepSet blocks() {
    StepSet blocks = StepSet.EMPTY;
    for (int q = 0; q < topParts.length; q++) {
      for (int i = 0; i < quadrants.get(q).blocks.length; i++) {
        if ((topParts[q] >>> i & 1) != 0) {
          blocks = blocks.with(quadrants.get(q).blocks[i]);
        }
      }
    }
    return blocks;
  }

  /** Chair seconds of the cheapest visit, at the least. */
  double chairSeconds() {
    return topChair;
  }

  /** Seconds that must be booked for it beyond the longest visit; negative where it fits. */
  double secondsTooLong() {
    return topBooked - staging.longestSeconds();
  }

  /** Branches looked into so far, over all visits. */
  long branches() {
    return allBranches;
  }

  /**
   * What the visit costs at the least; {@link Double#POSITIVE_INFINITY} where there can be none.
   *
   * @param cost what each block costs in this visit beside its time and injections; negative for
   *     what it is worth to have it done
   * @param first whether it is the first visit
   * @param perSecond cost of a second of chair time, 0 or more
   * @param perSecondBooked guides the search to visits that are not too long, 0 or more; a visit
   *     that fits is not charged for it
   */
  double cheapest(double[] cost, boolean first, double perSecond, double perSecondBooked) {
    this.perSecond = perSecond;
    this.perSecondBooked = perSecondBooked;
    this.wanted = first ? staging.startWith() : null;
    this.top = NEVER;
    this.branches = 0;
    double constant = perSecond * base + perSecondBooked * (base - staging.longestSeconds());
    double[][][] tables = tables(cost);
    for (int[] parts : remembered) {
      if (holdsWanted(parts)) {
        rate(parts);
      }
    }
    boolean oneSide = staging.practice().appointments().oneNumbSide();
    double loosest = NEVER;
    double[][][] rests = new double[Side.values().length][][];
    int[] sides = oneSide ? new int[] {0, 1} : new int[] {-1};
    for (int side : sides) {
      double[][] found = rests(tables, side);
      rests[Math.max(0, side)] = found;
      loosest = Math.min(loosest, found[0][0] + constant);
    }
    if (oneSide && rests[1][0][0] < rests[0][0][0]) {
      sides = new int[] {1, 0};
    }
    for (int side : sides) {
      numbSide = side;
      rest = rests[Math.max(0, side)];
      order = order(side);
      choose(0, 0, constant, new int[quadrants.size()]);
    }
    allBranches += branches;
    remember();
    if (branches > BRANCHES) {
      return Math.min(top, loosest);
    }
    return top >= NEVER ? Double.POSITIVE_INFINITY : top;
  }

  private boolean numb(int quadrant) {
    return numbSide < 0 || quadrants.get(quadrant).quadrant.side().ordinal() == numbSide;
  }

  /** Quadrants of the numb side first, since they decide most. */
  private int[] order(int side) {
    int[] inOrder = new int[quadrants.size()];
    int at = 0;
    for (int turn = 0; turn < 2; turn++) {
      for (int q = 0; q < inOrder.length; q++) {
        boolean here = side < 0 || quadrants.get(q).quadrant.side().ordinal() == side;
        if (here == (turn == 0)) {
          inOrder[at++] = q;
        }
      }
    }
    return inOrder;
  }

  /**
   * Values every part, and finds by quadrant, for numb and for not numb, and by set of inserts, the
   * cheapest part that uses no others.
   */
  private double[][][] tables(double[] cost) {
    int sets = kitHolds.length;
    double[][][] tables = new double[2][quadrants.size()][sets];
    for (int q = 0; q < quadrants.size(); q++) {
      QuadrantParts parts = quadrants.get(q);
      double[] prices = new double[parts.size()];
      for (int part = 1; part < parts.size(); part++) {
        prices[part] =
            prices[part & (part - 1)] + cost[parts.blocks[Integer.numberOfTrailingZeros(part)]];
        value[q][part] =
            prices[part]
                + perSecond * parts.chair[part]
                + perSecondBooked * (parts.chair[part] + parts.reserve[part])
                + parts.soft[part]
                + cartridge * parts.ml[part] / cartridgeMl;
        if (!parts.banned[part]) {
          int set = parts.inserts[part];
          tables[1][q][set] = Math.min(tables[1][q][set], numbed(q, part));
          if (!parts.sided[part]) {
            tables[0][q][set] = Math.min(tables[0][q][set], value[q][part]);
          }
        }
      }
      for (int numb = 0; numb < 2; numb++) {
        double[] table = tables[numb][q];
        for (int bit = 1; bit < sets; bit <<= 1) {
          for (int set = 0; set < sets; set++) {
            if ((set & bit) != 0) {
              table[set] = Math.min(table[set], table[set & ~bit]);
            }
          }
        }
      }
    }
    return tables;
  }

  /** The value of a part with injections that are not counted exactly. */
  private double numbed(int q, int part) {
    return value[q][part] + Math.min(1, perSecond) * quadrants.get(q).cover[part];
  }

  /**
   * By depth and by the inserts used so far, what the rest costs at the least, all changes of
   * inserts with it.
   */
  private double[][] rests(double[][][] tables, int side) {
    int sets = kitHolds.length;
    int[] inOrder = order(side);
    double[][] rests = new double[inOrder.length + 1][sets];
    for (int depth = inOrder.length; depth >= 0; depth--) {
      double[] here = rests[depth];
      for (int set = 0; set < sets; set++) {
        here[set] = kitHolds[set] ? walks.cheapest(set) * (perSecond + perSecondBooked) : NEVER;
        for (int e = depth; e < inOrder.length; e++) {
          int q = inOrder[e];
          boolean numb = side < 0 || quadrants.get(q).quadrant.side().ordinal() == side;
          here[set] += tables[numb ? 1 : 0][q][set];
        }
      }
      for (int bit = 1; bit < sets; bit <<= 1) {
        for (int set = 0; set < sets; set++) {
          if ((set & bit) == 0) {
            here[set] = Math.min(here[set], here[set | bit]);
          }
        }
      }
    }
    return rests;
  }

  private void choose(int depth, int inserts, double soFar, int[] parts) {
    if (soFar + rest[depth][inserts] >= top - SLACK) {
      return;
    }
    if (depth == order.length) {
      rate(parts);
      return;
    }
    if (++branches > BRANCHES) {
      return;
    }
    int q = order[depth];
    QuadrantParts here = quadrants.get(q);
    boolean numb = numb(q);
    double[] after = rest[depth + 1];
    for (int part = here.quadrant == wanted ? 1 : 0; part < here.size(); part++) {
      if (here.banned[part] || (!numb && here.sided[part])) {
        continue;
      }
      int set = inserts | here.inserts[part];
      double cost = soFar + (numb ? numbed(q, part) : value[q][part]);
      if (cost + after[set] < top - SLACK) {
        parts[q] = part;
        choose(depth + 1, set, cost, parts);
      }
    }
    parts[q] = 0;
  }

  private boolean holdsWanted(int[] parts) {
    boolean holds = wanted == null;
    for (int q = 0; q < parts.length; q++) {
      holds |= quadrants.get(q).quadrant == wanted && parts[q] != 0;
    }
    return holds;
  }

  /** Reckons a whole visit, and takes it if it fits and costs less than what is known. */
  private void rate(int[] parts) {
    int inserts = 0;
    double chair = base;
    double reserve = 0;
    double cost = 0;
    double ml = 0;
    double ready = Double.MAX_VALUE;
    double numbWork = 0;
    int numbInserts = 0;
    int numbPlaces = 0;
    boolean covered = false;
    for (int q = 0; q < parts.length; q++) {
      QuadrantParts here = quadrants.get(q);
      int part = parts[q];
      if (part == 0) {
        continue;
      }
      inserts |= here.inserts[part];
      chair += here.chair[part];
      reserve += here.reserve[part];
      cost +=
          (here.sided[part] ? numbed(q, part) : value[q][part])
              - perSecond * here.chair[part]
              - perSecondBooked * (here.chair[part] + here.reserve[part])
              - cartridge * here.ml[part] / cartridgeMl;
      ml += here.ml[part];
      covered |= here.sided[part] && here.cover[part] > 0;
      if (here.numbPlaces[part] > 0) {
        ready = Math.min(ready, here.ready[part]);
        numbWork += here.numbWork[part];
        numbInserts |= here.numbInserts[part];
        numbPlaces += here.numbPlaces[part];
      }
    }
    if (inserts == 0 || !kitHolds[inserts]) {
      return;
    }
    chair += walks.cheapest(inserts);
    if (numbPlaces > 0) {
      double moves = walks.cheapest(numbInserts) + walks.move() * numbPlaces;
      chair = Math.max(chair, base + ready + numbWork + moves);
    }
    if (chair + reserve > staging.longestSeconds() + SLACK) {
      return;
    }
    // Where a cover holds its own share of a cartridge, the two may be in the same one.
    double cartridges = ml / cartridgeMl;
    cost += perSecond * chair + cartridge * (covered ? cartridges : Math.ceil(cartridges - 1e-6));
    if (cost < top) {
      top = cost;
      topChair = chair;
      topBooked = chair + reserve;
      System.arraycopy(parts, 0, topParts, 0, parts.length);
    }
  }

  private void remember() {
    if (top < NEVER && remembered.stream().noneMatch(parts -> Arrays.equals(parts, topParts))) {
      remembered.addFirst(topParts.clone());
      if (remembered.size() > REMEMBERED) {
        remembered.removeLast();
      }
    }
  }
}
