package quadrille.reference;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CircuitConstraint;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearArgument;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import com.google.ortools.sat.TableConstraint;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * A course of so many visits as a model for CP-SAT. One round trip goes from the first visit's
 * start through its steps to the second visit's start, and so on back to the first. The clock runs
 * on: visit v begins at v times the longest visit.
 *
 * <p>Where the words leave room, the narrower reading is taken, so that every course of the model
 * is legal and costs what it says: practices must numb one side only, see a patient on several
 * days, and have whole weights, that of balance no more than the number of visits. A visit takes
 * the first agent that the dose allows, and goes on to the next only where some step by itself
 * would outlast the numbness.
 */
public final class ReferenceModel {
  private final Problem problem;
  private final Practice practice;
  private final List<Step> steps;
  private final int visits;
  private final int longest;
  private final int setUp;
  private final int close;
  private final CpModel model = new CpModel();
  private List<Agent> agents;

  /** All steps of one pass of one area: they stay together (H6). */
  private record Together(AreaRef area, Quadrant quadrant, Pass pass, List<Integer> steps) {}

  private final List<Together> blocks = new ArrayList<>();
  private final int[] blockOf;
  private final BoolVar[][] in;
  private final BoolVar[][] next;
  private final BoolVar[][] first;
  private final BoolVar[][] last;
  private final IntVar[] arrival;
  private final IntVar[] start;
  private final IntVar[] chair;
  private final IntVar[] wait;
  private final BoolVar[] waits;
  private final LinearExprBuilder[] fixed;
  private final List<LinearExprBuilder> givenBefore = new ArrayList<>();
  private final LinearExprBuilder cost = LinearExpr.newBuilder();
  private BoolVar[][] takes = new BoolVar[0][0];
  private final Map<Jaw, JawCovers> jaws = new LinkedHashMap<>();
  private final Map<Jaw, BoolVar[][]> cover = new LinkedHashMap<>();
  private final Map<Jaw, IntVar[]> groupStart = new LinkedHashMap<>();

  public ReferenceModel(Problem problem) {
    Loader.loadNativeLibraries();
    this.problem = problem;
    this.practice = problem.practice();
    this.steps = problem.steps();
    this.visits = problem.visits();
    this.longest = problem.longestSeconds();
    Minutes minutes = practice.minutes();
    this.agents = problem.agents();
    this.setUp = Figures.seconds(minutes.setUpMinutes());
    this.close = Figures.seconds(minutes.closeMinutes());
    this.blockOf = new int[steps.size()];
    gather();
    this.in = new BoolVar[blocks.size()][visits];
    this.next = new BoolVar[steps.size()][steps.size()];
    this.first = new BoolVar[visits][steps.size()];
    this.last = new BoolVar[visits][steps.size()];
    this.arrival = new IntVar[steps.size()];
    this.start = new IntVar[steps.size()];
    this.wait = new IntVar[steps.size()];
    this.waits = new BoolVar[steps.size()];
    this.chair = new IntVar[visits];
    this.fixed = new LinearExprBuilder[visits];
    refuseWhatIsLeftOut();
    assign();
    injections();
    roundTrip();
    passesInOrder();
    numbness();
    doses();
    lengths();
    kits();
    costs();
    model.minimize(cost);
    hint();
  }

  private void refuseWhatIsLeftOut() {
    boolean plain =
        practice.appointments().oneNumbSide()
            && practice.appointments().gapMinDays().value() > 0
            && practice.weights().balance().value() <= visits;
    if (!plain) {
      throw new IllegalArgumentException(
          "The practice must numb one side in a visit, see patients on several days, and weigh"
              + " balance no more than the number of visits.");
    }
    for (Step step : steps) {
      if (step.chartSecondsAfter() > 0) {
        throw new IllegalArgumentException("Charting at the end of a visit is not known here.");
      }
      // H7.
      boolean sleeve = step.insert().sleeved();
      if (step.implant() != sleeve || (sleeve && step.power() != Power.LOW)) {
        throw new IllegalArgumentException("A wrong insert: " + step.words());
      }
    }
  }

  private void gather() {
    Map<String, Integer> known = new LinkedHashMap<>();
    for (int i = 0; i < steps.size(); i++) {
      Step step = steps.get(i);
      AreaRef name = step.area().ref();
      int block = known.computeIfAbsent(name + " " + step.pass(), key -> known.size());
      if (block == blocks.size()) {
        blocks.add(new Together(name, step.area().quadrant(), step.pass(), new ArrayList<>()));
      }
      blocks.get(block).steps().add(i);
      blockOf[i] = block;
    }
  }

  private int work(int step) {
    return steps.get(step).seconds();
  }

  /** Work, and the gel or charting before it. */
  private int length(int step) {
    return work(step)
        + steps.get(step).chartSecondsBefore()
        + (steps.get(step).gel()
            ? practice.gel().applySeconds().asInt() + practice.gel().onsetSeconds().asInt()
            : 0);
  }

