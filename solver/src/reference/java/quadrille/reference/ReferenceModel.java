package quadrille.reference;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.InsertClass;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/**
 * The problem written a second time, for CP-SAT. An area is finished where it is begun, so a course
 * deals whole areas to visits: one model says which sets of areas make the visits, another one in
 * which order a visit takes its steps. The first knows at the least what a set costs until a course
 * wants it, and then what CP-SAT found its order to cost.
 *
 * <p>Practices must finish an area where it is begun, numb one side only, see a patient on several
 * days, and have whole weights, that of balance no more than the number of visits, and nobody may
 * wish anything; others are refused.
 */
public final class ReferenceModel {
  private static final double ONE_ORDER = 20;

  private final Problem problem;
  private final Practice practice;
  private final int visits;
  private final List<AreaRef> areas;
  private final List<VisitSet> sets = new ArrayList<>();
  private double effort;

  /** A set of whole areas that one visit may hold, with the injections that it may be given. */
  private final class VisitSet {
    private final int held;
    private final List<VisitWork> choices;
    private final SortedMap<Integer, Priced> known = new TreeMap<>();

    VisitSet(int held, List<VisitWork> choices) {
      this.held = held;
      this.choices = choices;
    }

    /** What is known of it where the frame takes so many seconds; null where nothing is. */
    @Nullable Priced priced(int around) {
      Priced exactly = known.get(around);
      if (exactly != null) {
        return exactly;
      }
      // What was best with a shorter frame is best with a longer one, if it still fits.
      for (Priced looser : known.headMap(around).values()) {
        boolean fits = looser.found.chair() + around <= looser.work.mostSeconds();
        if (looser.found.impossible() || (looser.found.proven() && fits)) {
          return looser;
        }
      }
      return null;
    }

    /** Seconds of the visit's frame, charting at its end included. */
    int around(int visit) {
      return problem.around(visit) + choices.get(0).chartSeconds();
    }

    int leastSeconds() {
      return choices.stream().mapToInt(VisitWork::leastSeconds).min().orElseThrow();
    }

    long leastPrice() {
      return choices.stream().mapToLong(VisitWork::price).min().orElseThrow();
    }

    boolean mayFit(int around) {
      Priced priced = priced(around);
      return priced != null
          ? !priced.found.impossible()
          : choices.stream().anyMatch(one -> one.leastSeconds() + around <= one.mostSeconds());
    }

    /**
     * Seeks its best order. The injections are the first that can be made to last; whether that
     * makes the visit too long does not matter.
     */
    void price(int around) {
      for (VisitWork work : choices) {
        int longest = work.mostSeconds() - around;
        VisitOrder.Found found = new VisitOrder.Found(List.of(), 0, 0, 0, true, 0);
        if (longest > 0) {
          found = new VisitOrder(work, longest).solve(ONE_ORDER);
          effort += found.effort();
        }
        boolean last = work == choices.get(choices.size() - 1);
        if (!found.impossible() || last || VisitOrder.possible(work, ONE_ORDER)) {
          known.put(around, new Priced(work, found));
          return;
        }
      }
    }
  }

  private record Priced(VisitWork work, VisitOrder.Found found) {}

  public ReferenceModel(Problem problem) {
    Loader.loadNativeLibraries();
    this.problem = problem;
    this.practice = problem.practice();
    this.visits = problem.visits();
    this.areas = problem.steps().stream().map(step -> step.area().ref()).distinct().toList();
    refuseWhatIsLeftOut();
    Injections injections = new Injections(problem);
    for (int held = 1; held < 1 << areas.size(); held++) {
      VisitSet set = new VisitSet(held, choices(held, injections));
      if (set.choices.stream().anyMatch(one -> one.leastSeconds() < one.mostSeconds())) {
        sets.add(set);
      }
    }
  }

  private void refuseWhatIsLeftOut() {
    boolean plain =
        practice.appointments().passesTogether().equals(PassesTogether.SAME_VISIT)
            && practice.appointments().oneNumbSide()
            && practice.appointments().gapMinDays().value() > 0
            && practice.weights().balance().value() <= visits
            && problem.patient().wishes().isEmpty()
            && areas.size() <= 20;
    if (!plain) {
      throw new IllegalArgumentException(
          "The practice must finish an area where it is begun, numb one side in a visit, see"
              + " patients on several days, and weigh balance no more than the number of visits;"
              + " the mouth must not have more than 20 areas, and nobody must wish anything.");
    }
    for (Step step : problem.steps()) {
      // H7.
      boolean sleeve = step.insert().sleeved();
      boolean forImplants = sleeve || step.insert().insertClass() == InsertClass.HAND_IMPLANT;
      if (step.implant() != forImplants || (sleeve && step.power() != Power.LOW)) {
        throw new IllegalArgumentException("A wrong insert: " + step.words());
      }
    }
  }

