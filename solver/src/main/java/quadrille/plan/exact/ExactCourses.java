package quadrille.plan.exact;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Weights;
import quadrille.plan.course.NumbSide;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.Commitments;
import quadrille.plan.visit.NumbSides;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitEvaluator;
import quadrille.plan.visit.VisitTimeline;

/**
 * The best courses of one mouth, for any number of visits, by pricing every set of areas that a
 * visit can hold and choosing among the sets. A price is a bound at first; only the visits of
 * courses that might be best are priced exactly, as in lazy evaluation of shortest paths (Dellin
 * and Srinivasa, "A unifying formalism for shortest path problems with expensive edge evaluations",
 * 2016). The same case gives the same course, whatever was asked before.
 */
public final class ExactCourses {
  private final CaseEvaluator evaluator;
  private final List<StepSet> units;
  private final BooleanSupplier stop;
  private final @Nullable List<VisitPrice> first;
  private final @Nullable List<VisitPrice> others;
  private final boolean widest;

  /**
   * A course found.
   *
   * @param visits laid out, in order; empty where no legal course is known
   * @param bound no legal course of so many visits costs less, in whole seconds; {@link
   *     Long#MAX_VALUE} where there is none
   */
  public record Answer(List<VisitTimeline> visits, long bound) {
    public Answer {
      visits = List.copyOf(visits);
    }

    /** Whether it is certain that no course of so many visits keeps the rules. */
    public boolean infeasible() {
      return bound == Long.MAX_VALUE;
    }
  }

  /**
   * @param staging the mouth, for any number of visits
   * @param longestMinutes the longest visit on offer; at least the case's own
   * @param stop once it says so, what is known is answered
   */
  public ExactCourses(StagingCase staging, int longestMinutes, BooleanSupplier stop) {
    this(staging, longestMinutes, Integer.MAX_VALUE, true, stop, null, null);
  }

  /**
   * For no more visits than a case has, so that fewer sets need be priced, and with no more effort
   * than a what-if is worth.
   *
   * @param staging the mouth, with the most visits that will be asked for
   * @param stop once it says so, what is known is answered
   */
  public ExactCourses(StagingCase staging, BooleanSupplier stop) {
    this(staging, staging.longestMinutes(), staging.visits(), false, stop, null, null);
  }

  private ExactCourses(
      StagingCase staging,
      int longestMinutes,
      int visits,
      boolean widest,
      BooleanSupplier stop,
      @Nullable List<VisitPrice> knownFirst,
      @Nullable List<VisitPrice> knownOthers) {
    this.evaluator = new CaseEvaluator(staging);
    this.units = staging.freeUnits();
    this.stop = stop;
    this.widest = widest;
    int longest = staging.bookable(longestMinutes);
    boolean fits = canAnswer(staging);
    this.others =
        fits ? VisitPrices.of(evaluator.visits(), longest, visits, byUnits(knownOthers)) : null;
    boolean same = !staging.standing().anythingGiven();
    this.first =
        others == null || same
            ? others
            : VisitPrices.of(evaluator.unframed(1), longest, visits, byUnits(knownFirst));
  }

  private static Map<Integer, VisitPrice> byUnits(@Nullable List<VisitPrice> prices) {
    Map<Integer, VisitPrice> byUnits = new HashMap<>();
    if (prices != null) {
      prices.forEach(price -> byUnits.put(price.units(), price));
    }
    return byUnits;
  }

  /**
   * The same mouth where longer visits or larger trays let in more sets of areas: what has been
   * priced is taken over, and only what is new is priced.
   *
   * @param looser the same steps under a longer longest visit or a larger tray, all else equal;
   *     with the most visits that will be asked for
   */
  public synchronized ExactCourses loosened(StagingCase looser) {
    return new ExactCourses(
        looser, looser.longestMinutes(), looser.visits(), false, stop, first, others);
  }

  /** Whether nothing but the balance ties the visits of a case together, and areas are whole. */
  private static boolean canAnswer(StagingCase staging) {
    StepSet pinned = staging.pinnedSteps();
    boolean parted =
        staging.areas().stream()
            .map(area -> staging.stepsOf(area::equals))
            .anyMatch(
                steps -> !steps.intersection(pinned).isEmpty() && !steps.minus(pinned).isEmpty());
    return staging.areasWhole() && staging.stocks().isEmpty() && !staging.oneDay() && !parted;
  }