  /** Gross before fine before finishing, in an area (H5). */
  private boolean before(Together one, Together other) {
    List<Pass> order = List.of(Pass.GROSS, Pass.FINE, Pass.FINISHING);
    int place = order.indexOf(one.pass());
    return one.area().equals(other.area()) && place >= 0 && place < order.indexOf(other.pass());
  }

  private int changeover(Step one, Step other) {
    Minutes minutes = practice.minutes();
    boolean sameInsert = one.insert().name().equals(other.insert().name());
    int tip = sameInsert ? 0 : minutes.tipChangeSeconds().asInt();
    if (!one.area().ref().equals(other.area().ref())) {
      return tip + minutes.repositionAreaSeconds().asInt();
    }
    return one.aspect() == other.aspect() ? tip : tip + minutes.repositionAspectSeconds().asInt();
  }

  /** Which visit takes what: no visit empty, and the complaint looked after in the first. */
  private void assign() {
    for (int b = 0; b < blocks.size(); b++) {
      for (int v = 0; v < visits; v++) {
        in[b][v] = model.newBoolVar("block " + b + " in " + v);
      }
      model.addExactlyOne(in[b]);
    }
    for (int v = 0; v < visits; v++) {
      List<Literal> some = new ArrayList<>();
      for (BoolVar[] block : in) {
        some.add(block[v]);
      }
      model.addBoolOr(some);
    }
    Quadrant wanted = problem.patient().startWith();
    List<Literal> there = new ArrayList<>();
    for (int b = 0; b < blocks.size(); b++) {
      if (blocks.get(b).quadrant() == wanted) {
        there.add(in[b][0]);
      }
    }
    if (!there.isEmpty()) {
      model.addBoolOr(there);
    }
  }

  /** The injections of each visit and jaw follow from the passes in it (H1, H2). */
  private void injections() {
    List<JawCovers.Numbed> numbed = new ArrayList<>();
    for (int b = 0; b < blocks.size(); b++) {
      SortedSet<Target> needs = new TreeSet<>();
      blocks.get(b).steps().forEach(step -> needs.addAll(steps.get(step).needs()));
      if (!needs.isEmpty()) {
        numbed.add(new JawCovers.Numbed(b, blocks.get(b).quadrant(), needs));
      }
    }
    Jaw[] both = Jaw.values();
    for (Jaw jaw : both) {
      jaws.put(jaw, new JawCovers(problem, jaw, numbed));
    }
    agents = agentsThatMayBeTaken();
    takes = new BoolVar[visits][agents.size()];
    for (int v = 0; v < visits; v++) {
      for (int a = 0; a < agents.size(); a++) {
        takes[v][a] = model.newBoolVar("visit " + v + " takes " + agents.get(a).name());
      }
    }
    for (Jaw jaw : both) {
      JawCovers covers = covers(jaw);
      cover.put(jaw, new BoolVar[visits][covers.covers().size()]);
      groupStart.put(jaw, new IntVar[visits]);
      for (int v = 0; v < visits; v++) {
        injections(jaw, covers, v);
      }
    }
    for (int v = 0; v < visits; v++) {
      oneSide(v);
    }
  }

  private void injections(Jaw jaw, JawCovers covers, int v) {
    int number = covers.covers().size();
    BoolVar[] mine = cover(jaw)[v];
    LinearExprBuilder which = LinearExpr.newBuilder();
    for (int c = 0; c < number; c++) {
      mine[c] = model.newBoolVar(jaw + " " + c + " in " + v);
      which.addTerm(mine[c], c);
    }
    model.addExactlyOne(mine);
    IntVar place = model.newIntVar(0, number - 1, jaw + " cover in " + v);
    model.addEquality(place, which);
    List<LinearArgument> columns = new ArrayList<>();
    covers.passes().forEach(pass -> columns.add(in[pass.number()][v]));
    columns.add(place);
    TableConstraint table = model.addAllowedAssignments(columns);
    for (JawCovers.Row row : covers.rows()) {
      long[] tuple = new long[columns.size()];
      for (int i = 0; i < covers.passes().size(); i++) {
        tuple[i] = row.chosen() >> i & 1;
      }
      tuple[columns.size() - 1] = row.cover();
      table.addTuple(tuple);
    }
    // Follows from the table; said once more by itself, for a better bound.
    for (JawCovers.Numbed pass : covers.passes()) {
      LinearExprBuilder some = LinearExpr.newBuilder();
      for (int c = 1; c < number; c++) {
        if (covers.covers().get(c).numbs(pass.needs())) {
          some.add(mine[c]);
        }
      }
      model.addGreaterOrEqual(some, in[pass.number()][v]);
    }
    groupStarts(jaw)[v] =
        model.newIntVar((long) v * longest, (v + 1L) * longest, jaw + " group of " + v);
  }

