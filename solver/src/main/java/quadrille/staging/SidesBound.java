package quadrille.staging;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.PriorityQueue;
import java.util.TreeMap;
import quadrille.anaesthesia.Agents;
import quadrille.anaesthesia.Cover;
import quadrille.anaesthesia.InjectionCover;
import quadrille.anaesthesia.Needs;
import quadrille.chart.Side;
import quadrille.practice.Agent;
import quadrille.practice.Minutes;
import quadrille.practice.Pass;
import quadrille.work.Step;
import quadrille.work.Target;

/**
 * A bound from argument for practices that numb one side a visit: the cost of the best course of a
 * problem with fewer rules, solved exactly.
 *
 * <p>What is left out. Each visit is given a side. Work that wants pulp numbed may only be done in
 * visits of its own side (H1); all else anywhere. The two sides of the mouth are then staged each
 * by itself, as if the other's work took no room in a visit. Orders, waiting, doses and how long
 * numbness lasts are left out too. What is kept: passes of an area in their order over the visits
 * and whole (H5, H6), each visit's injections at their cheapest, the places that it must go to and
 * the inserts that it must take up, the length of the visit as far as this side's work makes it
 * (H4), fine passes that wait, quadrants split, and the length of the longest visit.
 *
 * <p>A side is staged by a dynamic programme over how far each of its areas has got: none of its
 * passes, the first, the first two, all. All ways to give sides to visits are tried.
 *
 * <p>Why the parts of a visit add up. A place is an area with an insert. A visit that goes to P
 * places with I inserts changes place at least P - 1 times, and changes insert at least I - 1 times
 * of these; a change of insert costs no less than a change of area. So changing costs at least move
 * * P + (tip - move) * I - tip. The inserts of the visit's own side's work are no more than I,
 * places of both sides add up, and so that side is charged all of this, the other move * P only.
 *
 * <p>The longest visit. The cost is chair * (1 - w / visits) + w * longest + the rest, where w is
 * the weight of balance. Where the longest visit lies between two lengths, it costs at least the
 * lower one, and no visit is longer than the upper one. The bound is the least over such intervals,
 * which are halved where the bound is least.
 */
final class SidesBound {
  /** Intervals of the longest visit that are looked at; more make the bound hardly higher. */
  private static final int INTERVALS = 24;

  /** Seconds below which an interval is not halved. */
  private static final int NARROW = 8;

  /** Ways to go on from one state of a side to another, over all; beyond, there is no bound. */
  private static final long MOST_WORK = 60_000_000;

  private static final double NEVER = Double.POSITIVE_INFINITY;

  private final StagingCase staging;
  private final int visits;
  private final double balance;
  private final double chairWeight;
  private final int tip;
  private final int move;
  private final int turn;

  private SidesBound(StagingCase staging) {
    this.staging = staging;
    this.visits = staging.visits();
    this.balance = staging.practice().weights().balance().value();
    this.chairWeight = 1 - balance / visits;
    Minutes minutes = staging.practice().minutes();
    this.tip = minutes.tipChangeSeconds().asInt();
    this.move = Math.min(tip, minutes.repositionAreaSeconds().asInt());
    this.turn = Math.min(move, minutes.repositionAspectSeconds().asInt());
  }

  /**
   * The bound in seconds, or nothing where this argument has none: both sides may be numb at once,
   * balance weighs more than the chair, or the areas were cut into too many pieces.
   */
  static OptionalDouble of(StagingCase staging) {
    SidesBound bound = new SidesBound(staging);
    if (!staging.practice().appointments().oneNumbSide() || bound.chairWeight < 0) {
      return OptionalDouble.empty();
    }
    return bound.seconds();
  }

