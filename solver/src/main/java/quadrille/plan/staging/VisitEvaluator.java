package quadrille.plan.staging;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Agents;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.InjectionCover;
import quadrille.plan.anaesthesia.Numbness;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * Reckons visits: what follows from a set of steps, and what the clock shows for an order of them.
 * Sets are remembered; orders are not, since there are too many.
 */
final class VisitEvaluator {
  private static final int NEVER = Integer.MAX_VALUE / 4;

  private final StagingCase staging;
  private final Commitments earlier;
  private final InjectionCover covers;
  private final Doses doses;
  private final List<Agent> agents;
  private final Map<StepSet, SetEvaluation> sets = new HashMap<>();

  /**
   * @param first whether it is for the first visit, before which something may have been given
   */
  VisitEvaluator(StagingCase staging, boolean first) {
    this.earlier = first ? staging.standing() : Commitments.NONE;
    this.staging = staging;
    this.covers = new InjectionCover(staging.practice(), staging.patient());
    this.doses = new Doses(staging.practice(), staging.patient());
    this.agents = Agents.allowed(staging.practice(), staging.patient());
  }

  SetEvaluation set(StepSet steps) {
    SetEvaluation known = sets.get(steps);
    if (known == null) {
      known = reckon(steps);
      sets.put(steps, known);
    }
    return known;
  }

  private SetEvaluation reckon(StepSet members) {
    int work = 0;
    int gel = 0;
    int wrongInsert = 0;
    long inserts = 0;
    long fineQuadrants = 0;
    long[] areasByPass = new long[3];
    StepSet blocks = StepSet.EMPTY;
    SortedSet<Target> needs = new TreeSet<>();
    for (int index : members.members()) {
      StepFact fact = staging.steps().get(index);
      Step step = fact.step();
      work += step.seconds();
      gel += step.gel() ? aspects(step) : 0;
      wrongInsert += rightInsert(step) ? 0 : 1;
      inserts |= 1L << staging.insertIndex(fact);
      needs.addAll(step.needs());
      if (step.pass() == Pass.FINE) {
        fineQuadrants |= 1L << step.area().quadrant().ordinal();
      }
      if (step.pass() != Pass.IMPLANT_CARE) {
        areasByPass[step.pass().ordinal()] |= 1L << fact.areaIndex();
      }
      blocks = blocks.with(fact.blockIndex());
    }
    Cover cover = covers.cheapest(needs);
    boolean noAgent = !needs.isEmpty() && agents.isEmpty();
    return new SetEvaluation(
        members,
        members.size(),
        work,
        gel,
        blocks,
        areasByPass,
        Long.bitCount(fineQuadrants),
        inserts,
        wrongInsert,
        cover,
        secondSide(cover),
        doubleBlocks(cover),
        noAgent ? needs.size() : cover.uncoverable().size(),
        dosings(members, cover));
  }

  /** H7: an implant meets only a sleeved insert at low power, and a sleeve meets only implants. */
  private static boolean rightInsert(Step step) {
    return step.implant()
        ? step.insert().sleeved() && step.power() == Power.LOW
        : !step.insert().sleeved();
  }

  private static int secondSide(Cover cover) {
    int right = 0;
    int left = 0;
    for (PlacedInjection injection : cover.injections()) {
      if (!injection.injection().bothSides()) {
        if (injection.quadrant().side() == Side.RIGHT) {
          right++;
        } else {
          left++;
        }
      }
    }
    return Math.min(right, left);
  }

  private static int doubleBlocks(Cover cover) {
    int pairs = 0;
    List<PlacedInjection> injections = cover.injections();
    for (PlacedInjection right : injections) {
      for (PlacedInjection left : injections) {
        if (right.injection().neverBothSides()
            && right.injection().name().equals(left.injection().name())
            && right.quadrant().side() == Side.RIGHT
            && left.quadrant().side() == Side.LEFT) {
          pairs++;
        }
      }
    }
    return pairs;
  }