  private boolean holds(int held, AreaRef area) {
    return (held >> areas.indexOf(area) & 1) == 1;
  }

  /**
   * What a set of areas may be given, legal ways only: sides, doses (H1 to H3, H10) and kit (H9).
   */
  private List<VisitWork> choices(int held, Injections injections) {
    List<Integer> steps =
        IntStream.range(0, problem.steps().size())
            .filter(i -> holds(held, problem.steps().get(i).area().ref()))
            .boxed()
            .toList();
    VisitWork bare = VisitWork.of(problem, steps, List.of());
    boolean hopeless =
        bare.inserts() > practice.appointments().kitHolds().asInt()
            || bare.leastSeconds() >= bare.mostSeconds();
    if (hopeless) {
      return List.of();
    }
    SortedSet<Target> needs = new TreeSet<>();
    steps.forEach(step -> needs.addAll(problem.steps().get(step).needs()));
    List<VisitWork> choices =
        needs.isEmpty()
            ? List.of(bare)
            : injections.choices(needs).stream()
                .map(shots -> VisitWork.of(problem, steps, shots))
                .toList();
    return VisitWork.suited(choices.stream().filter(VisitWork::withinDose).toList());
  }

  /**
   * Seeks the cheapest course.
   *
   * @param most CP-SAT's deterministic seconds, about
   */
  public Outcome solve(double most) {
    long started = System.nanoTime();
    Dealt low = dealt(true);
    Dealt known = null;
    while (low != null) {
      boolean open = price(low);
      if (!open || effort > most) {
        known = dealt(false);
        break;
      }
      low = dealt(true);
    }
    double seconds = (System.nanoTime() - started) / 1e9;
    if (low == null) {
      return new Outcome("INFEASIBLE", -1, -1, seconds, effort, sets.size(), List.of());
    }
    if (known == null) {
      return new Outcome("UNKNOWN", -1, low.cost, seconds, effort, sets.size(), List.of());
    }
    return new Outcome(
        known.cost <= low.cost ? "OPTIMAL" : "FEASIBLE",
        known.cost,
        low.cost,
        seconds,
        effort,
        sets.size(),
        orders(known));
  }

  /** Prices what a course takes and nobody knows yet; answers whether there was any. */
  private boolean price(Dealt course) {
    boolean open = false;
    for (int v = 0; v < visits; v++) {
      VisitSet set = course.sets.get(v);
      if (set.priced(set.around(v)) == null) {
        set.price(set.around(v));
        open = true;
      }
    }
    return open;
  }

  private List<List<Integer>> orders(Dealt course) {
    return IntStream.range(0, visits)
        .mapToObj(v -> course.sets.get(v).priced(course.sets.get(v).around(v)))
        .map(priced -> Objects.requireNonNull(priced).found.order())
        .toList();
  }

  /**
   * A course.
   *
   * @param cost in whole seconds
   */
  private record Dealt(long cost, List<VisitSet> sets) {}

  /**
   * The cheapest course; null where there is none.
   *
   * @param low whether visits cost what they cost at the least, and not what is known to do
   */
  private @Nullable Dealt dealt(boolean low) {
    CpModel model = new CpModel();
    Deal deal = new Deal(model, low);
    model.minimize(deal.cost);
    CpSolver solver = new CpSolver();
    solver.getParameters().setNumWorkers(1).setRandomSeed(1);
    CpSolverStatus status = solver.solve(model);
    effort += solver.response().getDeterministicTime();
    if (status != CpSolverStatus.OPTIMAL) {
      return null;
    }
    List<VisitSet> course = new ArrayList<>();
    for (Map<VisitSet, BoolVar> visit : deal.picks) {
      visit.forEach(
          (set, pick) -> course.addAll(solver.booleanValue(pick) ? List.of(set) : List.of()));
    }
    return new Dealt(Math.round(solver.objectiveValue()), course);
  }

