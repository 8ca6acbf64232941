package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Practice;

/**
 * What is wished of a case, as sets of its areas: which of them lie in which visit. Areas are bits
 * by the case's index. What a wish that is rather kept than not costs is counted once for each time
 * that it is not kept: once a course, but once a visit for places that were to be apart.
 *
 * <p>Told in two ways: of a whole course, and visit by visit, for those who build a course from its
 * first visit on and keep the areas whole. Both come to the same.
 */
public final class AreaWishes {
  /** More than any course costs. */
  public static final long NEVER = 1_000_000_000_000_000L;

  private final long price;
  private final List<Placed> placed = new ArrayList<>();
  private final long fixed;
  private final boolean impossible;
  private final boolean hangsOnEarlier;

  /**
   * A wish about areas and visits.
   *
   * @param places the areas of each place; none without an area
   * @param all the areas of all places
   */
  private record Placed(Wish wish, List<Long> places, long all) {

    /** The place, 0, 1, 2 …, of the one visit that is asked for. */
    int visit() {
      return ((Wish.InVisit) wish.ask()).visit() - 1;
    }

    /** Whether two places or more are worked on. */
    boolean meet(long areas) {
      return places.stream().filter(place -> (place & areas) != 0).count() > 1;
    }

    /** How often it is not kept by a course. */
    int breaches(long[] visits) {
      int with = 0;
      int meetings = 0;
      int last = -1;
      int firstOther = visits.length;
      for (int visit = 0; visit < visits.length; visit++) {
        if ((visits[visit] & all) != 0) {
          with++;
          last = visit;
        }
        if ((visits[visit] & ~all) != 0) {
          firstOther = Math.min(firstOther, visit);
        }
        meetings += meet(visits[visit]) ? 1 : 0;
      }
      if (wish.ask() instanceof Wish.InVisit) {
        boolean asWished = visit() < visits.length && (visits[visit()] & all) != 0;
        return with > (asWished ? 1 : 0) ? 1 : 0;
      }
      if (wish.ask() instanceof Wish.Together) {
        return with > 1 ? 1 : 0;
      }
      return wish.ask() instanceof Wish.Apart ? meetings : firstOther < last ? 1 : 0;
    }

    /** Whether a visit of a course that keeps areas whole is the one that does not keep it. */
    boolean broken(int visit, long areas, long before) {
      if (wish.ask() instanceof Wish.InVisit) {
        return visit == visit() && (all & ~areas) != 0;
      }
      if (wish.ask() instanceof Wish.Apart) {
        return meet(areas);
      }
      if (wish.ask() instanceof Wish.Together) {
        return (areas & all) != 0 && (all & ~areas) != 0 && (before & all) == 0;
      }
      return (areas & ~all) != 0 && (before & ~all) == 0 && (all & ~(before | areas)) != 0;
    }

    /** Whether it can be told of a visit by itself that a course with it does not keep it. */
    boolean brokenBy(int visit, long areas) {
      if (wish.ask() instanceof Wish.InVisit) {
        return visit == visit() ? (all & ~areas) != 0 : (all & areas) != 0;
      }
      return wish.ask() instanceof Wish.Apart
          ? meet(areas)
          : wish.ask() instanceof Wish.Together && (areas & all) != 0 && (all & ~areas) != 0;
    }

    boolean hangsOnEarlier() {
      return wish.ask() instanceof Wish.First
          || (wish.ask() instanceof Wish.Together && !wish.must());
    }
  }

