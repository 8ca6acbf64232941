package quadrille.reference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Target;

/**
 * The cheapest injections that numb what a visit needs, by depth-first branch and bound, jaw by jaw
 * and for either numb side; of those that cost the same the ones of less volume, then fewer, then
 * first in the table.
 */
final class Injections {
  private final Problem problem;
  private final Practice practice;
  private final Map<Asked, Ranked> known = new HashMap<>();

  /** Which side may be numb. */
  private enum Numb {
    /** Only what does not bind to a side: front teeth by infiltration. */
    FRONT,
    RIGHT,
    LEFT
  }

  private record Asked(
      List<Target> needs, Jaw jaw, Numb numb, Agent agent, @Nullable Agent second, double least) {}

  /** Injections of a jaw, or of both; none where nothing numbs all of it. */
  private record Ranked(List<Shot> shots, double cost, long microlitres) {
    static final Ranked NOTHING_DOES = new Ranked(List.of(), Double.POSITIVE_INFINITY, 0);
    static final Comparator<Ranked> ORDER =
        Comparator.comparingDouble(Ranked::cost)
            .thenComparingLong(Ranked::microlitres)
            .thenComparingInt(ranked -> ranked.shots.size())
            .thenComparing(
                ranked -> ranked.shots.stream().mapToInt(Shot::number).toArray(), Arrays::compare);

    Ranked and(Ranked other) {
      List<Shot> both = new ArrayList<>(shots);
      both.addAll(other.shots);
      return new Ranked(both, cost + other.cost, microlitres + other.microlitres);
    }
  }

  Injections(Problem problem) {
    this.problem = problem;
    this.practice = problem.practice();
  }

  /**
   * Every choice that a visit has, as it is to be tried: the agents in the practice's order, with
   * each the cheapest injections, then the cheapest of those whose volume lasts longer. A second
   * agent joins only where the first alone does not numb all of it dependably.
   */
  List<List<Shot>> choices(SortedSet<Target> needs) {
    List<List<Shot>> all = new ArrayList<>();
    for (Agent agent : problem.agents()) {
      List<List<Shot>> some = lasting(needs, agent, null);
      if (some.isEmpty()) {
        some = new ArrayList<>();
        for (Agent second : problem.agents()) {
          some.addAll(second.equals(agent) ? List.of() : lasting(needs, agent, second));
        }
      }
      all.addAll(some);
    }
    return all;
  }

  private List<List<Shot>> lasting(SortedSet<Target> needs, Agent agent, @Nullable Agent second) {
    SortedSet<Double> least = new TreeSet<>();
    for (Injection kind : practice.injections().values()) {
      for (Injection.Volume volume : kind.volumes()) {
        least.add(new Shot(0, kind, Quadrant.UR, null, volume, agent).volumeLasts());
      }
    }
    List<List<Shot>> some = new ArrayList<>();
    for (double minutes : least) {
      List<Shot> shots = cheapest(needs, agent, second, minutes);
      if (shots.isEmpty()) {
        break;
      }
      if (!some.contains(shots)) {
        some.add(shots);
      }
    }
    return some;
  }

  private List<Shot> cheapest(
      SortedSet<Target> needs, Agent agent, @Nullable Agent second, double least) {
    boolean right = needs.stream().anyMatch(target -> side(target) == Side.RIGHT);
    boolean left = needs.stream().anyMatch(target -> side(target) == Side.LEFT);
    Ranked best = Ranked.NOTHING_DOES;
    if (right && left) {
      best = of(needs, Numb.FRONT, agent, second, least);
    }
    if (best.shots().isEmpty()) {
      Ranked one = of(needs, Numb.RIGHT, agent, second, least);
      Ranked other = of(needs, Numb.LEFT, agent, second, least);
      best = Ranked.ORDER.compare(one, other) <= 0 ? one : other;
    }
    return placed(best.shots(), right);
  }

  private static Side side(Target target) {
    return target.tooth().quadrant().side();
  }

  private Ranked of(
      Collection<Target> needs, Numb numb, Agent agent, @Nullable Agent second, double least) {
    Ranked all = new Ranked(List.of(), 0, 0);
    for (Jaw jaw : Jaw.values()) {
      List<Target> here =
          needs.stream().filter(target -> target.tooth().quadrant().jaw() == jaw).toList();
      if (!here.isEmpty()) {
        Asked asked = new Asked(here, jaw, numb, agent, second, least);
        Ranked some = known.get(asked);
        if (some == null) {
          some = new Cheapest(here, shots(asked)).found();
          known.put(asked, some);
        }
        if (some.shots().isEmpty()) {
          return Ranked.NOTHING_DOES;
        }
        all = all.and(some);
      }
    }
    return all;
  }

  /** What numbs both sides is given on the side that is numb anyway. */
  private static List<Shot> placed(List<Shot> shots, boolean needsRight) {
    List<Shot> placed = new ArrayList<>();
    for (Shot shot : shots) {
      if (!shot.kind().bothSides()) {
        placed.add(shot);
        continue;
      }
      SortedSet<Side> numb = new TreeSet<>();
      SortedSet<Side> numbInJaw = new TreeSet<>();
      for (Shot other : shots) {
        if (!other.kind().bothSides()) {
          numb.add(other.quadrant().side());
          if (other.kind().jaw() == shot.kind().jaw()) {
            numbInJaw.add(other.quadrant().side());
          }
        }
      }
      boolean onLeft =
          switch (numb.size()) {
            case 0 -> !needsRight;
            case 1 -> numb.first() == Side.LEFT;
            default -> numbInJaw.size() == 1 && numbInJaw.first() == Side.LEFT;
          };
      placed.add(shot.on(onLeft ? Side.LEFT : Side.RIGHT));
    }
    return placed;
  }