  /** The agents up to the first that no dose and no step can ever rule out. */
  private List<Agent> agentsThatMayBeTaken() {
    List<Agent> some = new ArrayList<>();
    double most = 0;
    for (JawCovers covers : jaws.values()) {
      most += covers.covers().stream().mapToDouble(JawCovers.Cover::ml).max().orElse(0);
    }
    for (Agent agent : agents) {
      some.add(agent);
      boolean gel = steps.stream().anyMatch(Step::gel);
      double limit = problem.mostMg(agent) * (gel ? 0.5 : 1);
      boolean always =
          most * agent.mgPerMl().value() <= limit
              && most * agent.epinephrineMgPerMl().value() <= problem.epinephrineCapMg()
              && jaws.values().stream().allMatch(covers -> neverOutlasted(covers, agent));
      // With gel, half of the dose is left to it; more of it in one visit is not seen here.
      if (always && (!gel || gelOfAll() <= 0.5)) {
        break;
      }
    }
    return some;
  }

  private double gelOfAll() {
    return blocks.stream().mapToDouble(block -> gelCartridges(block, null)).sum()
        / practice.gel().cartridgesVisit().value();
  }

  private boolean neverOutlasted(JawCovers covers, Agent agent) {
    return covers.passes().stream()
        .allMatch(pass -> covers.covers().stream().noneMatch(c -> outlasted(pass, c, agent)));
  }

  /** Whether a step of a pass by itself takes longer than an agent numbs. */
  private boolean outlasted(JawCovers.Numbed pass, JawCovers.Cover some, Agent agent) {
    return some.numbs(pass.needs())
        && blocks.get(pass.number()).steps().stream()
            .filter(step -> !steps.get(step).needs().isEmpty())
            .anyMatch(
                step ->
                    some.ready(steps.get(step).needs(), agent, practice.numbing()) + length(step)
                        > some.wornOff(steps.get(step).needs(), agent, practice.numbing()));
  }

  private JawCovers covers(Jaw jaw) {
    return Objects.requireNonNull(jaws.get(jaw));
  }

  private BoolVar[][] cover(Jaw jaw) {
    return Objects.requireNonNull(cover.get(jaw));
  }

  private IntVar[] groupStarts(Jaw jaw) {
    return Objects.requireNonNull(groupStart.get(jaw));
  }

  private void oneSide(int v) {
    List<Literal> none = new ArrayList<>();
    Map<Side, List<Literal>> sides = new TreeMap<>();
    jaws.forEach(
        (jaw, covers) -> {
          none.add(cover(jaw)[v][0]);
          for (int c = 1; c < covers.covers().size(); c++) {
            Side side = covers.covers().get(c).side();
            if (side != null) {
              sides.computeIfAbsent(side, key -> new ArrayList<>()).add(cover(jaw)[v][c]);
            }
          }
        });
    BoolVar right = model.newBoolVar("right side numb in " + v);
    sides.getOrDefault(Side.RIGHT, List.of()).forEach(some -> model.addImplication(some, right));
    sides
        .getOrDefault(Side.LEFT, List.of())
        .forEach(some -> model.addImplication(some, right.not()));
    // An agent where there are injections, and none where there are not.
    for (int a = 0; a < agents.size(); a++) {
      model.addBoolOr(new Literal[] {takes[v][a].not(), none.get(0).not(), none.get(1).not()});
    }
    model.addAtMostOne(takes[v]);
    for (Literal nothing : none) {
      List<Literal> some = new ArrayList<>(List.of(takes[v]));
      some.add(nothing);
      model.addBoolOr(some);
    }
  }

