package quadrille.reference;

import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CircuitConstraint;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.IntervalVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Tooth;

/**
 * The order of one visit as a model for CP-SAT: a round trip from the visit's start through its
 * steps and back, and the clock along it. Between two steps come injections and the look in any
 * order, then the changeover, then waiting.
 */
final class VisitOrder {
  // Costs are weighed with this, so that of orders that cost the same the shortest is found.
  private static final long WEIGHT = 100_000;

  private final VisitWork work;
  private final int n;
  private final int longest;
  private final int look;
  private final CpModel model = new CpModel();
  private final @Nullable BoolVar[][] next;
  private final BoolVar[] first;
  private final BoolVar[] last;
  private final IntVar[] arrival;
  private final IntVar[] start;
  private final IntVar[] groupStart;
  private final LinearExprBuilder[] between;
  private final List<Between> all = new ArrayList<>();
  private @Nullable IntVar lookStart;
  private BoolVar @Nullable [] lookAt;
  private final IntVar chair;
  private final IntVar price;

  /** What is done once between two steps: a group of injections, or the look. */
  private record Between(IntVar start, int seconds, BoolVar[] at) {}

  /**
   * What is known of the best order.
   *
   * @param order places in the problem; empty where none is known
   * @param chair seconds without the frame
   * @param cost chair seconds, returns to a quadrant and where it begins
   * @param least no order costs less
   * @param impossible whether no order keeps the rules
   */
  record Found(
      List<Integer> order, int chair, int cost, int least, boolean impossible, double effort) {
    boolean proven() {
      return impossible || (!order.isEmpty() && least >= cost);
    }
  }

  /**
   * @param longest seconds that it may take, without the frame
   */
  VisitOrder(VisitWork work, int longest) {
    this.work = work;
    this.n = work.count();
    this.longest = longest;
    this.look = (int) Math.round(60 * work.problem().practice().minutes().lookMinutes().value());
    this.next = new BoolVar[n][n];
    this.first = new BoolVar[n];
    this.last = new BoolVar[n];
    this.arrival = new IntVar[n];
    this.start = new IntVar[n];
    this.groupStart = new IntVar[work.groups().size()];
    this.between = new LinearExprBuilder[n];
    this.chair = model.newIntVar(0, longest, "chair");
    this.price = model.newIntVar(0, 100_000, "price");
    roundTrip();
    betweenSteps();
    clock();
    numbness();
    prices();
  }

  private void roundTrip() {
    CircuitConstraint circuit = model.addCircuit();
    for (int i = 0; i < n; i++) {
      arrival[i] = model.newIntVar(0, longest, "arrival " + i);
      start[i] = model.newIntVar(0, longest, "start " + i);
      between[i] = LinearExpr.newBuilder();
      first[i] = model.newBoolVar("first " + i);
      last[i] = model.newBoolVar("last " + i);
      circuit.addArc(n, i, first[i]);
      circuit.addArc(i, n, last[i]);
      if (!work.mayBegin(i)) {
        model.addEquality(first[i], 0);
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        if (i != j && !work.before(j, i)) {
          BoolVar then = model.newBoolVar(i + " then " + j);
          next[i][j] = then;
          circuit.addArc(i, j, then);
          between[j].addTerm(then, work.changeover(i, j));
        }
        if (work.before(i, j)) {
          model.addLessOrEqual(end(i), arrival[j]);
        }
      }
    }
  }

  private LinearExpr end(int i) {
    return LinearExpr.affine(start[i], 1, work.length(i));
  }

  /** Each group once, and the look where one is due; one after the other. */
  private void betweenSteps() {
    List<IntervalVar> intervals = new ArrayList<>();
    for (int group = 0; group < groupStart.length; group++) {
      groupStart[group] = model.newIntVar(0, longest, "group " + group);
      BoolVar[] at = before(groupStart[group], work.groupSeconds(group), intervals);
      model.addExactlyOne(at);
    }
    if (work.looks()) {
      IntVar from = model.newIntVar(0, longest, "look");
      BoolVar[] at = before(from, look, intervals);
      lookStart = from;
      lookAt = at;
      model.addExactlyOne(at);
      look(from);
      for (int i = 0; i < n; i++) {
        model.addImplication(at[i], first[i].not());
      }
    }
    model.addNoOverlap(intervals);
  }

