package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.anaesthesia.Agents;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.InjectionCover;
import quadrille.plan.anaesthesia.Needs;
import quadrille.plan.anaesthesia.Numbness;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * Reckons what follows from which steps a visit holds: work, inserts, the cheapest injections, and
 * the agents that could be given. Remembers what it has reckoned, and so is for one thread at a
 * time.
 */
final class SetEvaluator {
  private static final int NEVER = Integer.MAX_VALUE / 4;

  private final StagingCase staging;
  private final Commitments earlier;
  private final InjectionCover covers;
  private final Doses doses;
  private final List<Agent> agents;
  private final Map<StepSet, SetEvaluation> sets = new HashMap<>();

  /**
   * @param earlier what was given before on the day of the visit; {@link Commitments#NONE} where
   *     nothing was
   */
  SetEvaluator(StagingCase staging, Commitments earlier) {
    this.staging = staging;
    this.earlier = earlier;
    this.covers = new InjectionCover(staging.practice(), staging.patient());
    this.doses = new Doses(staging.practice(), staging.patient());
    this.agents = Agents.allowed(staging.practice(), staging.patient());
  }

  /** What follows from the steps; remembered. */
  SetEvaluation evaluate(StepSet steps) {
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
    int chart = 0;
    int wrongInsert = 0;
    long inserts = 0;
    long fineQuadrants = 0;
    long areas = 0;
    long[] areasByPass = new long[3];
    StepSet blocks = StepSet.EMPTY;
    SortedSet<Target> needs = new TreeSet<>();
    for (int index : members.members()) {
      StepFact fact = staging.steps().get(index);
      Step step = fact.step();
      work += step.seconds();
      gel += step.gel() ? aspects(step) : 0;
      chart += step.chartSecondsAfter();
      wrongInsert += rightInsert(step) ? 0 : 1;
      inserts |= 1L << staging.insertIndex(fact);
      needs.addAll(step.needs());
      if (step.pass() == Pass.FINE) {
        fineQuadrants |= 1L << step.area().quadrant().ordinal();
      }
      if (step.pass() != Pass.IMPLANT_CARE) {
        areasByPass[step.pass().ordinal()] |= 1L << fact.areaIndex();
      }
      areas |= 1L << fact.areaIndex();
      blocks = blocks.with(fact.blockIndex());
    }
    return new SetEvaluation(
        members,
        members.size(),
        work,
        gel,
        chart,
        blocks,
        areas,
        areasByPass,
        Long.bitCount(fineQuadrants),
        inserts,
        wrongInsert,
        dosings(members, needs));
  }

  /**
   * H7: an implant meets only a sleeved insert at low power, or hand instruments made for implants,
   * and these meet only implants.
   */
  private static boolean rightInsert(Step step) {
    return step.implant() == step.insert().forImplants()
        && (!step.insert().sleeved() || step.power() == Power.LOW);
  }

  /** Agents that the patient may have, best first. */
  List<Agent> agents() {
    return agents;
  }

  /** The covers that a visit may choose from with an agent, or two. */
  List<Cover> covers(Needs needs, Agent first, @Nullable Agent second) {
    return covers.covers(needs, first, second);
  }

  /** By how much a cover breaks the rules of sides, and what it leaves without numbness. */
  int broken(Cover cover) {
    boolean oneSide = staging.practice().appointments().oneNumbSide();
    return cover.uncoverable().size() + doubleBlocks(cover) + (oneSide ? secondSide(cover) : 0);
  }

