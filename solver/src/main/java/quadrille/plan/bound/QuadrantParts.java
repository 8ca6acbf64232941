package quadrille.plan.bound;

import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.InjectionCover;
import quadrille.plan.anaesthesia.Needs;
import quadrille.plan.visit.Block;
import quadrille.plan.visit.SetEvaluation;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitEvaluator;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * What each part of a quadrant's blocks adds to a visit that holds it, at the least, whatever else
 * the visit holds. A part is a set of blocks, as bits by their place in {@link #blocks}.
 *
 * <p>A visit changes over at least as follows. A place is an area with an insert. Every change of
 * the insert, and every move to another area with the same insert, enters a place; each place is
 * entered at least once, and only the first entry of a visit is free. So there are at least places
 * less one entries, each a move at least, and what a change of insert costs beyond a move is at
 * least the {@link InsertWalks cheapest walk}. Within a place, each aspect beyond the first takes a
 * turn, or one more entry, which costs no less. Places and turns add up over quadrants.
 */
final class QuadrantParts {

  /** No more blocks a quadrant are gone through. */
  static final int MOST = 10;

  final Quadrant quadrant;
  final int[] blocks;

  /** Inserts, as bits. */
  final int[] inserts;

  /** Seconds of work, gel, entries and turns, and of injections where they are certain. */
  final double[] chair;

  /** Working seconds beyond the plan that must be booked for certainty. */
  final double[] reserve;

  /** Seconds that each fine quadrant, injection and millilitre costs beside its time. */
  final double[] soft;

  /** Millilitres, where injections are certain; else 0. */
  final double[] ml;

  /**
   * Cost of injections in time and otherwise, where they are not certain; on one numb side only.
   *
   * <p>Nothing cheaper numbs a larger set of targets, so it holds whatever the visit holds beside.
   */
  final double[] cover;

  /** Whether it binds the visit's numbness to the quadrant's side. */
  final boolean[] sided;

  /** Whether it can be in no legal visit, since no agent keeps the dose limits. */
  final boolean[] banned;

  /** Inserts of the steps that wait for numbness, where injections are certain. */
  final int[] numbInserts;

  /** Places of the steps that wait for numbness. */
  final int[] numbPlaces;

  /** Seconds from the start of its injections until the first of its steps can begin. */
  final double[] ready;

  /** Seconds of the steps that wait for numbness, and of their turns. */
  final double[] numbWork;

  private final StagingCase staging;
  private final InsertWalks walks;
  private final VisitEvaluator evaluator;

  /**
   * @param sharing what can be said of injections that numb both sides
   */
  QuadrantParts(
      StagingCase staging,
      Quadrant quadrant,
      InsertWalks walks,
      VisitEvaluator evaluator,
      InjectionCover covers,
      SharedInjections sharing) {
    this.staging = staging;
    this.quadrant = quadrant;
    this.walks = walks;
    this.evaluator = evaluator;
    this.blocks =
        staging.blocks().stream()
            .filter(block -> block.area().quadrant() == quadrant)
            .mapToInt(Block::index)
            .toArray();
    int parts = 1 << blocks.length;
    this.inserts = new int[parts];
    this.chair = new double[parts];
    this.reserve = new double[parts];
    this.soft = new double[parts];
    this.ml = new double[parts];
    this.cover = new double[parts];
    this.sided = new boolean[parts];
    this.banned = new boolean[parts];
    this.numbInserts = new int[parts];
    this.numbPlaces = new int[parts];
    this.ready = new double[parts];
    this.numbWork = new double[parts];
    SharedInjections.Mode mode = sharing.mode(quadrant.jaw());
    for (int part = 1; part < parts; part++) {
      StepSet steps = steps(part);
      reckonWork(part, steps);
      SortedSet<Target> needs = new TreeSet<>();
      for (int index : steps.members()) {
        needs.addAll(staging.steps().get(index).step().needs());
      }
      sided[part] = needs.stream().anyMatch(staging::bindsSide);
      switch (mode) {
        case EXACT -> {
          Cover cheapest = covers.cheapest(needs);
          if (sharing.certain(cheapest, needs)) {
            reckonInjections(part, steps, cheapest, sharing);
          } else {
            cover[part] = sharing.atLeast(cheapest.costSeconds());
          }
        }
        case ONE_SIDE -> cover[part] = sharing.atLeast(covers.cheapest(needs).costSeconds());
        case BOTH_SIDES -> {
          needs.removeIf(sharing::shared);
          cover[part] = sharing.atLeast(covers.cheapest(Needs.of(needs)).costSeconds());
        }
      }
    }
  }

  /** How many parts there are, the empty one with them. */
  int size() {
    return inserts.length;
  }

  private StepSet steps(int part) {
    StepSet steps = StepSet.EMPTY;
    for (int i = 0; i < blocks.length; i++) {
      if ((part >>> i & 1) != 0) {
        steps = steps.union(staging.blocks().get(blocks[i]).steps());
      }
    }
    return steps;
  }

  private void reckonWork(int part, StepSet steps) {
    int work = 0;
    boolean fine = false;
    for (int index : steps.members()) {
      StepFact fact = staging.steps().get(index);
      work += fact.step().seconds();
      chair[part] += seconds(fact);
      inserts[part] |= 1 << walks.number(staging, fact);
      fine |= fact.step().pass() == Pass.FINE;
    }
    Map<Integer, Set<StepAspect>> places = places(steps, false);
    chair[part] += walks.move() * places.size() + turns(places);
    reserve[part] = (staging.workFactor() - 1) * work;
    soft[part] = fine ? staging.practice().weights().splitQuadrant().value() : 0;
  }

  private int seconds(StepFact fact) {
    return fact.step().seconds() + staging.besideSeconds(fact);
  }

  /** By place, the aspects met. */
  private Map<Integer, Set<StepAspect>> places(StepSet steps, boolean numbOnly) {
    Map<Integer, Set<StepAspect>> places = new TreeMap<>();
    for (int index : steps.members()) {
      StepFact fact = staging.steps().get(index);
      if (!numbOnly || !fact.step().needs().isEmpty()) {
        int place = fact.areaIndex() * StepSet.CAPACITY + walks.number(staging, fact);
        places.computeIfAbsent(place, key -> new TreeSet<>()).add(fact.step().aspect());
      }
    }
    return places;
  }

  private double turns(Map<Integer, Set<StepAspect>> places) {
    return walks.turn() * places.values().stream().mapToInt(met -> met.size() - 1).sum();
  }

  /**
   * Where no injection serves two quadrants, a legal visit that holds the part gives in this
   * quadrant exactly the part's own injections.
   */
  private void reckonInjections(
      int part, StepSet steps, Cover injections, SharedInjections sharing) {
    chair[part] += injections.seconds(staging.practice().numbing());
    soft[part] += sharing.weight() * injections.injections().size();
    ml[part] = injections.ml();
    if (injections.injections().isEmpty()) {
      return;
    }
    SetEvaluation set = evaluator.set(steps);
    banned[part] = set.dosings().get(0).excess() > 0;
    ready[part] = Double.MAX_VALUE;
    for (int index : steps.members()) {
      StepFact fact = staging.steps().get(index);
      if (!fact.step().needs().isEmpty()) {
        numbInserts[part] |= 1 << walks.number(staging, fact);
        numbWork[part] += seconds(fact);
        ready[part] = Math.min(ready[part], soonest(set, index));
      }
    }
    Map<Integer, Set<StepAspect>> places = places(steps, true);
    numbPlaces[part] = places.size();
    numbWork[part] += turns(places);
  }

  /** A larger visit has no agents to choose from that a part of it has not. */
  private static double soonest(SetEvaluation set, int step) {
    double soonest = Double.MAX_VALUE;
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      int[] needs = dosing.needs()[step];
      double all = 0;
      if (needs != null) {
        for (int k = 0; k < needs.length; k += 3) {
          all = Math.max(all, needs[k + 1]);
        }
      }
      soonest = Math.min(soonest, all);
    }
    return soonest;
  }
}
