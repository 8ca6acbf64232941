package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Remedy;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.course.WishOutcome.State;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.seeking.SearchStop;

/**
 * Wishes: what became of each, what keeping it costs, and what stands against one that is not kept.
 * Prices and reasons are told by planning again.
 */
final class Wished {
  private final Chart chart;
  private final Practice practice;
  private final VisitRange visits;
  private final Seeker seeker;
  private final SearchStop stop;

  /** Plans a mouth again, under other wishes or other rules. */
  interface Seeker {

    /**
     * @param chart as it was but for wishes
     * @return the best course; null where there is none, or that was not sought to the end
     */
    @Nullable Staged seek(Chart chart, Practice practice, VisitRange visits);

    /** Whether a course keeps every rule, under a practice or a patient that may be another. */
    boolean possible(Chart chart, Practice practice, VisitRange visits);
  }

  /**
   * @param visits those asked for
   * @param stop once asked, nothing is said that has to be sought
   */
  Wished(Chart chart, Practice practice, VisitRange visits, Seeker seeker, SearchStop stop) {
    this.chart = chart;
    this.practice = practice;
    this.visits = visits;
    this.seeker = seeker;
    this.stop = stop;
  }

  /** No plan, where wishes name inserts that the practice does not have; else null. */
  static @Nullable NoPlan unknownInserts(Chart chart, Practice practice) {
    List<String> inserts = List.copyOf(practice.inserts().keySet());
    List<Clash> unknown =
        chart.patient().wishes().stream()
            .filter(
                wish -> wish.ask() instanceof Wish.NotInsert not && !inserts.contains(not.insert()))
            .<Clash>map(wish -> new Clash.UnknownInsert(wish, chart.numbering(), inserts))
            .toList();
    return unknown.isEmpty() ? null : new NoPlan(unknown, List.of());
  }

  private static Chart with(Chart chart, List<Wish> wishes) {
    return chart.withPatient(chart.patient().withWishes(wishes));
  }

  /**
   * The charts whose courses have to be compared, since a wish about how the work is done need not
   * be kept: each such wish either kept, as if it must be, or left. The first keeps all.
   */
  static List<Chart> ways(Chart chart) {
    List<List<Wish>> ways = List.of(List.of());
    for (Wish wish : chart.patient().wishes()) {
      List<List<Wish>> more = new ArrayList<>();
      for (boolean kept : wish.choosesWork() ? List.of(true, false) : List.of(false)) {
        for (List<Wish> way : ways) {
          List<Wish> longer = new ArrayList<>(way);
          longer.add(kept ? wish.asMust() : wish);
          more.add(longer);
        }
      }
      ways = more;
    }
    return ways.stream().map(way -> with(chart, way)).toList();
  }

  /**
   * The numbers of visits that wishes leave: only that for which a visit's number was wished, where
   * that must be kept; null where that is none of those asked for.
   */
  static @Nullable VisitRange range(Chart chart, VisitRange visits) {
    VisitRange left = visits;
    for (Wish wish : chart.patient().wishes()) {
      if (wish.must() && wish.ask() instanceof Wish.InVisit in && in.ofVisits() != null) {
        int number = in.ofVisits();
        if (number < left.fewest() || number > left.most()) {
          return null;
        }
        left = VisitRange.exactly(number);
      }
    }
    return left;
  }

  /** What became of each wish, for a course whose work was planned by one of the ways. */
  static List<WishOutcome> outcomes(
      Chart chart, Practice practice, @Nullable Staged staged, List<HeldBack> held) {
    List<WishOutcome> outcomes = new ArrayList<>();
    for (Wish wish : chart.patient().wishes()) {
      outcomes.add(new WishOutcome(wish, state(wish, practice, staged, held)));
    }
    return outcomes;
  }

  private static State state(
      Wish wish, Practice practice, @Nullable Staged staged, List<HeldBack> held) {
    if (staged == null) {
      return State.NOTHING_THERE;
    }
    StagingCase staging = staged.staging();
    Predicate<AreaRef> there =
        area -> wish.ask().regions().stream().anyMatch(region -> overlaps(region, area));
    boolean planned = staging.areas().stream().anyMatch(area -> wish.about(area.teeth()));
    if (wish.aboutVisits()) {
      if (!planned) {
        return State.NOTHING_THERE;
      }
      if (!wish.holdsAt(staging.visits())) {
        return State.OTHER_NUMBER;
      }
      long[] areas = staged.layouts().stream().mapToLong(v -> v.set().areas()).toArray();
      return staging.wishes().keeps(wish, areas) ? State.KEPT : State.NOT_KEPT;
    }
    boolean nothingThere =
        wish.ask() instanceof Wish.NotInsert not
            ? !practice.inserts().containsKey(not.insert())
            : wish.ask() instanceof Wish.NoInjection
                && !planned
                && held.stream().noneMatch(one -> there.test(one.area()));
    if (nothingThere) {
      return State.NOTHING_THERE;
    }
    return staging.keptByWork(wish) ? State.KEPT : State.NOT_KEPT;
  }

  private static boolean overlaps(Wish.Region region, AreaRef area) {
    return Tooth.values().stream().anyMatch(tooth -> region.holds(tooth) && area.holds(tooth));
  }

  /**
   * The same with prices, and with what stands against those not kept; without, where that was not
   * sought to the end.
   */
  List<WishOutcome> explained(List<WishOutcome> outcomes, Staged found) {
    List<WishOutcome> explained = new ArrayList<>();
    for (int i = 0; i < outcomes.size(); i++) {
      WishOutcome one = outcomes.get(i);
      WishOutcome sought =
          switch (one.state()) {
            case KEPT -> priced(i, one, found);
            case NOT_KEPT -> refused(i, one, found);
            default -> one;
          };
      explained.add(stop.asked() ? one : sought);
    }
    return explained;
  }