  /** One round trip through all visits, and the clock along it. */
  private void roundTrip() {
    int n = steps.size();
    CircuitConstraint circuit = model.addCircuit();
    for (int v = 0; v < visits; v++) {
      chair[v] = model.newIntVar(setUp + close, longest, "chair seconds of " + v);
    }
    for (int i = 0; i < n; i++) {
      long most = (long) visits * longest;
      arrival[i] = model.newIntVar(setUp, most, "arrival at " + i);
      start[i] = model.newIntVar(setUp, most, "start of " + i);
      // Nobody idles: only a step that must be numb is waited for.
      wait[i] = model.newIntVar(0, steps.get(i).needs().isEmpty() ? 0 : longest, "wait " + i);
      waits[i] = model.newBoolVar("waits before " + i);
      model.addEquality(wait[i], 0).onlyEnforceIf(waits[i].not());
      givenBefore.add(LinearExpr.newBuilder());
      for (int v = 0; v < visits; v++) {
        Literal here = in[blockOf[i]][v];
        model.addGreaterOrEqual(arrival[i], v * (long) longest + setUp).onlyEnforceIf(here);
        model.addLessOrEqual(start[i], (v + 1L) * longest - close - length(i)).onlyEnforceIf(here);
        first[v][i] = model.newBoolVar("first of " + v + " is " + i);
        last[v][i] = model.newBoolVar("last of " + v + " is " + i);
        model.addImplication(first[v][i], here);
        model.addImplication(last[v][i], here);
        circuit.addArc(n + v, i, first[v][i]);
        circuit.addArc(i, n + (v + 1) % visits, last[v][i]);
        model.addEquality(arrival[i], v * (long) longest + setUp).onlyEnforceIf(first[v][i]);
        model
            .addEquality(
                chair[v], LinearExpr.affine(start[i], 1, length(i) + close - v * (long) longest))
            .onlyEnforceIf(last[v][i]);
      }
    }
    for (int i = 0; i < n; i++) {
      LinearExprBuilder from = LinearExpr.newBuilder();
      for (int j = 0; j < n; j++) {
        if (i != j && !before(blocks.get(blockOf[j]), blocks.get(blockOf[i]))) {
          follow(circuit, i, j);
        }
        if (i != j && !before(blocks.get(blockOf[i]), blocks.get(blockOf[j]))) {
          // Filled from the other side below.
          next[j][i] = next[j][i] == null ? model.newBoolVar(j + " then " + i) : next[j][i];
          from.addTerm(next[j][i], changeover(steps.get(j), steps.get(i)));
        }
      }
      givenBefore(i);
      from.add(arrival[i]).add(givenBefore.get(i)).add(wait[i]);
      model.addEquality(start[i], from);
    }
    for (int v = 0; v < visits; v++) {
      groupsInTurn(v);
    }
  }

  private void follow(CircuitConstraint circuit, int i, int j) {
    next[i][j] = next[i][j] == null ? model.newBoolVar(i + " then " + j) : next[i][j];
    circuit.addArc(i, j, next[i][j]);
    model
        .addEquality(arrival[j], LinearExpr.affine(start[i], 1, length(i)))
        .onlyEnforceIf(next[i][j]);
    if (blockOf[i] != blockOf[j]) {
      for (int v = 0; v < visits; v++) {
        model.addBoolOr(
            new Literal[] {next[i][j].not(), in[blockOf[i]][v].not(), in[blockOf[j]][v]});
        model.addBoolOr(
            new Literal[] {next[i][j].not(), in[blockOf[j]][v].not(), in[blockOf[i]][v]});
      }
    }
  }

  private final Map<Jaw, Literal[][]> givenAt = new LinkedHashMap<>();

  /** The groups given just before a step: between the step before and the changeover. */
  private void givenBefore(int i) {
    for (Jaw jaw : Jaw.values()) {
      JawCovers covers = covers(jaw);
      int most =
          covers.covers().stream().mapToInt(c -> c.seconds(practice.numbing())).max().orElse(0);
      if (most == 0) {
        continue;
      }
      Literal[][] at = givenAt.computeIfAbsent(jaw, key -> new Literal[visits][steps.size()]);
      IntVar seconds = model.newIntVar(0, most, jaw + " seconds before " + i);
      LinearExprBuilder whether = LinearExpr.newBuilder();
      for (int v = 0; v < visits; v++) {
        BoolVar given = model.newBoolVar(jaw + " before " + i + " in " + v);
        at[v][i] = given;
        whether.addTerm(given, most);
        model.addImplication(given, in[blockOf[i]][v]);
        model.addEquality(seconds, groupSeconds(jaw, v)).onlyEnforceIf(given);
        model.addGreaterOrEqual(groupStarts(jaw)[v], arrival[i]).onlyEnforceIf(given);
      }
      model.addLessOrEqual(seconds, whether);
      givenBefore.get(i).add(seconds);
    }
    for (Jaw jaw : Jaw.values()) {
      Literal[][] at = givenAt.get(jaw);
      for (int v = 0; at != null && v < visits; v++) {
        LinearExprBuilder end = LinearExpr.newBuilder().add(groupStarts(jaw)[v]);
        model
            .addLessOrEqual(
                end.add(groupSeconds(jaw, v)),
                LinearExpr.newBuilder().add(arrival[i]).add(givenBefore.get(i)))
            .onlyEnforceIf(at[v][i]);
      }
    }
  }

  private LinearExprBuilder groupSeconds(Jaw jaw, int v) {
    LinearExprBuilder seconds = LinearExpr.newBuilder();
    List<JawCovers.Cover> covers = covers(jaw).covers();
    for (int c = 0; c < covers.size(); c++) {
      seconds.addTerm(cover(jaw)[v][c], covers.get(c).seconds(practice.numbing()));
    }
    return seconds;
  }