  private List<Shot> shots(Asked asked) {
    List<Shot> shots = new ArrayList<>();
    int number = 0;
    List<Agent> agents =
        asked.second() == null ? List.of(asked.agent()) : List.of(asked.agent(), asked.second());
    for (Agent agent : agents) {
      for (Injection kind : practice.injections().values()) {
        for (Side side : Side.values()) {
          Quadrant quadrant = Quadrant.of(kind.jaw(), side);
          for (int position = 1; position <= (kind.perTooth() ? 8 : 1); position++) {
            Tooth tooth = kind.perTooth() ? new Tooth(quadrant, position) : null;
            for (Injection.Volume volume : kind.volumes()) {
              Shot shot = new Shot(number++, kind, quadrant, tooth, volume, agent);
              Shot first = new Shot(0, kind, quadrant, tooth, volume, asked.agent());
              if (mayBe(shot, asked) && (agent == asked.agent() || numbsOther(shot, first))) {
                shots.add(shot);
              }
            }
          }
        }
      }
    }
    return shots;
  }

  private boolean mayBe(Shot shot, Asked asked) {
    boolean twice = shot.kind().bothSides() && shot.quadrant().side() == Side.LEFT;
    boolean lasts = !shot.numbsPulp() || shot.volumeLasts() >= asked.least();
    boolean side =
        !shot.binds(practice) || shot.quadrant().side().name().equals(asked.numb().name());
    return shot.kind().jaw() == asked.jaw() && !twice && lasts && side;
  }

  /** A second agent is given only where it is more or less dependable than the first. */
  private static boolean numbsOther(Shot shot, Shot first) {
    return Tooth.values().stream()
        .flatMap(tooth -> Arrays.stream(Target.Kind.values()).map(kind -> new Target(tooth, kind)))
        .anyMatch(target -> shot.numbs(target) != first.numbs(target));
  }

  /** An injection's share of the cost, by which sets are compared. */
  private long cost(Shot shot) {
    return Math.round(
        shot.seconds(practice)
            + problem.injectionWeight()
            + (shot.deepBlock() ? problem.blockPrice() : 0)
            + practice.weights().cartridge().value() * shot.ml() / 1.8);
  }

  /** The cheapest cover of some targets by some injections. */
  private final class Cheapest {
    private final List<Shot> shots = new ArrayList<>();
    private final List<Long> numbs = new ArrayList<>();
    private final List<List<Integer>> byTarget = new ArrayList<>();
    private final double[] share;
    private Ranked best = Ranked.NOTHING_DOES;

    Cheapest(List<Target> needs, List<Shot> all) {
      if (needs.size() > 62) {
        throw new IllegalArgumentException("There is too much to numb.");
      }
      List<Long> bits = new ArrayList<>();
      for (Shot shot : all) {
        long mine = 0;
        for (int t = 0; t < needs.size(); t++) {
          mine |= shot.numbs(needs.get(t)) ? 1L << t : 0;
        }
        bits.add(mine);
      }
      for (int i = 0; i < all.size(); i++) {
        int which = i;
        boolean useless =
            bits.get(i) == 0
                || java.util.stream.IntStream.range(0, all.size())
                    .anyMatch(
                        j ->
                            (bits.get(which) & ~bits.get(j)) == 0
                                && better(all.get(j), all.get(which)));
        if (!useless) {
          shots.add(all.get(i));
          numbs.add(bits.get(i));
        }
      }
      share = new double[needs.size()];
      Arrays.fill(share, Double.POSITIVE_INFINITY);
      for (int t = 0; t < needs.size(); t++) {
        List<Integer> some = new ArrayList<>();
        for (int i = 0; i < shots.size(); i++) {
          if ((numbs.get(i) >> t & 1) == 1) {
            some.add(i);
            share[t] =
                Math.min(share[t], cost(shots.get(i)) / (double) Long.bitCount(numbs.get(i)));
          }
        }
        byTarget.add(some);
      }
      seek((1L << needs.size()) - 1, new ArrayList<>(), 0);
    }

    /** Whether an injection that numbs as much is to be taken instead. */
    private boolean better(Shot one, Shot other) {
      return Comparator.comparingLong(Injections.this::cost)
              .thenComparingLong(Shot::microlitres)
              .thenComparingInt(Shot::number)
              .compare(one, other)
          < 0;
    }

    private void seek(long left, List<Integer> taken, long soFar) {
      if (left == 0) {
        List<Shot> some = taken.stream().sorted().map(shots::get).toList();
        Ranked found = new Ranked(some, soFar, some.stream().mapToLong(Shot::microlitres).sum());
        best = Ranked.ORDER.compare(found, best) < 0 ? found : best;
        return;
      }
      double atLeast = soFar;
      int next = -1;
      for (long rest = left; rest != 0; rest &= rest - 1) {
        int target = Long.numberOfTrailingZeros(rest);
        atLeast += share[target];
        if (next < 0 || byTarget.get(target).size() < byTarget.get(next).size()) {
          next = target;
        }
      }
      if (atLeast > best.cost() + 1e-6) {
        return;
      }
      for (int shot : byTarget.get(next)) {
        taken.add(shot);
        seek(left & ~numbs.get(shot), taken, soFar + cost(shots.get(shot)));
        taken.remove(taken.size() - 1);
      }
    }

    Ranked found() {
      return best;
    }
  }
}