  private OptionalDouble seconds() {
    long ways = 0;
    List<SideWork> sides = new ArrayList<>();
    for (Side side : Side.values()) {
      SideWork work = new SideWork(side);
      ways += work.ways();
      sides.add(work);
    }
    if (ways << (visits + 1) > MOST_WORK) {
      return OptionalDouble.empty();
    }
    sides.forEach(SideWork::price);

    double fixed = visits * (double) (staging.setUp() + staging.close());
    double changes = 0;
    int quadrants = 0;
    for (SideWork side : sides) {
      fixed += side.workSeconds;
      changes += move * (double) side.loosePlaces + turn * (double) side.turns;
      quadrants += side.quadrants;
    }
    // Each quadrant's fine pass is counted once for each visit; once is no split.
    double always =
        chairWeight * (fixed + changes)
            - staging.practice().weights().splitQuadrant().value() * quadrants;

    int longest = staging.longestSeconds();
    int shortest = (int) Math.min(longest, Math.floor(fixed / visits));
    PriorityQueue<Interval> open = new PriorityQueue<>();
    double most = rest(sides, longest);
    if (most == NEVER) {
      return OptionalDouble.empty();
    }
    open.add(new Interval(shortest, longest, always + balance * shortest + most));
    for (int looked = 0; looked < INTERVALS; looked++) {
      Interval least = open.poll();
      if (least == null) {
        return OptionalDouble.empty();
      }
      if (least.to() - least.from() <= NARROW) {
        open.add(least);
        break;
      }
      int half = (least.from() + least.to()) / 2;
      double below = always + balance * least.from() + rest(sides, half);
      // What was found for the whole interval holds for its upper half, with its own lower end.
      double above = least.seconds() + balance * (half - least.from());
      if (below < NEVER) {
        open.add(new Interval(least.from(), half, Math.max(below, least.seconds())));
      }
      open.add(new Interval(half, least.to(), above));
    }
    Interval least = open.peek();
    // The terms of the cost are rounded one by one: half a second each at most.
    return least == null ? OptionalDouble.empty() : OptionalDouble.of(least.seconds() - 3);
  }

  /** The longest visit lies between two lengths, in seconds; no such course costs less. */
  private record Interval(int from, int to, double seconds) implements Comparable<Interval> {
    @Override
    public int compareTo(Interval other) {
      return Double.compare(seconds, other.seconds);
    }
  }

  /** What hangs on the sides of visits, at the cheapest, where no visit is longer than this. */
  private double rest(List<SideWork> sides, int longest) {
    double[] right = sides.get(0).stage(longest);
    double[] left = sides.get(1).stage(longest);
    double best = NEVER;
    int all = (1 << visits) - 1;
    for (int mask = 0; mask <= all; mask++) {
      best = Math.min(best, right[mask] + left[all & ~mask]);
    }
    return best;
  }

  /** The work of one side of the mouth. */
  private final class SideWork {
    private final List<List<Block>> chains = new ArrayList<>();
    private final int[] size;
    private final int states;
    private final int workSeconds;
    private final int loosePlaces;
    private final int turns;
    private final boolean onlyPulp;
    private final int quadrants;

    // One way to go on: from a state to another, what it costs in a visit of this side and in one
    // of the other, and how long it makes a visit of this side.
    private int[] from = new int[0];
    private int[] to = new int[0];
    private float[] own = new float[0];
    private float[] other = new float[0];
    private int[] late = new int[0];
    private int[] length = new int[0];
    private int count;

    SideWork(Side side) {
      int work = 0;
      int loose = 0;
      int turned = 0;
      int fineQuadrants = 0;
      boolean pulp = true;
      Map<Integer, List<Block>> byArea = new TreeMap<>();
      for (Block block : staging.blocks()) {
        if (block.area().quadrant().side() != side) {
          continue;
        }
        Needs needs = needs(block);
        for (int index : block.steps().members()) {
          Step step = staging.steps().get(index).step();
          work += step.seconds() + (step.gel() ? staging.gelSeconds() : 0);
        }
        turned += turns(block);
        pulp &= needs.isEmpty() || wantsPulp(block);
        if (block.pass() == Pass.IMPLANT_CARE) {
          // Goes anywhere: only that it is gone to is counted.
          loose += places(block);
          pulp &= needs.isEmpty();
        } else {
          byArea.computeIfAbsent(block.areaIndex(), key -> new ArrayList<>()).add(block);
          if (block.pass() == Pass.FINE) {
            fineQuadrants |= 1 << block.area().quadrant().ordinal();
          }
        }
      }
      int all = 1;
      size = new int[byArea.size()];
      for (List<Block> chain : byArea.values()) {
        chain.sort((one, two) -> one.pass().compareTo(two.pass()));
        size[chains.size()] = chain.size() + 1;
        all = Math.multiplyExact(all, chain.size() + 1);
        chains.add(chain);
      }
      this.states = all;
      this.workSeconds = work;
      this.loosePlaces = loose;
      this.turns = turned;
      this.onlyPulp = pulp;
      this.quadrants = Integer.bitCount(fineQuadrants);
    }

    long ways() {
      long ways = 1;
      for (int levels : size) {
        ways *= (long) levels * (levels + 1) / 2;
      }
      return ways;
    }