  /** Each group once, and one after the other. */
  private void groupsInTurn(int v) {
    for (Jaw jaw : Jaw.values()) {
      Literal[][] at = givenAt.get(jaw);
      if (at != null) {
        List<Literal> once = new ArrayList<>(List.of(at[v]));
        once.add(cover(jaw)[v][0]);
        model.addExactlyOne(once);
      }
    }
    BoolVar upperFirst = model.newBoolVar("upper jaw first in " + v);
    LinearExprBuilder upperEnd = groupSeconds(Jaw.UPPER, v).add(groupStarts(Jaw.UPPER)[v]);
    LinearExprBuilder lowerEnd = groupSeconds(Jaw.LOWER, v).add(groupStarts(Jaw.LOWER)[v]);
    Literal[] upperThenLower = {
      upperFirst, cover(Jaw.UPPER)[v][0].not(), cover(Jaw.LOWER)[v][0].not()
    };
    Literal[] lowerThenUpper = {
      upperFirst.not(), cover(Jaw.UPPER)[v][0].not(), cover(Jaw.LOWER)[v][0].not()
    };
    model.addLessOrEqual(upperEnd, groupStarts(Jaw.LOWER)[v]).onlyEnforceIf(upperThenLower);
    model.addLessOrEqual(lowerEnd, groupStarts(Jaw.UPPER)[v]).onlyEnforceIf(lowerThenUpper);
  }

  private void passesInOrder() {
    for (int b = 0; b < blocks.size(); b++) {
      for (int c = 0; c < blocks.size(); c++) {
        if (before(blocks.get(b), blocks.get(c))) {
          for (int i : blocks.get(b).steps()) {
            for (int j : blocks.get(c).steps()) {
              model.addLessOrEqual(LinearExpr.affine(start[i], 1, length(i)), arrival[j]);
            }
          }
          // The later pass in no earlier visit.
          for (int v = 0; v < visits; v++) {
            LinearExprBuilder notLater = LinearExpr.newBuilder();
            for (int u = 0; u <= v; u++) {
              notLater.addTerm(in[b][u], 1).addTerm(in[c][u], -1);
            }
            model.addGreaterOrEqual(notLater, 0);
          }
        }
      }
    }
  }

  /** H8: each step after onset, and over before it wears off. */
  private void numbness() {
    jaws.forEach(
        (jaw, covers) -> {
          for (JawCovers.Numbed pass : covers.passes()) {
            for (int step : blocks.get(pass.number()).steps()) {
              if (!steps.get(step).needs().isEmpty()) {
                for (int v = 0; v < visits; v++) {
                  numbness(jaw, covers, step, v);
                }
              }
            }
          }
        });
  }

  private void numbness(Jaw jaw, JawCovers covers, int step, int v) {
    SortedSet<Target> needs = steps.get(step).needs();
    IntVar from = groupStarts(jaw)[v];
    Literal here = in[blockOf[step]][v];
    LinearExpr end = LinearExpr.affine(start[step], 1, length(step));
    int soonest = Integer.MAX_VALUE;
    int latest = 0;
    // Injections that make it numb at the same times are one case.
    Map<Long, Map<Integer, List<Literal>>> byTimes = new TreeMap<>();
    for (int c = 1; c < covers.covers().size(); c++) {
      JawCovers.Cover some = covers.covers().get(c);
      for (int a = 0; a < agents.size() && some.numbs(needs); a++) {
        int ready = some.ready(needs, agents.get(a), practice.numbing());
        int wornOff = Math.min(longest, some.wornOff(needs, agents.get(a), practice.numbing()));
        soonest = Math.min(soonest, ready);
        latest = Math.max(latest, wornOff);
        byTimes
            .computeIfAbsent((long) ready << 32 | wornOff, key -> new TreeMap<>())
            .computeIfAbsent(a, key -> new ArrayList<>())
            .add(cover(jaw)[v][c]);
      }
    }
    for (Map.Entry<Long, Map<Integer, List<Literal>>> times : byTimes.entrySet()) {
      int ready = (int) (times.getKey() >> 32);
      int wornOff = times.getKey().intValue();
      if (byTimes.size() == 1) {
        noLongerThan(step, from, ready, here);
        continue;
      }
      BoolVar so = model.newBoolVar("times of " + step + " in " + v);
      times
          .getValue()
          .forEach(
              (a, some) -> {
                for (Literal one : some) {
                  model.addBoolOr(
                      agents.size() == 1
                          ? new Literal[] {so, here.not(), one.not()}
                          : new Literal[] {so, here.not(), one.not(), takes[v][a].not()});
                }
              });
      noLongerThan(step, from, ready, so);
      if (ready > soonest) {
        model.addGreaterOrEqual(start[step], LinearExpr.affine(from, 1, ready)).onlyEnforceIf(so);
      }
      if (wornOff < latest) {
        model.addLessOrEqual(end, LinearExpr.affine(from, 1, wornOff)).onlyEnforceIf(so);
      }
    }
    if (soonest < Integer.MAX_VALUE) {
      model.addGreaterOrEqual(start[step], LinearExpr.affine(from, 1, soonest)).onlyEnforceIf(here);
      if (latest < longest) {
        model.addLessOrEqual(end, LinearExpr.affine(from, 1, latest)).onlyEnforceIf(here);
      }
    }
  }