  /** Whether the case is of a kind and a size that can be answered. */
  public boolean answers() {
    return first != null && others != null;
  }

  /** How many sets of areas one visit can hold. */
  public int sets() {
    return others == null ? 0 : others.size();
  }

  /**
   * The best course.
   *
   * @param staging the same mouth, in so many visits as are wanted
   * @throws IllegalStateException if it cannot be {@link #answers() answered}
   */
  public synchronized Answer best(StagingCase staging) {
    return answer(staging, false);
  }

  /**
   * Some course that keeps the rules, whatever it costs; none also where that is not known.
   *
   * @param staging the same mouth, in so many visits as are wanted
   * @throws IllegalStateException if it cannot be {@link #answers() answered}
   */
  public synchronized Answer any(StagingCase staging) {
    return answer(staging, true);
  }

  private Answer answer(StagingCase staging, boolean any) {
    int full = (1 << units.size()) - 1;
    List<CourseChoice.Position> positions = positions(staging);
    while (true) {
      CourseChoice.Chosen low = CourseChoice.best(staging, full, positions, true);
      if (low == null) {
        return new Answer(List.of(), Long.MAX_VALUE);
      }
      List<VisitPrice> open =
          low.visits().stream().filter(price -> price.open(any, widest)).toList();
      boolean enough = open.isEmpty() || stop.getAsBoolean();
      CourseChoice.Chosen known =
          enough || any ? CourseChoice.best(staging, full, positions, false) : null;
      if (enough || known != null) {
        return new Answer(known == null ? List.of() : visits(staging, known), bound(staging, low));
      }
      open.forEach(VisitPrice::refine);
    }
  }

  private static List<VisitTimeline> visits(StagingCase staging, CourseChoice.Chosen course) {
    List<VisitTimeline> visits = new ArrayList<>();
    for (VisitPrice price : course.visits()) {
      VisitTimeline visit = Objects.requireNonNull(price.best());
      visits.add(visit.withFrame(staging.frameSeconds(visits.size())));
    }
    return visits;
  }

  /**
   * Whether so many visits might do if one area's work could be poured into whatever time the
   * others leave. Told from what visits take at the least: where this says no, cutting the area
   * between two teeth is of no use either.
   */
  public synchronized boolean mayFitWithout(StagingCase staging, Area area) {
    StepSet steps = staging.stepsOf(area::equals);
    int unit = units.indexOf(steps);
    boolean wished = staging.patient().wishes().stream().anyMatch(wish -> wish.about(area.teeth()));
    if (unit < 0 || wished || staging.startWith() == area.quadrant()) {
      return true;
    }
    int others = (1 << units.size()) - 1 & ~(1 << unit);
    int room = -staging.neededSeconds(0, evaluator.visits().set(steps).workSeconds());
    int[] least = new int[1 << units.size()];
    Arrays.fill(least, VisitPrice.NEVER);
    least[0] = 0;
    for (CourseChoice.Position position : positions(staging)) {
      room += position.longest() - position.frame();
      int[] next = new int[least.length];
      for (int done = 0; done < next.length; done++) {
        // A visit may hold nothing but some of the area.
        next[done] = least[done] + staging.setUp() + staging.close();
      }
      for (VisitPrice price : position.sets()) {
        int needed = price.leastNeeded();
        boolean open =
            (price.units() & ~others) == 0 && needed + position.frame() <= position.longest();
        int before = others & ~price.units();
        for (int done = before; open; done = (done - 1) & before) {
          int all = done | price.units();
          next[all] = Math.min(next[all], least[done] + needed);
          open = done != 0;
        }
      }
      least = next;
    }
    return least[others] <= room;
  }