  private WishOutcome priced(int index, WishOutcome outcome, Staged found) {
    Staged without = seeker.seek(without(index), practice, visits);
    // What keeps the wish is a course without it too.
    Staged best = without == null || without.seconds() > found.seconds() ? found : without;
    return outcome.priced(
        new WishOutcome.Price(
            found.seconds() - best.seconds(),
            booked(found) - booked(best),
            found.layouts().size() - best.layouts().size()));
  }

  private static int booked(Staged staged) {
    return staged.layouts().stream().mapToInt(v -> v.bookedMinutes(staged.staging())).sum();
  }

  private WishOutcome refused(int index, WishOutcome outcome, Staged found) {
    if (outcome.wish().ask() instanceof Wish.NoInjection) {
      return outcome;
    }
    Chart kept = with(chart, changed(index, outcome.wish().asMust()));
    Staged keeps = seeker.seek(kept, practice, visits);
    if (keeps == null && outcome.wish().ask() instanceof Wish.NotInsert) {
      return outcome.refused(new WishOutcome.NoOtherInsert());
    }
    if (keeps == null) {
      return outcome.refused(new WishOutcome.Rules(against(kept)));
    }
    long own = Math.round(practice.weights().wish().value());
    return outcome.refused(
        new WishOutcome.CostsMore(Math.max(0, keeps.seconds() - (found.seconds() - own))));
  }

  private List<Wish> changed(int index, @Nullable Wish now) {
    List<Wish> wishes = new ArrayList<>(chart.patient().wishes());
    if (now == null) {
      wishes.remove(index);
    } else {
      wishes.set(index, now);
    }
    return wishes;
  }

  private Chart without(int index) {
    return with(chart, changed(index, null));
  }

  /** The hard rules each of which, if it alone gave way, would let a mouth's wishes be kept. */
  private List<HardRule> against(Chart wished) {
    Appointments limits = practice.appointments();
    List<HardRule> against = new ArrayList<>();
    if (limits.oneNumbSide()
        && seeker.possible(
            wished, practice.withAppointments(limits.withOneNumbSide(false)), visits)) {
      against.add(HardRule.ONE_NUMB_SIDE);
    }
    if (seeker.possible(
        wished.withPatient(LengthLimits.patient(Stager.LONGEST_MINUTES, wished.patient())),
        LengthLimits.practice(Stager.LONGEST_MINUTES, practice),
        visits)) {
      against.add(HardRule.LENGTH);
    }
    Figure all = new Figure(practice.inserts().size(), Figure.OWN);
    if (seeker.possible(wished, practice.withAppointments(limits.withKitHolds(all)), visits)) {
      against.add(HardRule.KITS);
    }
    if (wished.patient().startWith() != null
        && seeker.possible(
            wished.withPatient(wished.patient().withStartWith(null)), practice, visits)) {
      against.add(HardRule.START_WITH_THE_COMPLAINT);
    }
    if (visits.most() < VisitRange.LIMIT
        && seeker.possible(wished, practice, new VisitRange(visits.most() + 1, VisitRange.LIMIT))) {
      against.add(HardRule.NO_EMPTY_VISIT);
    }
    return against;
  }

  /**
   * No plan, where it is wishes that leave none: those that cannot be kept even alone, or else
   * those of which one has to give way. Null where there is none without them either, or that was
   * not sought to the end, unless one is for a number of visits that was not asked for, which needs
   * no seeking.
   */
  @Nullable NoPlan refused() {
    List<Wish> musts = chart.patient().wishes().stream().filter(Wish::must).toList();
    Staged free = musts.isEmpty() ? null : seeker.seek(with(chart, List.of()), practice, visits);
    NoPlan refused = free == null ? null : refused(musts, free);
    if (refused != null && !stop.asked()) {
      return refused;
    }
    List<Clash> clashes =
        musts.stream().filter(this::forOtherNumber).map(this::otherNumber).toList();
    return clashes.isEmpty() ? null : new NoPlan(clashes, List.of(), stop.asked());
  }

  private boolean forOtherNumber(Wish wish) {
    return range(with(chart, List.of(wish)), visits) == null;
  }

  private Clash otherNumber(Wish wish) {
    return new Clash.WishedOtherNumber(wish, chart.numbering(), visits);
  }

  private NoPlan refused(List<Wish> musts, Staged free) {
    List<Wish> all = chart.patient().wishes();
    List<Clash> clashes = new ArrayList<>();
    for (Wish wish : musts) {
      Chart alone = with(chart, List.of(wish));
      if (forOtherNumber(wish)) {
        clashes.add(otherNumber(wish));
      } else if (seeker.seek(alone, practice, visits) == null) {
        clashes.add(new Clash.NotAsWished(wish, chart.numbering(), against(alone)));
      }
    }
    List<Remedy> remedies = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      Staged without = all.get(i).must() ? seeker.seek(without(i), practice, visits) : null;
      if (without != null) {
        remedies.add(
            Remedies.remedy(new Change.WithoutWish(all.get(i), chart.numbering()), without));
      }
    }
    if (clashes.isEmpty()) {
      clashes.add(new Clash.WishesClash(musts, chart.numbering()));
    }
    if (remedies.isEmpty()) {
      remedies.add(Remedies.remedy(new Change.WithoutWish(null, chart.numbering()), free));
    }
    return new NoPlan(clashes, remedies);
  }
}