  /** A step that waits starts the second that all it needs is numb. */
  private void noLongerThan(int step, IntVar from, int ready, Literal so) {
    model
        .addLessOrEqual(start[step], LinearExpr.affine(from, 1, ready))
        .onlyEnforceIf(new Literal[] {waits[step], so});
  }

  /** H3 and H10, and which agent is taken: the first that they and the numbness allow. */
  private void doses() {
    for (int v = 0; v < visits; v++) {
      gel(v);
      BoolVar[] refused = new BoolVar[agents.size()];
      for (int a = 0; a < agents.size(); a++) {
        Agent agent = agents.get(a);
        LinearExprBuilder share = gelShare(v);
        LinearExprBuilder epinephrine = LinearExpr.newBuilder();
        double most = problem.mostMg(agent);
        for (Jaw jaw : Jaw.values()) {
          List<JawCovers.Cover> covers = covers(jaw).covers();
          for (int c = 1; c < covers.size(); c++) {
            double ml = covers.get(c).ml();
            share.addTerm(cover(jaw)[v][c], Figures.fine(ml * agent.mgPerMl().value() / most));
            epinephrine.addTerm(
                cover(jaw)[v][c], Figures.fine(ml * agent.epinephrineMgPerMl().value()));
          }
        }
        long cap = Figures.fine(problem.epinephrineCapMg());
        model.addLessOrEqual(share, Figures.FINE).onlyEnforceIf(takes[v][a]);
        model.addLessOrEqual(epinephrine, cap).onlyEnforceIf(takes[v][a]);
        BoolVar tooMuch = model.newBoolVar("too much of " + a + " in " + v);
        BoolVar tooStrong = model.newBoolVar("too strong " + a + " in " + v);
        model.addGreaterOrEqual(share, Figures.FINE + 1).onlyEnforceIf(tooMuch);
        model.addGreaterOrEqual(epinephrine, cap + 1).onlyEnforceIf(tooStrong);
        refused[a] = model.newBoolVar("refused " + a + " in " + v);
        List<Literal> why = new ArrayList<>(List.of(refused[a].not(), tooMuch, tooStrong));
        why.addAll(outlasted(v, agent));
        model.addBoolOr(why);
        for (int earlier = 0; earlier < a; earlier++) {
          model.addImplication(takes[v][a], refused[earlier]);
        }
      }
    }
  }

  /** Steps of a visit that by themselves take longer than an agent numbs. */
  private List<Literal> outlasted(int v, Agent agent) {
    List<Literal> why = new ArrayList<>();
    jaws.forEach(
        (jaw, covers) -> {
          for (JawCovers.Numbed pass : covers.passes()) {
            for (int c = 1; c < covers.covers().size(); c++) {
              if (outlasted(pass, covers.covers().get(c), agent)) {
                BoolVar both = model.newBoolVar(agent.name() + " outlasted in " + v);
                model.addImplication(both, cover(jaw)[v][c]);
                model.addImplication(both, in[pass.number()][v]);
                why.add(both);
              }
            }
          }
        });
    return why;
  }

  private double gelCartridges(Together block, @Nullable Quadrant quadrant) {
    int aspects = 0;
    for (int step : block.steps()) {
      if (steps.get(step).gel() && (quadrant == null || block.quadrant() == quadrant)) {
        aspects += steps.get(step).aspect() == StepAspect.BOTH ? 2 : 1;
      }
    }
    return aspects * practice.gel().cartridgesAspect().value();
  }

  private LinearExprBuilder gelShare(int v) {
    LinearExprBuilder share = LinearExpr.newBuilder();
    for (int b = 0; b < blocks.size(); b++) {
      double cartridges = gelCartridges(blocks.get(b), null);
      if (cartridges > 0) {
        share.addTerm(
            in[b][v], Figures.fine(cartridges / practice.gel().cartridgesVisit().value()));
      }
    }
    return share;
  }

  private void gel(int v) {
    model.addLessOrEqual(gelShare(v), Figures.FINE);
    for (Quadrant quadrant : Quadrant.values()) {
      LinearExprBuilder here = LinearExpr.newBuilder();
      for (int b = 0; b < blocks.size(); b++) {
        here.addTerm(in[b][v], Figures.fine(gelCartridges(blocks.get(b), quadrant)));
      }
      model.addLessOrEqual(here, Figures.fine(practice.gel().cartridgesQuadrant().value()));
    }
  }