  /** Whole seconds, rounded term by term as the cost is. */
  private static long bound(StagingCase staging, CourseChoice.Chosen low) {
    Weights weights = staging.practice().weights();
    int chair = 0;
    int longest = 0;
    for (int visit = 0; visit < low.visits().size(); visit++) {
      int least = low.visits().get(visit).least() + staging.frameSeconds(visit);
      chair += least;
      longest = Math.max(longest, least);
    }
    double aboveMean = longest - (double) chair / low.visits().size();
    double split = weights.splitQuadrant().value();
    double whole = low.seconds() - split * staging.quadrantsWithFine();
    double others = whole - chair - weights.balance().value() * aboveMean;
    long fractional =
        Stream.of(
                split,
                staging.injectionWeight(),
                staging.blockPrice(),
                staging.noRoomPrice(),
                staging.visitPrice(),
                weights.cartridge().value())
            .filter(weight -> weight != Math.rint(weight))
            .count();
    if (!low.visits().stream().allMatch(VisitPrice::exact)) {
      return (long) Math.ceil(whole - 0.5 * (fractional + 1) - 1e-6);
    }
    return chair
        + staging.balanceCost(aboveMean)
        + (fractional == 0
            ? Math.round(others)
            : (long) Math.ceil(others - 0.5 * (fractional + 1) - 1e-6));
  }

  private List<CourseChoice.Position> positions(StagingCase staging) {
    List<VisitPrice> atFirst = first;
    List<VisitPrice> later = others;
    if (atFirst == null || later == null) {
      throw new IllegalStateException("A case that is too large was asked about: " + staging);
    }
    List<CourseChoice.Position> positions = new ArrayList<>();
    for (int visit = 0; visit < staging.visits(); visit++) {
      List<Integer> pinned = staging.standing().slot(visit).pinned();
      VisitEvaluator clock = evaluator.unframed(visit + 1);
      int place = visit;
      Integer booked = staging.standing().slot(visit).minutes();
      int longest =
          booked == null || pinned != null
              ? staging.longestSeconds()
              : Math.min(staging.longestSeconds(), staging.bookable(booked));
      positions.add(
          new CourseChoice.Position(
              visit,
              longest,
              staging.frameSeconds(visit),
              pinned != null
                  ? Stream.of(VisitPrice.fixed(clock, pinned.stream().mapToInt(i -> i).toArray()))
                      .filter(price -> staging.wishes().mayBe(place, price.set().areas()))
                      .toList()
                  : (visit == 0 ? atFirst : later)
                      .stream().filter(price -> mayBe(staging, price, place)).toList()));
    }
    return positions;
  }

  /** Whether a set may be this visit's, as far as what stands and the complaint go. */
  private boolean mayBe(StagingCase staging, VisitPrice price, int visit) {
    Commitments.Slot slot = staging.standing().slot(visit);
    int tray = staging.practice().appointments().kitHolds().asInt();
    return price.set().distinctInserts() <= tray
        && fitsSide(staging, price, slot.side())
        && inTime(staging, price, visit)
        && staging.wishes().mayBe(visit, price.set().areas())
        && (visit > 0 || startsRight(staging, price))
        && inOrder(staging, price, visit);
  }

  private static boolean fitsSide(
      StagingCase staging, VisitPrice price, @Nullable NumbSide promised) {
    boolean midline = staging.practice().appointments().midlineInfiltration();
    return promised == null
        || price.set().dosings().stream()
            .allMatch(dosing -> NumbSides.elsewhere(dosing.cover(), promised, midline) == 0);
  }

  private static boolean inTime(StagingCase staging, VisitPrice price, int visit) {
    return staging.steps().stream()
        .filter(fact -> price.set().steps().has(fact.index()))
        .allMatch(fact -> visit < staging.standing().lastVisit(fact.step().area().ref()));
  }

  private static boolean startsRight(StagingCase staging, VisitPrice price) {
    Quadrant wanted = staging.startWith();
    return wanted == null
        || staging.steps().stream()
            .filter(fact -> price.set().steps().has(fact.index()))
            .anyMatch(fact -> fact.step().area().quadrant() == wanted);
  }

  /** Whether no pass comes on the wrong side of a visit that stays as it is. */
  private boolean inOrder(StagingCase staging, VisitPrice price, int visit) {
    for (int other = 0; other < staging.visits(); other++) {
      for (int pinned : staging.pinned(other).members()) {
        StepFact there = staging.steps().get(pinned);
        for (int index : price.set().steps().members()) {
          StepFact here = staging.steps().get(index);
          if (other < visit ? staging.mustPrecede(here, there) : staging.mustPrecede(there, here)) {
            return false;
          }
        }
      }
    }
    return true;
  }
}