  /**
   * Agents within the dose limits in the practice's order; where there are none, the least
   * overdose.
   */
  private List<SetEvaluation.Dosing> dosings(StepSet members, Cover cover) {
    Practice practice = staging.practice();
    SortedMap<Quadrant, Double> gel = gelCartridges(members);
    int[][] noNeeds = new int[staging.steps().size()][];
    if (cover.groups().isEmpty()) {
      return List.of(dosing(null, List.of(), gel, new int[0], noNeeds));
    }
    int[] groupSeconds =
        cover.groups().stream().mapToInt(group -> group.seconds(practice.numbing())).toArray();
    List<SetEvaluation.Dosing> within = new ArrayList<>();
    SetEvaluation.@Nullable Dosing least = null;
    for (Agent agent : agents) {
      SetEvaluation.Dosing dosing =
          dosing(
              agent,
              List.of(new Doses.Amount(agent, cover.ml())),
              gel,
              groupSeconds,
              needs(members, cover, agent, practice.numbing()));
      if (dosing.excess() == 0) {
        within.add(dosing);
      } else if (least == null || dosing.excess() < least.excess()) {
        least = dosing;
      }
    }
    if (within.isEmpty()) {
      within.add(
          least != null
              ? least
              : new SetEvaluation.Dosing(null, List.of(), 0, 0, 0, 0, groupSeconds, noNeeds));
    }
    return List.copyOf(within);
  }

  private static int aspects(Step step) {
    return step.aspect() == StepAspect.BOTH ? 2 : 1;
  }

  private SortedMap<Quadrant, Double> gelCartridges(StepSet members) {
    double each = staging.practice().gel().cartridgesAspect().value();
    SortedMap<Quadrant, Double> gel = new TreeMap<>();
    for (int index : members.members()) {
      Step step = staging.steps().get(index).step();
      if (step.gel()) {
        gel.merge(step.area().quadrant(), each * aspects(step), Double::sum);
      }
    }
    return gel;
  }

  /** Shares are the visit's own; what is too much is judged with what was given before. */
  private SetEvaluation.Dosing dosing(
      @Nullable Agent agent,
      List<Doses.Amount> amounts,
      SortedMap<Quadrant, Double> gel,
      int[] groupSeconds,
      int[][] needs) {
    Doses.Check own = doses.check(amounts, gel, List.of());
    Doses.Check day = own;
    if (earlier.anythingGiven() && !(amounts.isEmpty() && gel.isEmpty())) {
      SortedMap<Quadrant, Double> gelOfDay = new TreeMap<>(gel);
      earlier
          .gelCartridges()
          .forEach((quadrant, more) -> gelOfDay.merge(quadrant, more, Double::sum));
      day = doses.check(amounts, gelOfDay, earlier.given());
    }
    int excess =
        Math.max(0, permille(day.share()) - 1000)
            + Math.max(0, micrograms(day.epinephrineMg()) - cap(day));
    if (excess == 0 && !day.allowed()) {
      excess = 1;
    }
    return new SetEvaluation.Dosing(
        agent,
        own.shares(),
        permille(own.share()),
        micrograms(own.epinephrineMg()),
        excess,
        own.cartridges(),
        groupSeconds,
        needs);
  }

  private static int permille(double share) {
    return (int) Math.min(1_000_000, Math.ceil(1000 * share - 1e-6));
  }

  private static int micrograms(double mg) {
    return (int) Math.ceil(1000 * mg - 1e-6);
  }

  private static int cap(Doses.Check check) {
    return (int) Math.floor(1000 * check.epinephrineCapMg() + 1e-6);
  }

  /** Thousandths of the maximum doses that were given before the first visit, on its day. */
  int earlierPermille() {
    return permille(ofEarlier().share());
  }

  /** Micrograms of epinephrine that were given before the first visit, on its day. */
  int earlierMicrograms() {
    return micrograms(ofEarlier().epinephrineMg());
  }

  private Doses.Check ofEarlier() {
    return doses.check(earlier.given(), earlier.gelCartridges(), List.of());
  }

  private int[][] needs(StepSet members, Cover cover, Agent agent, Numbing numbing) {
    int[][] all = new int[staging.steps().size()][];
    for (int index : members.members()) {
      SortedSet<Target> targets = staging.steps().get(index).step().needs();
      if (!targets.isEmpty()) {
        all[index] = waits(targets, cover, agent, numbing);
      }
    }
    return all;
  }

  private static int[] waits(SortedSet<Target> targets, Cover cover, Agent agent, Numbing numbing) {
    int groups = cover.groups().size();
    int[] ready = new int[groups];
    int[] wornOff = new int[groups];
    java.util.Arrays.fill(ready, -1);
    java.util.Arrays.fill(wornOff, NEVER);
    for (Target target : targets) {
      find:
      for (int g = 0; g < groups; g++) {
        int end = 0;
        for (PlacedInjection injection : cover.groups().get(g).injections()) {
          end += injection.seconds(numbing);
          if (injection.numbs(target)) {
            int onset = Numbness.onsetSeconds(injection.injection(), agent, target.kind());
            int lasts = Numbness.lastsSeconds(injection.injection(), agent, target.kind());
            ready[g] = Math.max(ready[g], end + onset);
            wornOff[g] = Math.min(wornOff[g], end + lasts);
            break find;
          }
        }
      }
    }
    int[] triples = new int[3 * groups];
    int used = 0;
    for (int g = 0; g < groups; g++) {
      if (ready[g] >= 0) {
        triples[used++] = g;
        triples[used++] = ready[g];
        triples[used++] = wornOff[g];
      }
    }
    return java.util.Arrays.copyOf(triples, used);
  }