  /** H4, and what the seconds of a visit are made of. */
  private void lengths() {
    long stretch = (long) Math.ceil(Figures.stretch(practice) * Figures.FINE - 1e-3);
    for (int v = 0; v < visits; v++) {
      LinearExprBuilder needed = LinearExpr.newBuilder().addTerm(chair[v], Figures.FINE);
      fixed[v] = LinearExpr.newBuilder().add(setUp + close);
      for (int i = 0; i < steps.size(); i++) {
        needed.addTerm(in[blockOf[i]][v], (stretch - Figures.FINE) * work(i));
        fixed[v].addTerm(in[blockOf[i]][v], length(i));
      }
      model.addLessOrEqual(needed, Figures.FINE * longest);
      for (Jaw jaw : Jaw.values()) {
        fixed[v].add(groupSeconds(jaw, v));
      }
    }
    // Follows from the clock; said once more as a sum, for a better bound.
    LinearExprBuilder all = LinearExpr.newBuilder();
    for (int i = 0; i < steps.size(); i++) {
      all.add(wait[i]);
      for (int j = 0; j < steps.size(); j++) {
        if (next[j][i] != null) {
          all.addTerm(next[j][i], changeover(steps.get(j), steps.get(i)));
        }
      }
    }
    for (int v = 0; v < visits; v++) {
      all.add(fixed[v]);
    }
    model.addEquality(LinearExpr.sum(chair), all);
  }

  /** H9; and each insert in a visit must be put on, each place of it be gone to. */
  private void kits() {
    Minutes minutes = practice.minutes();
    int tip = minutes.tipChangeSeconds().asInt();
    int move = Math.min(tip, minutes.repositionAreaSeconds().asInt());
    List<String> inserts = steps.stream().map(step -> step.insert().name()).distinct().toList();
    List<String> places = steps.stream().map(ReferenceModel::place).distinct().toList();
    for (int v = 0; v < visits; v++) {
      int visit = v;
      BoolVar[] used =
          inserts.stream().map(x -> model.newBoolVar(x + visit)).toArray(BoolVar[]::new);
      BoolVar[] met = places.stream().map(x -> model.newBoolVar(x + visit)).toArray(BoolVar[]::new);
      for (int i = 0; i < steps.size(); i++) {
        Literal here = in[blockOf[i]][v];
        model.addImplication(here, used[inserts.indexOf(steps.get(i).insert().name())]);
        model.addImplication(here, met[places.indexOf(place(steps.get(i)))]);
      }
      model.addLessOrEqual(LinearExpr.sum(used), practice.appointments().kitHolds().asInt());
      LinearExprBuilder least = LinearExpr.newBuilder().add(fixed[v]).add(-tip);
      for (BoolVar insert : used) {
        least.addTerm(insert, tip - move);
      }
      for (BoolVar place : met) {
        least.addTerm(place, move);
      }
      model.addGreaterOrEqual(chair[v], least);
      // Nothing is used or met that is not there.
      onlyIfThere(used, v, i -> inserts.indexOf(steps.get(i).insert().name()));
      onlyIfThere(met, v, i -> places.indexOf(place(steps.get(i))));
    }
  }

  private void onlyIfThere(BoolVar[] used, int v, java.util.function.IntUnaryOperator of) {
    for (int k = 0; k < used.length; k++) {
      int which = k;
      List<Literal> some = new ArrayList<>(List.of(used[k].not()));
      IntStream.range(0, steps.size())
          .filter(i -> of.applyAsInt(i) == which)
          .map(i -> blockOf[i])
          .distinct()
          .forEach(block -> some.add(in[block][v]));
      model.addBoolOr(some);
    }
  }

  private static String place(Step step) {
    return step.area().ref() + " " + step.insert().name();
  }

  private void costs() {
    cost.addSum(chair);
    balance();
    split();
    late();
    long injection = Figures.whole(problem.injectionWeight());
    long cartridge = Figures.whole(practice.weights().cartridge().value());
    cost.add(Figures.whole(problem.visitPrices()));
    for (int v = 0; v < visits; v++) {
      LinearExprBuilder volume = LinearExpr.newBuilder();
      for (Jaw jaw : Jaw.values()) {
        List<JawCovers.Cover> covers = covers(jaw).covers();
        for (int c = 1; c < covers.size(); c++) {
          long blocks =
              Figures.whole(covers.get(c).shots().stream().mapToDouble(problem::blockPrice).sum());
          cost.addTerm(cover(jaw)[v][c], injection * covers.get(c).shots().size() + blocks);
          volume.addTerm(cover(jaw)[v][c], Math.round(10_000 * covers.get(c).ml()));
        }
      }
      IntVar cartridges = model.newIntVar(0, 100, "cartridges of " + v);
      for (int a = 0; a < agents.size(); a++) {
        long each = Math.round(10_000 * agents.get(a).cartridgeMl().value());
        model.addLessOrEqual(volume, LinearExpr.term(cartridges, each)).onlyEnforceIf(takes[v][a]);
      }
      cost.addTerm(cartridges, cartridge);
    }
  }

