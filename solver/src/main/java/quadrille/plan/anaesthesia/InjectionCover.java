package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.facts.practice.Weights;
import quadrille.plan.work.Target;

/**
 * Finds the cheapest injections that numb what must be numb, exactly.
 *
 * <p>An injection costs, in whole seconds: the time to give it, plus the practice's weight of an
 * injection times the patient's factor, plus its weight of a cartridge for each 1.8 mL. Between
 * sets of equal cost the one with less volume is taken, then the one with fewer injections, then
 * the one that comes first in the practice's table (right before left, front teeth first).
 *
 * <p>Each jaw is solved by itself: no injection reaches both. An injection that numbs both sides of
 * the midline is given once and serves both.
 *
 * <p>Answers are remembered, so an instance belongs to one thread.
 */
public final class InjectionCover {

  /** A cartridge for the purpose of weighing volume, so that the set does not hang on the agent. */
  private static final double CARTRIDGE_ML = 1.8;

  private static final double MOST_SECONDS = 10_000_000;
  private static final double MOST_ML = 100;

  /** Beyond this many remembered answers all are forgotten; the answers stay the same. */
  private static final int REMEMBERED = 100_000;

  private final Map<Jaw, JawCover> jaws = new EnumMap<>(Jaw.class);
  private final Map<Needs, Cover> covers = new HashMap<>();

  /**
   * Orders injections by the onset of the first agent that the patient may have; failing that, of
   * the first that the practice prefers; failing that, by the practice's table.
   */
  public InjectionCover(Practice practice, Patient patient) {
    this(practice, patient, likelyAgent(practice, patient));
  }

  /**
   * @param agent whose onset decides the giving order within a quadrant, or null to keep the order
   *     of the practice's table; it changes nothing else
   */
  public InjectionCover(Practice practice, Patient patient, @Nullable Agent agent) {
    for (Jaw jaw : Jaw.values()) {
      jaws.put(jaw, new JawCover(jaw, practice, patient, agent));
    }
  }

  /** The cheapest cover of some targets. */
  public Cover cheapest(Collection<Target> targets) {
    return cheapest(Needs.of(targets));
  }

  /** The cheapest cover of some targets. */
  public Cover cheapest(Needs needs) {
    Cover known = covers.get(needs);
    if (known != null) {
      return known;
    }
    if (covers.size() >= REMEMBERED) {
      covers.clear();
    }
    Cover cover = compose(needs);
    covers.put(needs, cover);
    return cover;
  }

  private Cover compose(Needs needs) {
    List<Candidate> chosen = new ArrayList<>();
    int cost = 0;
    for (Jaw jaw : Jaw.values()) {
      for (Candidate candidate : jaw(jaw).cheapest(needs.of(jaw))) {
        chosen.add(candidate);
        cost += candidate.cost();
      }
    }
    Needs uncoverable =
        new Needs(
            jaw(Jaw.UPPER).uncoverable(needs.upper()), jaw(Jaw.LOWER).uncoverable(needs.lower()));
    return new Cover(groups(chosen, needs), uncoverable.targets(), cost);
  }

  private JawCover jaw(Jaw jaw) {
    JawCover cover = jaws.get(jaw);
    if (cover == null) {
      throw new IllegalStateException("The jaw (" + jaw + ") must have been prepared.");
    }
    return cover;
  }