  /**
   * Lays a visit out. The groups of injections go where the visit ends soonest with numbness
   * lasting, and as late as that allows, so that nobody is numb before it pays.
   */
  VisitTimeline layout(int[] order) {
    return layout(order, false);
  }

  /** Lays a visit out with all its injections given before the first step. */
  VisitTimeline layoutNumbedFirst(int[] order) {
    return layout(order, true);
  }

  private VisitTimeline layout(int[] order, boolean numbedFirst) {
    StepSet members = StepSet.EMPTY;
    for (int index : order) {
      members = members.with(index);
    }
    SetEvaluation set = set(members);
    VisitTimeline best = null;
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      VisitTimeline layout = new Clock(set, dosing, order).best(numbedFirst);
      if (best == null || layout.wornOffSeconds() < best.wornOffSeconds()) {
        best = layout;
      }
      if (best.wornOffSeconds() == 0) {
        break;
      }
    }
    if (best == null) {
      throw new IllegalStateException("A set of steps has no dosing: " + set);
    }
    return best;
  }

  /**
   * Whether another order of the same steps, with the same agent, ends sooner or keeps numbness
   * longer; much quicker than laying it out.
   */
  boolean improves(int[] order, VisitTimeline than) {
    return new Clock(than.set(), than.dosing(), order).beats(than);
  }

  /**
   * Runs one order through the clock, and seeks where to give the groups: before each step some of
   * those not yet given may be given. Later is tried first, and what cannot end in time any more is
   * dropped, so little is really run. With up to four groups, where a practice numbs both sides in
   * one visit, that may still be too much; so no more than a number of places is looked at, and the
   * best met until then is taken.
   */
  private final class Clock {
    /** Places to look at for a layout that is kept; with two groups hardly ever so many are met. */
    private static final int MANY = 3000;

    /** Places to look at for a shift that most likely gains nothing. */
    private static final int FEW = 300;

    private final SetEvaluation set;
    private final SetEvaluation.Dosing dosing;
    private final int[] order;
    private final int groups;
    private final int[] firstNeed;
    private final int[] firstReady;
    private final int[] restFrom;
    private final int[] at;
    private final int[] rank;
    private final int[] start;
    private int bestWornOff = Integer.MAX_VALUE;
    private int bestEnd = Integer.MAX_VALUE;
    private int bestWait;
    private int[] bestAt = new int[0];
    private int[] bestRank = new int[0];
    private boolean placed;
    private int looked;
    private int limit = MANY;
    private boolean ended;

    Clock(SetEvaluation set, SetEvaluation.Dosing dosing, int[] order) {
      this.set = set;
      this.dosing = dosing;
      this.order = order;
      this.groups = dosing.groupSeconds().length;
      this.at = new int[groups];
      this.rank = new int[groups];
      this.start = new int[groups];
      this.firstNeed = new int[groups];
      this.firstReady = new int[groups];
      this.restFrom = new int[order.length + 1];
      restFrom[order.length] = staging.close();
      for (int i = order.length - 1; i >= 0; i--) {
        restFrom[i] = restFrom[i + 1] + workAt(i) + changeBefore(i);
        int[] needs = dosing.needs()[order[i]];
        if (needs != null) {
          for (int k = 0; k < needs.length; k += 3) {
            firstNeed[needs[k]] = i;
            firstReady[needs[k]] = needs[k + 1];
          }
        }
      }
    }

    private int workAt(int position) {
      Step step = staging.steps().get(order[position]).step();
      return step.seconds() + (step.gel() ? staging.gelSeconds() : 0);
    }

    private int changeBefore(int position) {
      return position == 0 ? 0 : staging.change(order[position - 1], order[position]);
    }

    boolean beats(VisitTimeline known) {
      bestWornOff = known.wornOffSeconds();
      bestEnd = known.chairSeconds();
      placed = true;
      ended = true;
      limit = FEW;
      place(0, staging.setUp(), 0, 0, (1 << groups) - 1, 0, false);
      return bestEnd < known.chairSeconds() || bestWornOff < known.wornOffSeconds();
    }

    /**
     * @param numbedFirst whether all groups are given before the first step
     */
    VisitTimeline best(boolean numbedFirst) {
      int notGiven = (1 << groups) - 1;
      if (numbedFirst || (groups <= 2 && !staging.hopeless(set))) {
        place(0, staging.setUp(), 0, 0, notGiven, 0, true);
      }
      if (!numbedFirst) {
        // Known now is a good end; sought is the latest place that ends as soon or sooner.
        placed = false;
        place(0, staging.setUp(), 0, 0, notGiven, 0, false);
      }
      int working = set.workSeconds();
      int needed = staging.neededSeconds(bestEnd - working, working);
      return new VisitTimeline(
          set,
          dosing,
          order,
          bestAt,
          bestRank,
          bestEnd,
          bestWait,
          bestWornOff,
          outOfOrder(order),
          Math.max(0, needed - staging.longestSeconds()));
    }

    /**
     * Goes on from before a position.
     *
     * @param now the second at which the step before has ended and the groups given here are in
     * @param notGiven groups not yet given, as bits
     * @param givenHere how many groups were given at this position
     * @param early only the earliest place of all is tried, for a first good end
     */
    private void place(
        int position, int now, int wait, int wornOff, int notGiven, int givenHere, boolean early) {
      // The first way through is always run to its end, so that there is something to take.
      if ((++looked > limit && ended) || tooLate(position, now, wornOff, notGiven)) {
        return;
      }
      if (position == order.length) {
        finish(now, wait, wornOff);
        return;
      }
      int needed = neededAt(position) & notGiven;
      if (needed == 0 && (notGiven == 0 || !early)) {
        step(position, now, wait, wornOff, notGiven, early);
      }
      // Where the visit breaks a rule whatever its order, groups are simply given when needed.
      int giveable = staging.hopeless(set) ? needed : notGiven;
      for (int g = 0; g < groups; g++) {
        if ((giveable >>> g & 1) != 0) {
          at[g] = position;
          rank[g] = givenHere;
          start[g] = now;
          int given = now + dosing.groupSeconds()[g];
          place(position, given, wait, wornOff, notGiven & ~(1 << g), givenHere + 1, early);
        }
      }
    }

    private void step(int position, int now, int wait, int wornOff, int notGiven, boolean early) {
      int ready = now + changeBefore(position);
      int[] needs = dosing.needs()[order[position]];
      int from = ready;
      int lost = 0;
      if (needs != null) {
        for (int k = 0; k < needs.length; k += 3) {
          from = Math.max(from, start[needs[k]] + needs[k + 1]);
        }
      }
      int end = from + workAt(position);
      if (needs != null) {
        for (int k = 0; k < needs.length; k += 3) {
          lost += Math.max(0, end - start[needs[k]] - needs[k + 2]);
        }
      }
      place(position + 1, end, wait + from - ready, wornOff + lost, notGiven, 0, early);
    }

    private int neededAt(int position) {
      int[] needs = dosing.needs()[order[position]];
      int groupsNeeded = 0;
      if (needs != null) {
        for (int k = 0; k < needs.length; k += 3) {
          groupsNeeded |= 1 << needs[k];
        }
      }
      return groupsNeeded;
    }

    /** Whether nothing that follows can be better than what is known. */
    private boolean tooLate(int position, int now, int wornOff, int notGiven) {
      if (wornOff != bestWornOff) {
        return wornOff > bestWornOff;
      }
      int end = now + restFrom[position];
      for (int g = 0; g < groups; g++) {
        if ((notGiven >>> g & 1) != 0) {
          end += dosing.groupSeconds()[g];
        }
      }
      for (int g = 0; g < groups; g++) {
        if (firstNeed[g] >= position) {
          int from = (notGiven >>> g & 1) != 0 ? now : start[g];
          int need = firstNeed[g];
          end = Math.max(end, from + firstReady[g] + restFrom[need] - changeBefore(need));
        }
      }
      return placed ? end >= bestEnd : end > bestEnd;
    }

    private void finish(int now, int wait, int wornOff) {
      int end = now + staging.close();
      placed = true;
      ended = true;
      bestWornOff = wornOff;
      bestEnd = end;
      bestWait = wait;
      bestAt = at.clone();
      bestRank = rank.clone();
    }
  }

  /** H5 within a visit: pairs of steps of one area of which the later pass comes first. */
  private int outOfOrder(int[] order) {
    int pairs = 0;
    for (int i = 0; i < order.length; i++) {
      StepFact first = staging.steps().get(order[i]);
      for (int j = i + 1; j < order.length; j++) {
        StepFact second = staging.steps().get(order[j]);
        if (staging.mustPrecede(second, first)) {
          pairs++;
        }
      }
    }
    return pairs;
  }
}