  private BoolVar[] before(IntVar from, int seconds, List<IntervalVar> intervals) {
    BoolVar[] at = new BoolVar[n];
    for (int i = 0; i < n; i++) {
      at[i] = model.newBoolVar(from.getName() + " before " + i);
      between[i].addTerm(at[i], seconds);
      model.addGreaterOrEqual(from, arrival[i]).onlyEnforceIf(at[i]);
    }
    all.add(new Between(from, seconds, at));
    intervals.add(model.newFixedSizeIntervalVar(from, seconds, from.getName()));
    return at;
  }

  /** Few teeth before it, and nothing of them after it. */
  private void look(IntVar lookStart) {
    Map<Tooth, BoolVar> before = new TreeMap<>();
    for (int i = 0; i < n; i++) {
      BoolVar step = model.newBoolVar(i + " before the look");
      model.addLessOrEqual(end(i), lookStart).onlyEnforceIf(step);
      model
          .addGreaterOrEqual(start[i], LinearExpr.affine(lookStart, 1, look))
          .onlyEnforceIf(step.not());
      for (Tooth tooth : work.step(i).teeth()) {
        model.addEquality(
            before.computeIfAbsent(tooth, key -> model.newBoolVar(key + " before the look")), step);
      }
    }
    model.addLessOrEqual(
        LinearExpr.sum(before.values().toArray(new BoolVar[0])), work.problem().teethBeforeLook());
  }

  private void clock() {
    LinearExprBuilder sum = LinearExpr.newBuilder();
    for (int i = 0; i < n; i++) {
      IntVar wait = model.newIntVar(0, work.waits(i).isEmpty() ? 0 : longest, "wait " + i);
      // All that is between is done before the changeover begins.
      for (Between some : all) {
        LinearExprBuilder given = LinearExpr.newBuilder().add(arrival[i]);
        for (Between one : all) {
          given.addTerm(one.at()[i], one.seconds());
        }
        model
            .addLessOrEqual(LinearExpr.affine(some.start(), 1, some.seconds()), given)
            .onlyEnforceIf(some.at()[i]);
      }
      sum.add(between[i]).add(wait).add(work.length(i));
      model.addEquality(
          start[i], LinearExpr.newBuilder().add(arrival[i]).add(between[i]).add(wait));
      model.addEquality(arrival[i], 0).onlyEnforceIf(first[i]);
      model.addEquality(chair, end(i)).onlyEnforceIf(last[i]);
      for (int j = 0; j < n; j++) {
        if (next[i][j] != null) {
          model.addEquality(arrival[j], end(i)).onlyEnforceIf(next[i][j]);
        }
      }
    }
    // Follows from the clock; said once more as a sum, for a better bound.
    model.addEquality(chair, sum);
    model.addGreaterOrEqual(chair, work.leastSeconds());
  }

  private void numbness() {
    for (int i = 0; i < n; i++) {
      for (VisitWork.Wait wait : work.waits(i)) {
        IntVar from = groupStart[wait.group()];
        model.addGreaterOrEqual(start[i], LinearExpr.affine(from, 1, wait.ready()));
        if (wait.wornOff() < longest) {
          model.addLessOrEqual(end(i), LinearExpr.affine(from, 1, wait.wornOff()));
        }
      }
    }
  }

