package quadrille.plan.bound;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.InjectionCover;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * A bound from argument, reckoned when it is first asked for: no course of the case's number of
 * visits costs less. It is the higher of two: one {@link PricedBound by prices}, and a plain one
 * for cases that are too large for it.
 *
 * <p>The plain one:
 *
 * <ul>
 *   <li>Every course sets up and closes each visit and does every step.
 *   <li>A place is an area with an insert. Each place is entered at least once, and only the first
 *       entry of a visit is free; an entry costs a move, or a tip change where the insert is new to
 *       the clinician's hand. Tips are changed at least as often as inserts are met anew: every
 *       visit meets its own, and where one side only is numbed in a visit, those that the numb work
 *       of the right wants and those that the left wants are met in different visits. Within a
 *       place, its aspects are met one after another.
 *   <li>All injections together numb all that must be numb, so they cost at least what the cheapest
 *       such set does.
 *   <li>Fine passes wait at least as long as if work could be poured into visits, the dearest to
 *       wait first.
 * </ul>
 */
public final class LowerBound {
  private static final double CARTRIDGE_ML = 1.8;

  private final StagingCase staging;
  private final Minutes minutes;
  private long seconds = -1;

  /**
   * A bound that is known from elsewhere.
   *
   * @param seconds no course of the case costs less
   */
  public LowerBound(StagingCase staging, long seconds) {
    this(staging);
    this.seconds = seconds;
  }

  public LowerBound(StagingCase staging) {
    this.staging = staging;
    this.minutes = staging.practice().minutes();
  }

  public StagingCase staging() {
    return staging;
  }

  /** A cost in seconds that no course of the case goes below. */
  public synchronized long seconds() {
    if (seconds < 0) {
      long plain = work() + changeovers() + injections() + waits();
      seconds = Math.max(plain, PricedBound.of(staging)) + staging.visitCost(staging.visits());
    }
    return seconds;
  }

  private long work() {
    long seconds =
        (long) staging.visits() * (staging.setUp() + staging.close()) + staging.frameSeconds();
    for (StepFact fact : staging.steps()) {
      seconds += fact.step().seconds() + staging.besideSeconds(fact);
    }
    return seconds;
  }

  private long changeovers() {
    int tip = minutes.tipChangeSeconds().asInt();
    int move = Math.min(tip, minutes.repositionAreaSeconds().asInt());
    int turn = Math.min(move, minutes.repositionAspectSeconds().asInt());
    Set<Integer> places = new TreeSet<>();
    Map<Integer, Set<StepAspect>> aspects = new HashMap<>();
    for (StepFact fact : staging.steps()) {
      int insert = staging.tipIndex(fact);
      places.add(fact.areaIndex() * 64 + insert);
      // Only what is surely in one visit: a pass of an area.
      aspects
          .computeIfAbsent(fact.blockIndex() * 64 + insert, key -> new TreeSet<>())
          .add(fact.step().aspect());
    }
    int turns = aspects.values().stream().mapToInt(met -> met.size() - 1).sum();
    int entries = Math.max(0, places.size() - staging.visits());
    int tipChanges = Math.min(entries, Math.max(0, insertsMet() - staging.visits()));
    return (long) tip * tipChanges + (long) move * (entries - tipChanges) + (long) turn * turns;
  }

  /** How many inserts are met anew, summed over the visits, at the least. */
  private int insertsMet() {
    Set<Integer> all = new TreeSet<>();
    Map<Side, Set<Integer>> numb = new EnumMap<>(Side.class);
    for (StepFact fact : staging.steps()) {
      int insert = staging.tipIndex(fact);
      all.add(insert);
      if (staging.bindsSide(fact)) {
        numb.computeIfAbsent(fact.step().area().quadrant().side(), side -> new TreeSet<>())
            .add(insert);
      }
    }
    if (!staging.practice().appointments().oneNumbSide()) {
      return all.size();
    }
    int met = 0;
    for (Set<Integer> inserts : numb.values()) {
      met += inserts.size();
      all.removeAll(inserts);
    }
    return met + all.size();
  }

  private long injections() {
    SortedSet<Target> needs = new TreeSet<>();
    for (StepFact fact : staging.steps()) {
      needs.addAll(fact.step().needs());
    }
    Cover cover = new InjectionCover(staging.practice(), staging.patient()).cheapest(needs);
    // The cover weighs cartridges as if they held 1.8 mL; larger ones cost less a millilitre.
    double largest =
        staging.practice().agents().values().stream()
            .mapToDouble(agent -> agent.cartridgeMl().value())
            .max()
            .orElse(CARTRIDGE_ML);
    double factor = Math.min(1, CARTRIDGE_ML / largest);
    // Each injection's cost was rounded to whole seconds.
    int rounded = Math.max(0, cover.costSeconds() - cover.injections().size());
    return (long) Math.floor(factor * rounded);
  }

  /** The cost of fine passes that wait, if each visit took as much fine work as it could hold. */
  private long waits() {
    double room =
        (staging.longestSeconds() - staging.setUp() - staging.close()) / staging.workFactor();
    if (room <= 0) {
      return 0;
    }
    Map<Integer, Integer> fine = new TreeMap<>();
    for (StepFact fact : staging.steps()) {
      Step step = fact.step();
      if (step.pass() == Pass.FINE) {
        fine.merge(fact.areaIndex(), step.seconds(), Integer::sum);
      }
    }
    List<Integer> areas = new ArrayList<>(fine.keySet());
    areas.sort(
        (one, other) ->
            Double.compare(
                (double) staging.lateCost(1L << other, 1) / fine.getOrDefault(other, 1),
                (double) staging.lateCost(1L << one, 1) / fine.getOrDefault(one, 1)));
    double cost = 0;
    double poured = 0;
    for (int area : areas) {
      double rest = fine.getOrDefault(area, 0);
      double rate = staging.lateCost(1L << area, 1) / rest;
      while (rest > 1e-9) {
        int visit = (int) Math.floor(poured / room + 1e-9);
        double here = Math.min(rest, (visit + 1) * room - poured);
        cost += rate * here * Math.min(visit, staging.visits() - 1);
        poured += here;
        rest -= here;
      }
    }
    return (long) Math.floor(cost);
  }
}