  private static List<Cover.Group> groups(List<Candidate> chosen, Needs needs) {
    List<Candidate> inOrder = new ArrayList<>(chosen);
    inOrder.sort(
        Comparator.comparing(Candidate::onsetSeconds, Comparator.reverseOrder())
            .thenComparing(Candidate::number));
    List<Cover.Group> groups = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      List<PlacedInjection> here = new ArrayList<>();
      for (Candidate candidate : inOrder) {
        PlacedInjection placed =
            candidate.placed().size() == 1
                ? candidate.placed().get(0)
                : candidate.placed().get(sharedSide(chosen, candidate, needs).ordinal());
        if (placed.quadrant() == quadrant) {
          here.add(placed);
        }
      }
      if (!here.isEmpty()) {
        groups.add(new Cover.Group(quadrant, here));
      }
    }
    return groups;
  }

  /**
   * Where an injection that numbs both sides is given: on the side that is numb anyway. Where both
   * are, with the group of its own jaw, the right one first; where neither is, on the side that
   * needs it, the right one first.
   */
  private static Side sharedSide(List<Candidate> chosen, Candidate shared, Needs needs) {
    boolean[] numb = new boolean[Side.values().length];
    boolean[] numbInJaw = new boolean[Side.values().length];
    for (Candidate candidate : chosen) {
      if (candidate.placed().size() == 1) {
        Quadrant quadrant = candidate.placed().get(0).quadrant();
        numb[quadrant.side().ordinal()] = true;
        numbInJaw[quadrant.side().ordinal()] |= quadrant.jaw() == shared.jaw();
      }
    }
    int right = Side.RIGHT.ordinal();
    int left = Side.LEFT.ordinal();
    if (numb[right] != numb[left]) {
      return numb[right] ? Side.RIGHT : Side.LEFT;
    }
    if (numb[right]) {
      return numbInJaw[right] || !numbInJaw[left] ? Side.RIGHT : Side.LEFT;
    }
    return needs.touches(Side.RIGHT) || !needs.touches(Side.LEFT) ? Side.RIGHT : Side.LEFT;
  }

  private static @Nullable Agent likelyAgent(Practice practice, Patient patient) {
    List<Agents.Choice> choices = Agents.choices(practice, patient);
    return choices.stream()
        .filter(Agents.Choice::allowed)
        .findFirst()
        .or(() -> choices.stream().findFirst())
        .map(Agents.Choice::agent)
        .orElse(null);
  }

  /**
   * An injection at a place, or at either of two for one that numbs both sides.
   *
   * @param number by the practice's table, then right before left, then from the midline
   * @param placed one, or the right and the left one
   */
  private record Candidate(
      int number, Jaw jaw, List<PlacedInjection> placed, long mask, int cost, int onsetSeconds) {

    Candidate {
      placed = List.copyOf(placed);
    }

    /** Cost first, then volume in microlitres, then one for the injection itself. */
    long weight() {
      long microlitres = Math.round(placed.get(0).ml() * 1000);
      return ((long) cost << 32) + (microlitres << 8) + 1;
    }
  }

  /** The candidates of one jaw, and the answers found so far. */
  private static final class JawCover {

    private final List<Candidate> candidates;
    private final CheapestCover cheapest;
    private final Map<Long, List<Candidate>> answers = new HashMap<>();

    JawCover(Jaw jaw, Practice practice, Patient patient, @Nullable Agent agent) {
      candidates = candidates(jaw, practice, patient, agent);
      cheapest =
          new CheapestCover(
              candidates.stream().mapToLong(Candidate::mask).toArray(),
              candidates.stream().mapToLong(Candidate::weight).toArray());
    }

    long uncoverable(long needs) {
      return needs & ~cheapest.coverable(needs);
    }

    List<Candidate> cheapest(long needs) {
      if (needs == 0) {
        return List.of();
      }
      List<Candidate> known = answers.get(needs);
      if (known != null) {
        return known;
      }
      if (answers.size() >= REMEMBERED) {
        answers.clear();
      }
      List<Candidate> found = new ArrayList<>();
      for (int number : cheapest.solve(cheapest.coverable(needs))) {
        found.add(candidates.get(number));
      }
      answers.put(needs, List.copyOf(found));
      return found;
    }

    private static List<Candidate> candidates(
        Jaw jaw, Practice practice, Patient patient, @Nullable Agent agent) {
      List<Candidate> candidates = new ArrayList<>();
      for (Injection injection : practice.injections().values()) {
        if (injection.jaw() == jaw) {
          int cost = cost(injection, practice, patient);
          int onset = agent == null ? 0 : Numbness.onsetSeconds(injection, agent);
          for (List<PlacedInjection> placed : places(injection)) {
            long mask = mask(placed.get(0));
            if (mask != 0) {
              candidates.add(new Candidate(candidates.size(), jaw, placed, mask, cost, onset));
            }
          }
        }
      }
      return candidates;
    }

    private static List<List<PlacedInjection>> places(Injection injection) {
      List<List<PlacedInjection>> places = new ArrayList<>();
      List<PlacedInjection> either = new ArrayList<>();
      for (Side side : Side.values()) {
        Quadrant quadrant = Quadrant.of(injection.jaw(), side);
        if (injection.perTooth()) {
          for (int position = 1; position <= 8; position++) {
            if (PlacedInjection.givenAt(injection, position)) {
              places.add(
                  List.of(new PlacedInjection(injection, quadrant, new Tooth(quadrant, position))));
            }
          }
        } else {
          either.add(new PlacedInjection(injection, quadrant, null));
        }
      }
      if (injection.bothSides() && !injection.perTooth()) {
        places.add(either);
      } else {
        either.forEach(placed -> places.add(List.of(placed)));
      }
      return places;
    }

    private static long mask(PlacedInjection placed) {
      long mask = 0;
      for (Tooth tooth : Tooth.values()) {
        for (Target.Kind kind : Target.Kind.values()) {
          Target target = new Target(tooth, kind);
          if (placed.numbs(target)) {
            mask |= Needs.bit(target);
          }
        }
      }
      return mask;
    }

    private static int cost(Injection injection, Practice practice, Patient patient) {
      Weights weights = practice.weights();
      PatientRules rules = PatientRules.of(practice, patient);
      double cost =
          PlacedInjection.seconds(injection, practice.numbing())
              + weights.injection().value() * rules.injectionWeightFactor()
              + (injection.technique() == Technique.BLOCK ? rules.blockPriceSeconds() : 0)
              + weights.cartridge().value() * injection.ml().value() / CARTRIDGE_ML;
      check(injection, "cost", cost, MOST_SECONDS, "s");
      check(injection, "volume", injection.ml().value(), MOST_ML, "mL");
      return (int) Math.round(cost);
    }

    private static void check(
        Injection injection, String what, double value, double most, String unit) {
      if (!(value >= 0 && value <= most)) {
        throw new IllegalArgumentException(
            "The "
                + what
                + " ("
                + value
                + " "
                + unit
                + ") of the injection ("
                + injection.name()
                + ") must be 0 to "
                + most
                + " "
                + unit
                + ".");
      }
    }
  }
}