    private int places(Block block) {
      long inserts = 0;
      for (int index : block.steps().members()) {
        inserts |= 1L << staging.insertIndex(staging.steps().get(index));
      }
      return Long.bitCount(inserts);
    }

    /** Turns between aspects within a place that a pass alone makes. */
    private int turns(Block block) {
      Map<Integer, Integer> aspects = new HashMap<>();
      for (int index : block.steps().members()) {
        StepFact fact = staging.steps().get(index);
        aspects.merge(
            staging.insertIndex(fact),
            1 << fact.step().aspect().ordinal(),
            (one, two) -> one | two);
      }
      return aspects.values().stream().mapToInt(met -> Integer.bitCount(met) - 1).sum();
    }

    private Needs needs(Block block) {
      List<Target> targets = new ArrayList<>();
      for (int index : block.steps().members()) {
        targets.addAll(staging.steps().get(index).step().needs());
      }
      return Needs.of(targets);
    }

    private boolean wantsPulp(Block block) {
      return Arrays.stream(block.steps().members())
          .mapToObj(index -> staging.steps().get(index).step())
          .anyMatch(step -> step.needs().stream().anyMatch(target -> target.kind().pulpal()));
    }

    /** Reckons every way to go on, once. */
    void price() {
      int most = Math.toIntExact(ways());
      from = new int[most];
      to = new int[most];
      own = new float[most];
      other = new float[most];
      late = new int[most];
      length = new int[most];
      Prices prices = new Prices(this);
      prices.walk(0, 0, 0, 1);
    }

    /**
     * The least that this side costs, by which visits are of this side, as bits.
     *
     * @param longest no visit of this side is longer for this side's work, in seconds
     */
    double[] stage(int longest) {
      double[] done = new double[1 << visits];
      Arrays.fill(done, NEVER);
      double[] start = new double[states];
      Arrays.fill(start, NEVER);
      start[0] = 0;
      stage(longest, 0, 0, start, done);
      return done;
    }

    private void stage(int longest, int visit, int mask, double[] cost, double[] done) {
      if (visit == visits) {
        done[mask] = cost[states - 1];
        return;
      }
      double[] mine = new double[states];
      double[] theirs = new double[states];
      Arrays.fill(mine, NEVER);
      Arrays.fill(theirs, NEVER);
      for (int way = 0; way < count; way++) {
        double before = cost[from[way]];
        if (before == NEVER) {
          continue;
        }
        double waits = before + (double) late[way] * visit;
        int next = to[way];
        if (length[way] <= longest && waits + own[way] < mine[next]) {
          mine[next] = waits + own[way];
        }
        if (waits + other[way] < theirs[next]) {
          theirs[next] = waits + other[way];
        }
      }
      stage(longest, visit + 1, mask | 1 << visit, mine, done);
      stage(longest, visit + 1, mask, theirs, done);
    }
  }

  /** Walks through all ways of one side to go on, and prices them. */
  private final class Prices {
    private final SideWork side;
    private final InjectionCover covers;
    private final double injectionWeight;
    private final double cartridgeWeight;
    private final double splitWeight;
    private final double largestCartridge;
    private final List<Block> done = new ArrayList<>();
    private final Map<Needs, double[]> known = new HashMap<>();

    Prices(SideWork side) {
      this.side = side;
      this.covers = new InjectionCover(staging.practice(), staging.patient());
      this.injectionWeight = staging.injectionWeight();
      this.cartridgeWeight = staging.practice().weights().cartridge().value();
      this.splitWeight = staging.practice().weights().splitQuadrant().value();
      this.largestCartridge =
          Agents.allowed(staging.practice(), staging.patient()).stream()
              .mapToDouble(Prices::cartridgeMl)
              .max()
              .orElse(NEVER);
    }

    private static double cartridgeMl(Agent agent) {
      return agent.cartridgeMl().value();
    }

    /**
     * @param chain the chain that is next to go on
     * @param from the state so far, in the mixed base of the chains' lengths
     * @param weight what a level of this chain counts in a state
     */
    void walk(int chain, int from, int to, int weight) {
      if (chain == side.chains.size()) {
        add(from, to);
        return;
      }
      List<Block> blocks = side.chains.get(chain);
      for (int level = 0; level <= blocks.size(); level++) {
        int before = done.size();
        for (int next = level; next <= blocks.size(); next++) {
          if (next > level) {
            done.add(blocks.get(next - 1));
          }
          walk(chain + 1, from + level * weight, to + next * weight, weight * (blocks.size() + 1));
        }
        while (done.size() > before) {
          done.remove(done.size() - 1);
        }
      }
    }

