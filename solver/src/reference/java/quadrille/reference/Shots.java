package quadrille.reference;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Target;

/**
 * The cheapest injections of one quadrant, the shared one over the midline among them: all sets of
 * injections stand in order of cost, volume, number and place in the table, and the first that
 * numbs what is wanted is taken.
 */
final class Shots {
  private final List<Target> targets;
  private final List<Some> inOrder = new ArrayList<>();

  /**
   * A set of injections.
   *
   * @param numbs as bits of the targets
   */
  record Some(List<Shot> shots, long numbs, double cost, long microlitres) {
    static final Comparator<Some> ORDER =
        Comparator.comparingDouble(Some::cost)
            .thenComparingLong(Some::microlitres)
            .thenComparingInt(some -> some.shots.size())
            .thenComparing(Some::firstInTable);

    private static int firstInTable(Some one, Some other) {
      for (int i = 0; i < one.shots.size(); i++) {
        int by = Integer.compare(one.shots.get(i).number(), other.shots.get(i).number());
        if (by != 0) {
          return by;
        }
      }
      return 0;
    }
  }

  /**
   * @param targets all that may have to be numb in the quadrant, at most 63
   */
  Shots(Problem problem, Quadrant quadrant, Collection<Target> targets) {
    this.targets = List.copyOf(targets);
    List<Shot> places = new ArrayList<>();
    for (Shot shot : places(problem.practice(), quadrant.jaw())) {
      boolean here = shot.quadrant() == quadrant || shot.kind().bothSides();
      if (here && targets.stream().anyMatch(shot::numbs)) {
        places.add(shot);
      }
    }
    if (this.targets.size() > 63 || places.size() > 20) {
      throw new IllegalArgumentException(quadrant + " has too much to numb.");
    }
    for (int set = 0; set < 1 << places.size(); set++) {
      List<Shot> some = new ArrayList<>();
      for (int i = 0; i < places.size(); i++) {
        if ((set >> i & 1) == 1) {
          some.add(places.get(i));
        }
      }
      inOrder.add(some(problem, some));
    }
    inOrder.sort(Some.ORDER);
  }

  private Some some(Problem problem, List<Shot> shots) {
    long numbs = 0;
    for (int t = 0; t < targets.size(); t++) {
      Target target = targets.get(t);
      if (shots.stream().anyMatch(shot -> shot.numbs(target))) {
        numbs |= 1L << t;
      }
    }
    return new Some(
        shots,
        numbs,
        shots.stream().mapToDouble(shot -> cost(problem, shot)).sum(),
        shots.stream().mapToLong(shot -> Math.round(1000 * shot.ml())).sum());
  }

  /** An injection's share of the cost, by which sets are compared. */
  static double cost(Problem problem, Shot shot) {
    Practice practice = problem.practice();
    return Math.round(
        shot.seconds(practice.numbing())
            + problem.injectionWeight()
            + problem.blockPrice(shot)
            + practice.weights().cartridge().value() * shot.ml() / 1.8);
  }

  /**
   * The cheapest set that numbs some of the targets; null where none does.
   *
   * @param shared whether the injection that numbs both sides must be among them, must not, or may
   */
  @Nullable Some cheapest(Collection<Target> wanted, @Nullable Boolean shared) {
    long bits = 0;
    for (Target target : wanted) {
      bits |= 1L << targets.indexOf(target);
    }
    for (Some some : inOrder) {
      boolean has = some.shots.stream().anyMatch(shot -> shot.kind().bothSides());
      if ((bits & ~some.numbs) == 0 && (shared == null || shared == has)) {
        return some;
      }
    }
    return null;
  }

  private static List<Shot> places(Practice practice, Jaw jaw) {
    List<Shot> places = new ArrayList<>();
    int number = 0;
    for (Injection kind : practice.injections().values()) {
      for (Side side : Side.values()) {
        Quadrant quadrant = Quadrant.of(kind.jaw(), side);
        for (int position = 1; position <= (kind.perTooth() ? 8 : 1); position++) {
          Tooth tooth = kind.perTooth() ? new Tooth(quadrant, position) : null;
          Shot shot = new Shot(number++, kind, quadrant, tooth);
          if (kind.jaw() == jaw && !(kind.bothSides() && side == Side.LEFT)) {
            places.add(shot);
          }
        }
      }
    }
    return places;
  }
}