  /**
   * Of a case, in so many visits.
   *
   * @param numbFirst whether nothing is touched before it is numb
   */
  AreaWishes(
      List<Wish> wishes,
      Practice practice,
      List<Area> areas,
      List<StepFact> steps,
      int visits,
      boolean numbFirst) {
    this.price = Math.round(practice.weights().wish().value());
    long unkept = 0;
    boolean never = false;
    for (Wish wish : wishes) {
      if (!wish.aboutVisits()) {
        unkept += wish.must() || keptByWork(wish, steps, numbFirst) ? 0 : price;
        continue;
      }
      List<Long> places =
          wish.ask().regions().stream()
              .map(region -> bits(areas, region))
              .filter(bits -> bits != 0)
              .toList();
      long all = places.stream().reduce(0L, (one, other) -> one | other);
      if (all == 0 || !wish.holdsAt(visits)) {
        continue;
      }
      Placed one = new Placed(wish, places, all);
      if (wish.ask() instanceof Wish.InVisit && one.visit() >= visits) {
        never |= wish.must();
        unkept += wish.must() ? 0 : price;
      }
      placed.add(one);
    }
    this.fixed = unkept;
    this.impossible = never;
    this.hangsOnEarlier = placed.stream().anyMatch(Placed::hangsOnEarlier);
  }

  private static long bits(List<Area> areas, Wish.Region region) {
    long bits = 0;
    for (int i = 0; i < areas.size(); i++) {
      bits |= region.meets(areas.get(i).teeth()) ? 1L << i : 0;
    }
    return bits;
  }

  /** Whether the steps themselves keep a wish about how the work is done. */
  static boolean keptByWork(Wish wish, List<StepFact> steps, boolean numbFirst) {
    if (wish.ask() instanceof Wish.NumbFirst) {
      return numbFirst;
    }
    if (wish.ask() instanceof Wish.ByHand) {
      return steps.stream().allMatch(fact -> fact.step().insert().hand());
    }
    return steps.stream()
        .map(StepFact::step)
        .noneMatch(
            step ->
                wish.ask() instanceof Wish.NotInsert not
                    ? step.insert().name().equals(not.insert())
                    : step.needsInjection() && wish.about(step.area().teeth()));
  }

  /** Whether there are none about areas and visits. */
  public boolean none() {
    return placed.isEmpty();
  }

  /** Whether no course of so many visits can keep those that must be kept. */
  boolean impossible() {
    return impossible;
  }

  /** Whether a visit may have these areas, as far as it can be told without the others. */
  public boolean mayBe(int visit, long areas) {
    return placed.stream().noneMatch(one -> one.wish().must() && one.brokenBy(visit, areas));
  }

  /** Whether what a visit costs hangs on what was done before it. */
  public boolean hangsOnEarlier() {
    return hangsOnEarlier;
  }

  /**
   * What a visit costs since it does not keep wishes, as far as that hangs on nothing before it.
   */
  public long costAlone(int visit, long areas) {
    return cost(visit, areas, 0, false);
  }

  /**
   * What it costs beyond that; {@link #NEVER} where a wish that must be kept is not.
   *
   * @param before areas of earlier visits
   */
  public long costAfter(long areas, long before) {
    return cost(-1, areas, before, true);
  }

  private long cost(int visit, long areas, long before, boolean hanging) {
    long cost = 0;
    for (Placed one : placed) {
      if (one.hangsOnEarlier() == hanging && one.broken(visit, areas, before)) {
        if (one.wish().must()) {
          return NEVER;
        }
        cost += price;
      }
    }
    return cost;
  }

  /** What every course of the case costs, since it cannot keep some wishes. */
  public long fixedCost() {
    return fixed;
  }

  /** What a course costs since it does not keep wishes; the areas of each of its visits. */
  public long cost(long[] visits) {
    long cost = fixed;
    for (Placed one : placed) {
      boolean counted = one.wish().ask() instanceof Wish.InVisit && one.visit() >= visits.length;
      cost += one.wish().must() || counted ? 0 : price * one.breaches(visits);
    }
    return cost;
  }

  /** How often a course does not keep wishes that must be kept. */
  public int breaches(long[] visits) {
    return placed.stream()
        .filter(one -> one.wish().must())
        .mapToInt(one -> one.breaches(visits))
        .sum();
  }

  /** Whether a course keeps a wish about visits; true where nothing there is planned. */
  public boolean keeps(Wish wish, long[] visits) {
    return placed.stream()
        .filter(one -> one.wish().equals(wish))
        .allMatch(one -> one.breaches(visits) == 0);
  }
}