  /** Returns to a quadrant, to begin elsewhere than in the worst area, and where needles come. */
  private void prices() {
    long back = Figures.whole(work.problem().practice().weights().returnToQuadrant().value());
    LinearExprBuilder paid = LinearExpr.newBuilder().add(back * (1 - work.quadrants()));
    for (int i = 0; i < n; i++) {
      paid.addTerm(first[i], work.firstPrice(i));
      for (int j = 0; j < n; j++) {
        if (next[i][j] != null && work.quadrant(i) != work.quadrant(j)) {
          paid.addTerm(next[i][j], back);
        }
      }
    }
    blocksBeforeLook(paid);
    needlesWithinArea(paid);
    model.addEquality(price, paid);
  }

  /** Each group with a deep block that is given before the look. */
  private void blocksBeforeLook(LinearExprBuilder paid) {
    IntVar from = lookStart;
    if (from == null) {
      return;
    }
    long each = Figures.whole(work.problem().blockBeforeLookPrice());
    for (int group = 0; group < groupStart.length; group++) {
      if (work.deep(group)) {
        BoolVar early = model.newBoolVar(group + " before the look");
        model.addLessThan(groupStart[group], from).onlyEnforceIf(early);
        model.addGreaterOrEqual(groupStart[group], from).onlyEnforceIf(early.not());
        paid.addTerm(early, each);
      }
    }
  }

  /** Each time that a group is given between two steps of one pass of an area, and no look is. */
  private void needlesWithinArea(LinearExprBuilder paid) {
    long each = Figures.whole(work.problem().practice().weights().needleWithinArea().value());
    for (int j = 0; j < n; j++) {
      BoolVar parted = model.newBoolVar("needle before " + j);
      boolean may = false;
      for (int i = 0; i < n; i++) {
        if (next[i][j] == null
            || !work.step(i).area().equals(work.step(j).area())
            || work.step(i).pass() != work.step(j).pass()) {
          continue;
        }
        for (int group = 0; group < groupStart.length; group++) {
          List<Literal> some = new ArrayList<>();
          some.add(next[i][j].not());
          some.add(all.get(group).at()[j].not());
          some.add(parted);
          if (lookAt != null) {
            some.add(lookAt[j]);
          }
          model.addBoolOr(some.toArray(new Literal[0]));
          may = true;
        }
      }
      if (may) {
        paid.addTerm(parted, each);
      }
    }
  }

  /** Whether any order keeps the rules; unknown counts as yes. */
  static boolean possible(VisitWork work, double effort) {
    int forever = 3 * work.leastSeconds() + 36_000;
    return solver(effort).solve(new VisitOrder(work, forever).model) != CpSolverStatus.INFEASIBLE;
  }

  private static CpSolver solver(double effort) {
    CpSolver solver = new CpSolver();
    solver
        .getParameters()
        .setMaxDeterministicTime(effort)
        .setNumWorkers(1)
        .setLinearizationLevel(2)
        .setRandomSeed(1);
    return solver;
  }

  /**
   * Seeks the order that costs least, and of these the shortest.
   *
   * @param effort of CP-SAT's deterministic seconds, at most
   */
  Found solve(double effort) {
    model.minimize(LinearExpr.newBuilder().addTerm(chair, WEIGHT + 1).addTerm(price, WEIGHT));
    CpSolver solver = solver(effort);
    CpSolverStatus status = solver.solve(model);
    double spent = solver.response().getDeterministicTime();
    int least = (int) Math.ceil((solver.bestObjectiveBound() - longest) / WEIGHT - 1e-9);
    if (status != CpSolverStatus.OPTIMAL && status != CpSolverStatus.FEASIBLE) {
      boolean impossible = status == CpSolverStatus.INFEASIBLE;
      return new Found(List.of(), 0, 0, Math.max(0, least), impossible, spent);
    }
    List<Integer> order =
        IntStream.range(0, n)
            .boxed()
            .sorted(Comparator.comparingLong(i -> solver.value(start[i])))
            .map(i -> work.steps().get(i))
            .toList();
    int seconds = (int) solver.value(chair);
    int paid = seconds + (int) solver.value(price);
    return new Found(
        order, seconds, paid, status == CpSolverStatus.OPTIMAL ? paid : least, false, spent);
  }
}