  /** Which visit holds which set, as a model for CP-SAT. */
  private final class Deal {
    private final CpModel model;
    private final boolean low;
    private final List<Map<VisitSet, BoolVar>> picks = new ArrayList<>();
    private final LinearExprBuilder cost = LinearExpr.newBuilder();
    private final LinearExprBuilder weighed = LinearExpr.newBuilder();
    private final IntVar longest;

    Deal(CpModel model, boolean low) {
      this.model = model;
      this.low = low;
      // By the clock a visit may take longer than is booked, where little certainty is asked for.
      this.longest = model.newIntVar(0, 10L * problem.longestSeconds(), "longest visit");
      for (int v = 0; v < visits; v++) {
        picks.add(visit(v));
      }
      for (AreaRef area : areas) {
        model.addExactlyOne(
            picks.stream()
                .flatMap(visit -> visit.entrySet().stream())
                .filter(one -> holds(one.getKey().held, area))
                .map(Map.Entry::getValue)
                .toList()
                .toArray(new BoolVar[0]));
      }
      balance();
      cost.add(Figures.whole(problem.visitPrices()));
      long quadrantsWithFine =
          problem.steps().stream()
              .filter(step -> step.pass() == Pass.FINE)
              .map(step -> step.area().quadrant())
              .distinct()
              .count();
      cost.add(-quadrantsWithFine * Figures.whole(practice.weights().splitQuadrant().value()));
    }

    private Map<VisitSet, BoolVar> visit(int v) {
      Map<VisitSet, BoolVar> visit = new LinkedHashMap<>();
      for (VisitSet set : sets) {
        int around = set.around(v);
        Priced priced = set.priced(around);
        boolean known = priced != null && !priced.found.order().isEmpty();
        boolean open = low ? set.mayFit(around) : known;
        if (!open || (v == 0 && !opens(set))) {
          continue;
        }
        BoolVar pick = model.newBoolVar(set.held + " in " + v);
        visit.put(set, pick);
        boolean exact = known && (!low || Objects.requireNonNull(priced).found.proven());
        int chair = exact ? Objects.requireNonNull(priced).found.chair() : set.leastSeconds();
        int least =
            exact
                ? Objects.requireNonNull(priced).found.cost()
                : Math.max(set.leastSeconds(), priced == null ? 0 : priced.found.least());
        long price = exact ? Objects.requireNonNull(priced).work.price() : set.leastPrice();
        cost.addTerm(pick, around + least + price + (long) v * late(set));
        // Where only the whole is known, no price of an order is left out of the mean.
        weighed.addTerm(pick, around + (exact ? chair : least));
        model.addGreaterOrEqual(longest, around + chair).onlyEnforceIf(pick);
      }
      model.addExactlyOne(visit.values().toArray(new BoolVar[0]));
      return visit;
    }

    /** The longest visit above the mean, rounded: the least whole number that is no less. */
    private void balance() {
      long weight = Math.round(1000 * practice.weights().balance().value());
      IntVar balance = model.newIntVar(0, weight * problem.longestSeconds() / 100 + 1, "balance");
      model.addGreaterOrEqual(
          LinearExpr.term(balance, 2000L * visits),
          LinearExpr.newBuilder()
              .addTerm(longest, 2 * weight * visits)
              .addTerm(sum(), -2 * weight)
              .add(1 - 1000L * visits));
      cost.add(balance);
    }

    private IntVar sum() {
      IntVar sum = model.newIntVar(0, (long) visits * 10 * problem.longestSeconds(), "sum");
      model.addEquality(sum, weighed);
      return sum;
    }
  }

  /** Whether the complaint is looked after. */
  private boolean opens(VisitSet set) {
    Quadrant wanted = problem.patient().startWith();
    return areas.stream().noneMatch(area -> area.quadrant() == wanted)
        || areas.stream().anyMatch(area -> area.quadrant() == wanted && holds(set.held, area));
  }

  /** What each visit before it costs: worst areas late. */
  private long late(VisitSet set) {
    double worst = areas.stream().mapToDouble(problem::burden).max().orElse(0);
    return problem.steps().stream()
        .filter(step -> step.pass() == Pass.FINE)
        .map(step -> step.area().ref())
        .distinct()
        .filter(area -> worst > 0 && holds(set.held, area))
        .mapToLong(
            area ->
                Math.round(practice.weights().worstLate().value() * problem.burden(area) / worst))
        .sum();
  }
}