  private int secondSide(Cover cover) {
    int right = 0;
    int left = 0;
    for (PlacedInjection injection :
        cover.sided(staging.practice().appointments().midlineInfiltration())) {
      if (injection.quadrant().side() == Side.RIGHT) {
        right++;
      } else {
        left++;
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

  private List<SetEvaluation.Dosing> dosings(StepSet members, SortedSet<Target> targets) {
    SortedMap<Quadrant, Double> gel = gelCartridges(members);
    if (targets.isEmpty()) {
      return List.of(dosing(members, Cover.NONE, 0, gel, excess(Cover.NONE, gel)));
    }
    Needs needs = Needs.of(targets);
    if (agents.isEmpty()) {
      Cover some = covers.cheapest(needs);
      return List.of(dosing(members, some, targets.size(), gel, excess(some, gel)));
    }
    return new Dosings(this, members, needs, gel);
  }

  private int workSeconds(StepSet members) {
    return Arrays.stream(members.members()).map(i -> staging.steps().get(i).step().seconds()).sum();
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

  /** How many injections that may fail could not be given once more. */
  private int noRoomToRepeat(Cover cover, SortedMap<Quadrant, Double> gel) {
    int without = 0;
    for (PlacedInjection placed : cover.injections()) {
      Agent agent = placed.agent();
      if (placed.injection().failureShare() != null && agent != null) {
        List<Doses.Amount> more = new ArrayList<>(cover.amounts());
        more.add(new Doses.Amount(agent, placed.ml()));
        without += doses.check(more, gel, List.of()).allowed() ? 0 : 1;
      }
    }
    return without;
  }

  /** By how much the doses are overstepped, with what was given before on the day. */
  int excess(Cover cover, SortedMap<Quadrant, Double> gel) {
    List<Doses.Amount> amounts = cover.amounts();
    SortedMap<Quadrant, Double> gelOfDay = new TreeMap<>(gel);
    boolean given = earlier.anythingGiven() && !(amounts.isEmpty() && gel.isEmpty());
    if (given) {
      earlier
          .gelCartridges()
          .forEach((quadrant, more) -> gelOfDay.merge(quadrant, more, Double::sum));
    }
    Doses.Check day = doses.check(amounts, gelOfDay, given ? earlier.given() : List.of());
    int excess =
        Math.max(0, StagingCase.permille(day.share()) - 1000)
            + Math.max(0, StagingCase.micrograms(day.epinephrineMg()) - cap(day));
    return excess == 0 && !day.allowed() ? 1 : excess;
  }

  /** Shares are the visit's own; what is too much is judged with what was given before. */
  SetEvaluation.Dosing dosing(
      StepSet members, Cover cover, int unnumbable, SortedMap<Quadrant, Double> gel, int excess) {
    Doses.Check own = doses.check(cover.amounts(), gel, List.of());
    Numbing numbing = staging.practice().numbing();
    return new SetEvaluation.Dosing(
        cover,
        secondSide(cover),
        doubleBlocks(cover),
        unnumbable,
        own.shares(),
        StagingCase.permille(own.share()),
        StagingCase.micrograms(own.epinephrineMg()),
        excess,
        own.cartridges(),
        noRoomToRepeat(cover, gel),
        staging.neededWorkSeconds(workSeconds(members), cover),
        cover.groups().stream().mapToInt(group -> group.seconds(numbing)).toArray(),
        needs(members, cover, numbing));
  }

  private static int cap(Doses.Check check) {
    return (int) Math.floor(1000 * check.epinephrineCapMg() + 1e-6);
  }

  private int[][] needs(StepSet members, Cover cover, Numbing numbing) {
    int[][] all = new int[staging.steps().size()][];
    Map<Target, Optional<int[]>> known = new HashMap<>();
    for (int index : members.members()) {
      SortedSet<Target> targets = staging.steps().get(index).step().needs();
      if (!targets.isEmpty()) {
        all[index] = waits(targets, known, cover, numbing);
      }
    }
    if (staging.numbFirst()) {
      numbFirst(members, all, cover.groups().size());
    }
    return all;
  }

  /** Every step of a quadrant waits for all that is numbed for any of them. */
  private void numbFirst(StepSet members, int[][] all, int groups) {
    int[][] ready = new int[4][groups];
    for (int index : members.members()) {
      int[] triples = all[index];
      for (int k = 0; triples != null && k < triples.length; k += 3) {
        int[] here = ready[staging.quadrant(index)];
        here[triples[k]] = Math.max(here[triples[k]], triples[k + 1]);
      }
    }
    for (int index : members.members()) {
      int[] here = ready[staging.quadrant(index)];
      int[] wornOff = new int[groups];
      Arrays.fill(wornOff, NEVER);
      int[] own = all[index];
      for (int k = 0; own != null && k < own.length; k += 3) {
        wornOff[own[k]] = own[k + 2];
      }
      int[] triples =
          IntStream.range(0, groups)
              .filter(g -> here[g] > 0)
              .flatMap(g -> IntStream.of(g, here[g], wornOff[g]))
              .toArray();
      all[index] = triples.length == 0 ? null : triples;
    }
  }

  /** Group, seconds until numb and until it wears off; of the first injection that numbs it. */
  private static int @Nullable [] numbed(Target target, Cover cover, Numbing numbing) {
    for (int g = 0; g < cover.groups().size(); g++) {
      int end = 0;
      for (PlacedInjection injection : cover.groups().get(g).injections()) {
        end += injection.seconds(numbing);
        Agent agent = injection.agent();
        if (agent != null && injection.numbs(target)) {
          int onset = Numbness.onsetSeconds(injection.injection(), agent, target.kind());
          int lasts = Numbness.lastsSeconds(injection, agent, target.kind());
          return new int[] {g, end + onset, end + lasts};
        }
      }
    }
    return null;
  }

  private static int[] waits(
      SortedSet<Target> targets, Map<Target, Optional<int[]>> known, Cover cover, Numbing numbing) {
    int groups = cover.groups().size();
    int[] ready = new int[groups];
    int[] wornOff = new int[groups];
    Arrays.fill(ready, -1);
    Arrays.fill(wornOff, NEVER);
    for (Target target : targets) {
      known
          .computeIfAbsent(target, one -> Optional.ofNullable(numbed(one, cover, numbing)))
          .ifPresent(
              times -> {
                ready[times[0]] = Math.max(ready[times[0]], times[1]);
                wornOff[times[0]] = Math.min(wornOff[times[0]], times[2]);
              });
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
    return Arrays.copyOf(triples, used);
  }
}