    private void add(int from, int to) {
      int work = 0;
      int places = 0;
      int turned = 0;
      int late = 0;
      int fineQuadrants = 0;
      long inserts = 0;
      boolean bound = false;
      Needs needs = Needs.NONE;
      for (Block block : done) {
        Facts facts = facts(block);
        work += facts.work();
        turned += facts.turns();
        inserts |= facts.inserts();
        places += facts.places();
        bound |= facts.bound();
        needs = needs.and(facts.needs());
        if (block.pass() == Pass.FINE) {
          late += (int) staging.lateCost(1L << block.areaIndex(), 1);
          fineQuadrants |= 1 << block.area().quadrant().ordinal();
        }
      }
      // An insert that serves two passes of one area is one place there.
      places -= sharedPlaces();
      double[] injections = injections(needs);
      double split = splitWeight * Integer.bitCount(fineQuadrants);
      double changes =
          done.isEmpty() ? -move : move * places + (tip - move) * Long.bitCount(inserts) - tip;
      int way = side.count++;
      side.from[way] = from;
      side.to[way] = to;
      side.late[way] = late;
      side.own[way] = below(chairWeight * (changes + injections[0]) + injections[1] + split);
      side.other[way] =
          bound ? Float.POSITIVE_INFINITY : below(chairWeight * move * places + split);
      side.length[way] =
          length(
              work,
              (int) Math.floor(Math.max(0, changes) + turn * (double) turned + injections[0]));
    }

    /** The length of a visit; more than any where it could not be booked. */
    private int length(int work, int rest) {
      int fixed = staging.setUp() + staging.close() + rest;
      return staging.neededSeconds(fixed, work) > staging.longestSeconds()
          ? Integer.MAX_VALUE
          : fixed + work;
    }

    private int sharedPlaces() {
      int shared = 0;
      for (int i = 0; i < done.size(); i++) {
        long before = 0;
        for (int j = 0; j < i; j++) {
          if (done.get(j).areaIndex() == done.get(i).areaIndex()) {
            before |= facts(done.get(j)).inserts();
          }
        }
        shared += Long.bitCount(before & facts(done.get(i)).inserts());
      }
      return shared;
    }

    /** Seconds of giving the injections, and what they and their cartridges cost beside it. */
    private double[] injections(Needs needs) {
      double[] reckoned = known.get(needs);
      if (reckoned == null) {
        reckoned = reckon(covers.cheapest(needs));
        known.put(needs, reckoned);
      }
      return reckoned;
    }

    private double[] reckon(Cover cover) {
      int number = cover.injections().size();
      if (side.onlyPulp) {
        // No other work of the visit wants numbing, so the visit gets just these.
        return new double[] {
          cover.seconds(staging.practice().numbing()),
          injectionWeight * number
              + cartridgeWeight * Math.ceil(cover.ml() / largestCartridge - 1e-9)
        };
      }
      // More may have to be numb; the cheapest set then costs no less, each rounded to seconds, and
      // a larger cartridge costs less a millilitre than the set is weighed by.
      double factor = chairWeight * Math.min(1, 1.8 / Math.max(1.8, largestCartridge));
      return new double[] {0, factor * Math.max(0, cover.costSeconds() - number)};
    }

    private final Map<Integer, Facts> facts = new HashMap<>();

    private Facts facts(Block block) {
      return facts.computeIfAbsent(block.index(), index -> factsOf(block));
    }

    private Facts factsOf(Block block) {
      int work = 0;
      long inserts = 0;
      for (int index : block.steps().members()) {
        StepFact fact = staging.steps().get(index);
        work += fact.step().seconds() + (fact.step().gel() ? staging.gelSeconds() : 0);
        inserts |= 1L << staging.insertIndex(fact);
      }
      return new Facts(
          work,
          inserts,
          Long.bitCount(inserts),
          side.turns(block),
          side.needs(block),
          side.wantsPulp(block));
    }
  }

  /** What a pass of an area adds to a visit. */
  private record Facts(int work, long inserts, int places, int turns, Needs needs, boolean bound) {}

  /** The greatest float that is not above. */
  private static float below(double value) {
    float near = (float) value;
    return near > value ? Math.nextDown(near) : near;
  }
}