  /** The longest visit above the mean, rounded: the least whole number that is no less. */
  private void balance() {
    long weight = Math.round(1000 * practice.weights().balance().value());
    IntVar most = model.newIntVar(0, longest, "longest visit");
    IntVar balance = model.newIntVar(0, weight * longest / 1000 + 1, "balance");
    LinearExprBuilder above =
        LinearExpr.newBuilder().addTerm(most, 2 * weight * visits).add(1 - 1000L * visits);
    for (int v = 0; v < visits; v++) {
      model.addGreaterOrEqual(most, chair[v]);
      above.addTerm(chair[v], -2 * weight);
    }
    model.addGreaterOrEqual(LinearExpr.term(balance, 2000L * visits), above);
    cost.add(balance);
  }

  private void split() {
    long weight = Figures.whole(practice.weights().splitQuadrant().value());
    for (Quadrant quadrant : Quadrant.values()) {
      List<Integer> fine =
          IntStream.range(0, blocks.size())
              .filter(b -> blocks.get(b).pass() == Pass.FINE)
              .filter(b -> blocks.get(b).quadrant() == quadrant)
              .boxed()
              .toList();
      if (!fine.isEmpty()) {
        cost.add(-weight);
        for (int v = 0; v < visits; v++) {
          BoolVar some = model.newBoolVar("fine pass of " + quadrant + " in " + v);
          for (int b : fine) {
            model.addImplication(in[b][v], some);
          }
          cost.addTerm(some, weight);
        }
      }
    }
  }

  private void late() {
    double worst =
        steps.stream().mapToDouble(step -> problem.burden(step.area().ref())).max().orElse(0);
    for (int b = 0; b < blocks.size(); b++) {
      if (blocks.get(b).pass() == Pass.FINE && worst > 0) {
        double burden = problem.burden(blocks.get(b).area());
        long each = Math.round(practice.weights().worstLate().value() * burden / worst);
        for (int v = 1; v < visits; v++) {
          cost.addTerm(in[b][v], each * v);
        }
      }
    }
  }

  /** Somewhere to start from; whether it is legal, CP-SAT must see. */
  private void hint() {
    int[] lengths = IntStream.range(0, steps.size()).map(this::length).toArray();
    List<List<Integer>> orders = new PlainCourse(problem, blockOf, lengths).orders();
    for (int v = 0; v < visits; v++) {
      List<Integer> order = orders.get(v);
      for (int k = 0; k < order.size(); k++) {
        int i = order.get(k);
        for (int u = 0; u < visits; u++) {
          if (i == blocks.get(blockOf[i]).steps().get(0)) {
            model.addHint(in[blockOf[i]][u], u == v);
          }
          model.addHint(first[u][i], u == v && k == 0);
          model.addHint(last[u][i], u == v && k == order.size() - 1);
        }
        for (int j = 0; j < steps.size(); j++) {
          if (next[i][j] != null) {
            model.addHint(next[i][j], k + 1 < order.size() && order.get(k + 1) == j);
          }
        }
      }
    }
  }

  /**
   * Seeks the cheapest course.
   *
   * @param seconds at most
   */
  public Outcome solve(double seconds, int workers) {
    CpSolver solver = new CpSolver();
    solver.getParameters().setMaxTimeInSeconds(seconds).setNumWorkers(workers).setRandomSeed(1);
    // With two workers CP-SAT's own choice leaves the circuit's cuts out, and its bound is poor.
    solver.getParameters().addSubsolvers("max_lp");
    CpSolverStatus status = solver.solve(model);
    boolean found = status == CpSolverStatus.OPTIMAL || status == CpSolverStatus.FEASIBLE;
    List<List<Integer>> orders = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (int v = 0; found && v < visits; v++) {
      orders.add(order(solver, v));
      String agent = "none";
      for (int a = 0; a < agents.size(); a++) {
        agent = solver.booleanValue(takes[v][a]) ? agents.get(a).name() : agent;
      }
      names.add(agent);
    }
    return new Outcome(
        status.toString(),
        found ? Math.round(solver.objectiveValue()) : -1,
        (long) Math.ceil(solver.bestObjectiveBound() - 1e-6),
        solver.wallTime(),
        orders,
        names);
  }

  private List<Integer> order(CpSolver solver, int v) {
    return IntStream.range(0, steps.size())
        .filter(i -> solver.booleanValue(in[blockOf[i]][v]))
        .boxed()
        .sorted(java.util.Comparator.comparingLong(i -> solver.value(start[i])))
        .toList();
  }
}
