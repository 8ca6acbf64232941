package quadrille.plan.bound;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.visit.Block;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.work.Target;

/** What a bound may say of injections, since some numb both sides of the midline. */
final class SharedInjections {
  private static final double CARTRIDGE_ML = 1.8;

  private final StagingCase staging;
  private final Map<Jaw, Mode> modes = new EnumMap<>(Jaw.class);
  private final List<PlacedInjection> bothSides = new ArrayList<>();
  private final double weight;
  private final double cartridgeMl;
  private final double factor;

  /** How the injections of a quadrant can be counted. */
  enum Mode {
    /** No injection of a legal visit serves both quadrants of the jaw. */
    EXACT,
    /** One may, but each visit is numb on one side. */
    ONE_SIDE,
    /** One may, and a visit may be numb on both sides. */
    BOTH_SIDES
  }

  SharedInjections(StagingCase staging) {
    this.staging = staging;
    Practice practice = staging.practice();
    this.weight = staging.injectionWeight();
    this.cartridgeMl =
        practice.agents().values().stream()
            .mapToDouble(agent -> agent.cartridgeMl().value())
            .max()
            .orElse(CARTRIDGE_ML);
    double least = Double.MAX_VALUE;
    for (Injection injection : practice.injections().values()) {
      if (injection.bothSides()) {
        for (Side side : Side.values()) {
          if (!injection.perTooth()) {
            bothSides.add(new PlacedInjection(injection, Quadrant.of(injection.jaw(), side), null));
          }
        }
      }
      least = Math.min(least, practice.numbing().handlingSeconds().value() + weight);
    }
    // A cover counts each injection's cost rounded, and cartridges as if they held 1.8 mL.
    double rounding = least > 1 ? 1 - 0.5 / (least - 0.5) : 0;
    this.factor = rounding * Math.min(1, CARTRIDGE_ML / cartridgeMl);
    for (Jaw jaw : Jaw.values()) {
      modes.put(jaw, reckonMode(jaw));
    }
  }

  private Mode reckonMode(Jaw jaw) {
    SortedSet<Side> sides = new TreeSet<>();
    boolean free = false;
    for (Block block : staging.blocks()) {
      if (block.area().quadrant().jaw() == jaw) {
        List<Target> needs = new ArrayList<>();
        for (int index : block.steps().members()) {
          needs.addAll(staging.steps().get(index).step().needs());
        }
        if (needs.stream().anyMatch(this::shared)) {
          sides.add(block.area().quadrant().side());
        }
        free |= !needs.isEmpty() && needs.stream().noneMatch(staging::bindsSide);
      }
    }
    if (sides.isEmpty()) {
      return Mode.EXACT;
    }
    if (!staging.practice().appointments().oneNumbSide()) {
      // Even what one side alone needs may be given with the other side's group.
      return Mode.BOTH_SIDES;
    }
    if (sides.size() < 2) {
      return Mode.EXACT;
    }
    return free ? Mode.ONE_SIDE : Mode.EXACT;
  }

  Mode mode(Jaw jaw) {
    Mode mode = modes.get(jaw);
    if (mode == null) {
      throw new IllegalStateException("The jaw (" + jaw + ") must have been looked at.");
    }
    return mode;
  }

  /** Whether some injection that numbs both sides numbs the target. */
  boolean shared(Target target) {
    return bothSides.stream().anyMatch(injection -> injection.numbs(target));
  }

  /**
   * Whether a visit gives just these injections for what they numb, as far as it numbs nothing else
   * in the quadrant: whatever its agents, however long it lasts, and on whichever side it is numb.
   *
   * @param cheapest the cheapest with whatever agent
   */
  boolean certain(Cover cheapest, Collection<Target> needs) {
    boolean bound = needs.stream().anyMatch(staging::bindsSide);
    Appointments appointments = staging.practice().appointments();
    boolean midline = appointments.midlineInfiltration();
    return cheapest.injections().stream().allMatch(SharedInjections::lasts)
        && (appointments.oneNumbSide()
            || cheapest.injections().stream().noneMatch(one -> one.injection().neverBothSides()))
        && (bound || cheapest.sided(midline).isEmpty())
        && needs.stream()
            .allMatch(
                target ->
                    cheapest.injections().stream()
                        .anyMatch(injection -> injection.numbsWithAnyAgent(target)));
  }

  private static boolean lasts(PlacedInjection placed) {
    return placed.injection().volumes().get(placed.volume()).pulpalMinutes() == null;
  }

  /** Cost of an injection beside its time and volume, in seconds. */
  double weight() {
    return weight;
  }

  /** What the largest cartridge of the practice holds, in mL. */
  double cartridgeMl() {
    return cartridgeMl;
  }

  /** What injections cost at the least, in time and otherwise, by a cover's rounded cost. */
  double atLeast(int coverSeconds) {
    return factor * coverSeconds;
  }
}
