package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.IntPredicate;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.LogNormalDistribution;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.InsertClass;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * Every course of a small case, looked at one by one: all assignments of steps to visits, all
 * orders, all places of the injections, all sets of injections. Written from the words of the
 * problem alone; it uses nothing of staging and nothing of anaesthesia, so that neither can hide a
 * fault of its own.
 */
public final class Enumeration {
  private final Patient patient;
  private final Practice practice;
  private final List<Step> steps;
  private final Map<AreaRef, Double> burdens;
  private final int visits;
  private final List<AlertRule> alerts;
  private final Map<Visit, Done> known = new HashMap<>();
  private final boolean numbFirst;
  private boolean lengthDecides;

  public Enumeration(
      Patient patient,
      Practice practice,
      List<Step> steps,
      Map<AreaRef, Double> burdens,
      int visits) {
    this.patient = patient;
    this.practice = practice;
    this.steps = steps;
    this.burdens = burdens;
    this.visits = visits;
    this.alerts =
        patient.history().alerts().stream()
            .flatMap(alert -> practice.alertRule(alert).stream())
            .flatMap(
                rule ->
                    Stream.concat(
                        Stream.of(rule),
                        rule.includes().stream().flatMap(one -> practice.alertRule(one).stream())))
            .distinct()
            .toList();
    this.numbFirst =
        practice.numbing().numbFirst()
            || alerts.stream().anyMatch(AlertRule::numbFirst)
            || patient.wishes().stream()
                .anyMatch(wish -> wish.must() && wish.ask() instanceof Wish.NumbFirst);
  }

  /**
   * The best way to do a set of steps in one visit.
   *
   * @param chair seconds from set-up to close; negative where no legal visit does them
   * @param order what its order costs beside that: returns to a quadrant, and where it begins
   * @param noRoom injections that may fail and for whose repeat its doses leave no room
   * @param strong seconds that its agents cost in lower blocks
   * @param agent its name; of two, both
   */
  public record Done(
      int chair,
      int order,
      int injections,
      int blocks,
      int noRoom,
      int strong,
      int cartridges,
      @Nullable String agent) {
    static final Done NEVER = new Done(-1, 0, 0, 0, 0, 0, 0, null);
    static final Done TOO_LONG = new Done(-2, 0, 0, 0, 0, 0, 0, null);

    boolean legal() {
      return chair >= 0;
    }
  }

  /**
   * Lets a visit take an agent that the practice likes less only to be short enough. The model
   * names alerts, doses and how long numbness lasts as grounds for the choice; whether length may
   * be another, it leaves open.
   */
  public Enumeration lengthDecidesAgents() {
    lengthDecides = true;
    return this;
  }

  /**
   * The cheapest legal course.
   *
   * @param seconds its cost; -1 where there is none
   * @param visitOf by step, its visit, from 0
   */
  public record Cheapest(long seconds, int[] visitOf) {}

  public Cheapest cheapest() {
    Cheapest best = new Cheapest(-1, new int[0]);
    int assignments = (int) Math.pow(visits, steps.size());
    for (int assignment = 0; assignment < assignments; assignment++) {
      int[] visitOf = new int[steps.size()];
      int rest = assignment;
      for (int i = 0; i < steps.size(); i++) {
        visitOf[i] = rest % visits;
        rest /= visits;
      }
      long cost = cost(visitOf);
      if (cost >= 0 && (best.seconds() < 0 || cost < best.seconds())) {
        best = new Cheapest(cost, visitOf);
      }
    }
    return best;
  }

  private long cost(int[] visitOf) {
    int[] sets = new int[visits];
    for (int i = 0; i < visitOf.length; i++) {
      sets[visitOf[i]] |= 1 << i;
      for (int j = 0; j < visitOf.length; j++) {
        boolean apart = visitOf[i] != visitOf[j];
        if (apart && steps.get(i).pass() == steps.get(j).pass() && sameArea(i, j)) {
          return -1;
        }
        if (sameArea(i, j) && tooFarApart(Math.abs(visitOf[i] - visitOf[j]))) {
          return -1;
        }
        if (before(i, j) && visitOf[i] > visitOf[j]) {
          return -1;
        }
      }
    }
    List<Done> course = new ArrayList<>();
    for (int place = 0; place < visits; place++) {
      int set = sets[place];
      Done done = set == 0 ? Done.NEVER : visit(set, place == 0, place == visits - 1);
      if (!done.legal()) {
        return -1;
      }
      course.add(done);
    }
    long unkept = unkept(visitOf);
    return startsRight(sets[0]) && unkept >= 0 ? cost(course, visitOf) + unkept : -1;
  }

  /** Seconds for the wishes that are not kept; -1 where one must be. */
  private long unkept(int[] visitOf) {
    long seconds = 0;
    for (Wish wish : patient.wishes()) {
      int breaches = breaches(wish.ask(), visitOf);
      if (breaches > 0 && wish.must()) {
        return -1;
      }
      seconds += breaches * Math.round(practice.weights().wish().value());
    }
    return seconds;
  }

  private int breaches(Wish.Ask ask, int[] visitOf) {
    Set<Integer> there = new TreeSet<>();
    Set<Integer> elsewhere = new TreeSet<>();
    int met = 0;
    for (int visit = 0; visit < visits; visit++) {
      Set<Wish.Region> places = new HashSet<>();
      for (int i = 0; i < visitOf.length; i++) {
        List<Tooth> teeth = steps.get(i).area().teeth();
        List<Wish.Region> in =
            ask.regions().stream().filter(one -> teeth.stream().anyMatch(one::holds)).toList();
        if (visitOf[i] == visit) {
          places.addAll(in);
          (in.isEmpty() ? elsewhere : there).add(visit + 1);
        }
      }
      met += places.size() > 1 ? 1 : 0;
    }
    if (ask instanceof Wish.InVisit in) {
      boolean holds = in.ofVisits() == null || in.ofVisits() == visits;
      return holds && there.stream().anyMatch(visit -> visit != in.visit()) ? 1 : 0;
    }
    if (ask instanceof Wish.Together) {
      return there.size() > 1 ? 1 : 0;
    }
    if (ask instanceof Wish.Apart) {
      return met;
    }
    if (ask instanceof Wish.First) {
      return there.stream().anyMatch(one -> elsewhere.stream().anyMatch(other -> other < one))
          ? 1
          : 0;
    }
    return ask instanceof Wish.NumbFirst && !numbFirst ? 1 : 0;
  }

  /** Whether so many visits between two passes of an area are too many (H11). */
  private boolean tooFarApart(int visitsOn) {
    Integer days = practice.appointments().passesTogether().days();
    // For a deadline the practice's own gap gives way, to a day; an alert's does not.
    double gap =
        Math.max(
            most(AlertRule::minGapDays), Math.min(1, practice.appointments().gapMinDays().value()));
    return days != null && (visitsOn * gap > days || visitsOn > 0 && days == 0);
  }

  private boolean startsRight(int first) {
    Quadrant wanted = patient.startWith();
    List<Integer> of =
        indexes((1 << steps.size()) - 1).stream()
            .filter(i -> steps.get(i).area().quadrant() == wanted)
            .toList();
    return of.isEmpty() || of.stream().anyMatch(i -> (first >> i & 1) == 1);
  }

  private long cost(List<Done> course, int[] visitOf) {
    long chair = course.stream().mapToLong(Done::chair).sum();
    long longest = course.stream().mapToLong(Done::chair).max().orElseThrow();
    Set<String> quadrantVisits = new HashSet<>();
    Set<Quadrant> quadrants = new HashSet<>();
    Map<AreaRef, Integer> fineVisit = new TreeMap<>();
    Map<AreaRef, TreeSet<Integer>> visitsOf = new TreeMap<>();
    Set<AreaRef> areas = new TreeSet<>();
    for (int i = 0; i < visitOf.length; i++) {
      Step step = steps.get(i);
      areas.add(step.area().ref());
      visitsOf.computeIfAbsent(step.area().ref(), area -> new TreeSet<>()).add(visitOf[i]);
      if (step.pass() == Pass.FINE) {
        quadrants.add(step.area().quadrant());
        quadrantVisits.add(step.area().quadrant() + " " + visitOf[i]);
        fineVisit.put(step.area().ref(), visitOf[i]);
      }
    }
    double worst =
        areas.stream().mapToDouble(area -> burdens.getOrDefault(area, 0.0)).max().orElse(0);
    long late = 0;
    for (Map.Entry<AreaRef, Integer> fine : fineVisit.entrySet()) {
      double burden = burdens.getOrDefault(fine.getKey(), 0.0);
      if (worst > 0) {
        late +=
            Math.round(practice.weights().worstLate().value() * burden / worst) * fine.getValue();
      }
    }
    int waits = visitsOf.values().stream().mapToInt(places -> places.last() - places.first()).sum();
    double factor =
        alerts.stream()
            .map(AlertRule::injectionWeightFactor)
            .filter(figure -> figure != null)
            .mapToDouble(Figure::value)
            .max()
            .orElse(1);
    return chair
        + course.stream().mapToLong(Done::order).sum()
        + Math.round(
            practice.weights().balance().value() * (longest - chair / (double) course.size()))
        + Math.round(
            practice.weights().splitQuadrant().value() * (quadrantVisits.size() - quadrants.size()))
        + late
        + waits * Math.round(practice.weights().areaLeftOpen().value())
        + Math.round(
            practice.weights().injection().value()
                    * factor
                    * course.stream().mapToInt(Done::injections).sum()
                + most(AlertRule::blockPriceSeconds) * course.stream().mapToInt(Done::blocks).sum())
        + Math.round(
            practice.weights().noRoomToRepeat().value()
                * course.stream().mapToInt(Done::noRoom).sum())
        + course.stream().mapToLong(Done::strong).sum()
        + Math.round(most(AlertRule::visitPriceSeconds) * course.size())
        + Math.round(
            practice.weights().cartridge().value()
                * course.stream().mapToInt(Done::cartridges).sum());
  }

  private boolean sameArea(int i, int j) {
    return steps.get(i).area().ref().equals(steps.get(j).area().ref());
  }

  /** Gross before fine before finishing, in an area. */
  private boolean before(int i, int j) {
    List<Pass> order = List.of(Pass.GROSS, Pass.FINE, Pass.FINISHING);
    int first = order.indexOf(steps.get(i).pass());
    int second = order.indexOf(steps.get(j).pass());
    return sameArea(i, j) && first >= 0 && second >= 0 && first < second;
  }

  private List<Integer> indexes(int set) {
    List<Integer> indexes = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      if ((set >> i & 1) == 1) {
        indexes.add(i);
      }
    }
    return indexes;
  }

  private record Visit(int set, boolean first, boolean last) {}

  /** The best legal visit for a set of steps, given as bits, neither the first nor the last. */
  public Done visit(int set) {
    return visit(set, false, false);
  }

  private Done visit(int set, boolean first, boolean last) {
    return known.computeIfAbsent(new Visit(set, first, last), this::bestVisit);
  }

  /** Set-up, close and what the practice does around the work of such a visit. */
  private int around(Visit visit) {
    double minutes =
        practice.minutes().setUpMinutes().value() + practice.minutes().closeMinutes().value();
    for (Frame.Part part : practice.frame().parts().values()) {
      boolean due =
          part.visits() == Frame.Visits.EVERY
              || (part.visits() == Frame.Visits.FIRST && visit.first)
              || (part.visits() == Frame.Visits.LAST && visit.last)
              || part.alerts().stream()
                  .anyMatch(one -> alerts.stream().anyMatch(rule -> rule.alert() == one));
      minutes += due ? part.minutes().value() : 0;
    }
    int charting =
        indexes(visit.set).stream()
            .map(steps::get)
            .filter(step -> step.pass() == Pass.GROSS)
            .mapToInt(Step::chartSeconds)
            .sum();
    return (int) Math.round(60 * minutes) + charting;
  }

  private Done bestVisit(Visit visit) {
    int set = visit.set;
    List<Step> mine = indexes(set).stream().map(steps::get).toList();
    long inserts = mine.stream().map(step -> step.insert().name()).distinct().count();
    if (inserts > practice.appointments().kitHolds().value()) {
      return Done.NEVER;
    }
    for (Step step : mine) {
      boolean sleeve = step.insert().sleeved();
      boolean forImplants = sleeve || step.insert().insertClass() == InsertClass.HAND_IMPLANT;
      if (step.implant() != forImplants || (sleeve && step.power() != Power.LOW)) {
        return Done.NEVER;
      }
    }
    Set<Target> needs = new TreeSet<>();
    mine.forEach(step -> needs.addAll(step.needs()));
    if (needs.isEmpty()) {
      return done(visit, List.of());
    }
    List<Agent> agents =
        practice.preferredAgents().stream()
            .map(name -> practice.agents().get(name))
            .filter(this::allowed)
            .toList();
    List<List<Shot>> all = new ArrayList<>();
    for (Agent agent : agents) {
      List<List<Shot>> choices = lasting(needs, agent, null);
      if (choices.isEmpty()) {
        choices = new ArrayList<>();
        for (Agent second : agents) {
          if (second != agent) {
            choices.addAll(lasting(needs, agent, second));
          }
        }
      }
      all.addAll(choices);
    }
    List<List<Shot>> allowed = all.stream().filter(shots -> withinDose(shots, mine)).toList();
    Set<List<Shot>> suited = new LinkedHashSet<>();
    for (List<Shot> shots : allowed) {
      // Before one whose agents a lower block prices: what costs less there and lasts as long.
      allowed.stream()
          .filter(other -> strong(other) < strong(shots) && lasts(other) >= lasts(shots))
          .forEach(suited::add);
      suited.add(shots);
    }
    for (List<Shot> shots : suited) {
      Done done = done(visit, groups(shots));
      if (done.legal() || (done == Done.TOO_LONG && !lengthDecides)) {
        return done;
      }
    }
    return Done.NEVER;
  }

  /**
   * The cheapest legal injections with an agent, then the cheapest of those that last longer, and
   * so on; none where none are legal. A second agent may take a place where the first is less
   * dependable.
   */
  private List<List<Shot>> lasting(Set<Target> needs, Agent agent, @Nullable Agent second) {
    Set<Double> caps = new TreeSet<>();
    caps.add(Double.POSITIVE_INFINITY);
    practice.injections().values().forEach(kind -> kind.volumes().forEach(v -> caps.add(cap(v))));
    List<List<Shot>> choices = new ArrayList<>();
    for (double least : caps) {
      List<Shot> shots = cheapestLegal(needs, agent, second, least);
      if (shots == null) {
        return choices;
      }
      if (!choices.contains(shots)) {
        choices.add(shots);
      }
    }
    return choices;
  }

  private static double cap(Injection.Volume volume) {
    return volume.pulpalMinutes() == null
        ? Double.POSITIVE_INFINITY
        : volume.pulpalMinutes().value();
  }

  private Done done(Visit visit, List<List<Shot>> groups) {
    int set = visit.set;
    int working = indexes(set).stream().mapToInt(i -> steps.get(i).seconds()).sum();
    Orders orders = new Orders(set, groups);
    orders.seek(around(visit), chair -> fits(chair - working, working, groups));
    if (orders.chair < 0) {
      return orders.lasting ? Done.TOO_LONG : Done.NEVER;
    }
    int cartridges = 0;
    List<Shot> given = groups.stream().flatMap(List::stream).toList();
    Map<Agent, Double> amounts = amounts(given);
    for (Map.Entry<Agent, Double> one : amounts.entrySet()) {
      cartridges += (int) Math.ceil(one.getValue() / one.getKey().cartridgeMl().value() - 1e-9);
    }
    return new Done(
        orders.chair,
        orders.price,
        groups.stream().mapToInt(List::size).sum(),
        (int)
            groups.stream()
                .flatMap(List::stream)
                .filter(
                    shot -> shot.kind.technique() == Technique.BLOCK && !shot.kind.superficial())
                .count(),
        (int) given.stream().filter(shot -> fails(shot, given, set)).count(),
        strong(given),
        cartridges,
        amounts.isEmpty()
            ? null
            : String.join("+", amounts.keySet().stream().map(Agent::name).sorted().toList()));
  }

  /** Minutes that a block of the shortest of its agents lasts. */
  private static double lasts(List<Shot> given) {
    return given.stream().mapToDouble(shot -> inABlock(shot.agent, true)).min().orElse(0);
  }

  /** Minutes that pulp stays numb after a block, which lower teeth may have for longer. */
  private static double inABlock(Agent agent, boolean lower) {
    Figure own = lower ? agent.lowerBlockPulpalMinutes() : null;
    return (own == null ? agent.pulpalMinutes().get(Technique.BLOCK) : own).value();
  }

  /** What its agents cost in lower blocks. */
  private static int strong(List<Shot> given) {
    return (int)
        Math.round(
            given.stream()
                .filter(shot -> shot.kind.jaw() == Jaw.LOWER && !shot.kind.pulp().isEmpty())
                .filter(
                    shot -> shot.kind.technique() == Technique.BLOCK && !shot.kind.superficial())
                .map(shot -> shot.agent.lowerBlockPriceSeconds())
                .filter(price -> price != null)
                .mapToDouble(Figure::value)
                .sum());
  }

  /** Whether it may fail and cannot be given once more. */
  private boolean fails(Shot shot, List<Shot> given, int set) {
    List<Shot> more = new ArrayList<>(given);
    more.add(shot);
    return shot.kind.failureShare() != null
        && !withinDose(more, indexes(set).stream().map(steps::get).toList());
  }

  /** Whether the longest bookable length ends in time often enough. */
  private boolean fits(int fixed, int working, List<List<Shot>> groups) {
    double longest = practice.appointments().longestVisitMinutes().value();
    if (patient.longestVisitMinutes() != null) {
      longest = Math.min(longest, patient.longestVisitMinutes());
    }
    for (AlertRule alert : alerts) {
      if (alert.longestVisitMinutes() != null) {
        longest = Math.min(longest, alert.longestVisitMinutes().value());
      }
    }
    double unit = practice.appointments().unitMinutes().value();
    double left = 60 * unit * Math.floor(longest / unit) - fixed;
    // At most one injection fails, and is repeated and waited for.
    double none = 1;
    double chance = 0;
    for (Shot shot : groups.stream().flatMap(List::stream).toList()) {
      if (shot.kind.failureShare() != null) {
        double share = shot.kind.failureShare().value();
        none -= share;
        chance += share * inTime(left - seconds(shot) - longestOnset(shot), working);
      }
    }
    return chance + none * inTime(left, working) >= practice.appointments().certainty().value();
  }

  private double inTime(double left, int working) {
    double sigma = practice.minutes().spreadSigma().value();
    if (working == 0 || sigma == 0) {
      return left >= working ? 1 : 0;
    }
    return left <= 0
        ? 0
        : LogNormalDistribution.of(Math.log(working) - sigma * sigma / 2, sigma)
            .cumulativeProbability(left);
  }

  private boolean allowed(Agent agent) {
    return patient.weightKg() != null
        && alerts.stream()
            .noneMatch(
                alert ->
                    alert.forbids().contains(agent.drug())
                        || alert.forbids().contains(agent.vasoconstrictor()));
  }

  private static Map<Agent, Double> amounts(List<Shot> shots) {
    Map<Agent, Double> amounts = new HashMap<>();
    shots.forEach(shot -> amounts.merge(shot.agent, shot.ml(), Double::sum));
    return amounts;
  }

  private boolean withinDose(List<Shot> shots, List<Step> mine) {
    double share = 0;
    double epinephrine = 0;
    for (Map.Entry<Agent, Double> one : amounts(shots).entrySet()) {
      Agent agent = one.getKey();
      Agent.Limit limit = agent.limits().get(practice.ruleSet());
      double most = Double.POSITIVE_INFINITY;
      if (limit.mgPerKg() != null) {
        most = Math.min(most, limit.mgPerKg().value() * patient.weightKg());
      }
      if (limit.capMg() != null) {
        most = Math.min(most, limit.capMg().value());
      }
      share += one.getValue() * agent.mgPerMl().value() / most;
      epinephrine += one.getValue() * agent.epinephrineMgPerMl().value();
    }
    double gel =
        mine.stream()
                .filter(Step::gel)
                .mapToInt(step -> step.aspect() == StepAspect.BOTH ? 2 : 1)
                .sum()
            * practice.gel().cartridgesAspect().value()
            / practice.gel().cartridgesVisit().value();
    double cap = practice.epinephrineCapMg().value();
    for (AlertRule alert : alerts) {
      if (alert.epinephrineCapMg() != null) {
        cap = Math.min(cap, alert.epinephrineCapMg().value());
      }
    }
    return share + gel <= 1 + 1e-9 && epinephrine <= cap + 1e-9;
  }

  // The injections.

  /**
   * An injection of the table at a place.
   *
   * @param number by the table, then right before left, then from the midline, then by volume; a
   *     second agent's after all of the first's
   */
  private record Shot(
      int number,
      Injection kind,
      Quadrant quadrant,
      @Nullable Tooth tooth,
      Injection.Volume volume,
      Agent agent) {
    double ml() {
      return volume.ml().value();
    }

    boolean across(Practice practice) {
      return practice.appointments().midlineInfiltration()
          && tooth != null
          && kind.acrossMidline().contains(tooth.position());
    }

    boolean dependable(Target target) {
      String tissue =
          switch (target.kind()) {
            case PULP, MESIOBUCCAL_ROOT -> "pulp";
            case FACIAL -> "facial";
            case LINGUAL -> "lingual";
          };
      return kind.notDependable().stream()
          .noneMatch(
              row ->
                  row.tissue().word().equals(tissue)
                      && row.positions().contains(target.tooth().position())
                      && (row.drugs().isEmpty() || row.drugs().contains(agent.drug())));
    }

    boolean numbs(Target target) {
      Tooth at = target.tooth();
      boolean here =
          tooth != null
              ? tooth.equals(at)
              : at.quadrant().jaw() == kind.jaw()
                  && (kind.bothSides() || at.quadrant() == quadrant);
      if (!here || !dependable(target)) {
        return false;
      }
      return switch (target.kind()) {
        case PULP -> kind.pulp().contains(at.position());
        case FACIAL -> kind.facial().contains(at.position());
        case LINGUAL -> kind.lingual().contains(at.position());
        case MESIOBUCCAL_ROOT -> kind.mesiobuccalRoot() && at.position() == 6;
      };
    }
  }

  private int seconds(Shot shot) {
    Figure own = shot.kind.mlPerMinute();
    double rate = own == null ? practice.numbing().mlPerMinute().value() : own.value();
    return (int) Math.round(60 * shot.ml() / rate) + practice.numbing().handlingSeconds().asInt();
  }

  /** Neither two numb sides, but for front teeth across the midline, nor a block on both. */
  private boolean legalSides(List<Shot> shots) {
    Set<Side> sides = new TreeSet<>();
    Map<String, Set<Side>> blocks = new TreeMap<>();
    for (Shot shot : shots) {
      if (!shot.kind.bothSides() && !shot.across(practice)) {
        sides.add(shot.quadrant.side());
      }
      if (shot.kind.neverBothSides()) {
        blocks.computeIfAbsent(shot.kind.name(), name -> new HashSet<>()).add(shot.quadrant.side());
      }
    }
    return !(practice.appointments().oneNumbSide() && sides.size() > 1)
        && blocks.values().stream().allMatch(of -> of.size() == 1);
  }

  /** The cheapest legal injections that numb all of it; null where there are none that do. */
  private @Nullable List<Shot> cheapestLegal(
      Set<Target> needs, Agent agent, @Nullable Agent second, double leastCap) {
    List<Ranked> upper = covers(Jaw.UPPER, needs, agent, second, leastCap);
    List<Ranked> lower = covers(Jaw.LOWER, needs, agent, second, leastCap);
    boolean bothSides =
        needs.stream().map(target -> target.tooth().quadrant().side()).distinct().count() > 1;
    if (bothSides && practice.appointments().oneNumbSide()) {
      // Front teeth of both sides and nothing else: infiltrations, and no block.
      List<Shot> front = cheapestOf(upper, lower, this::binds);
      if (front != null) {
        return placed(front, needs);
      }
    }
    List<Shot> best = cheapestOf(upper, lower, shot -> false);
    return best == null ? null : placed(best, needs);
  }

  private boolean binds(Shot shot) {
    return !shot.kind.bothSides() && !shot.across(practice);
  }

  private @Nullable List<Shot> cheapestOf(
      List<Ranked> upper, List<Ranked> lower, Predicate<Shot> barred) {
    List<Shot> best = null;
    double[] bestRank = null;
    for (Ranked one : upper) {
      for (Ranked other : lower) {
        double[] rank = {
          one.cost + other.cost, one.ml + other.ml, one.shots.size() + other.shots.size()
        };
        int by = bestRank == null ? -1 : Arrays.compare(rank, bestRank);
        if (by > 0) {
          break;
        }
        List<Shot> all = new ArrayList<>(one.shots);
        all.addAll(other.shots);
        if (all.stream().noneMatch(barred)
            && legalSides(all)
            && (by < 0 || Arrays.compare(numbers(all), numbers(best)) < 0)) {
          best = all;
          bestRank = rank;
        }
      }
    }
    return best;
  }

  private static int[] numbers(List<Shot> shots) {
    return shots.stream().mapToInt(Shot::number).toArray();
  }

  /** Gives what numbs both sides on the side that is numb anyway. */
  private static List<Shot> placed(List<Shot> all, Set<Target> needs) {
    List<Shot> result = new ArrayList<>();
    for (Shot shot : all) {
      if (!shot.kind.bothSides()) {
        result.add(shot);
        continue;
      }
      Set<Side> numb = new TreeSet<>();
      Set<Side> numbInJaw = new TreeSet<>();
      for (Shot other : all) {
        if (!other.kind.bothSides()) {
          numb.add(other.quadrant.side());
          if (other.kind.jaw() == shot.kind.jaw()) {
            numbInJaw.add(other.quadrant.side());
          }
        }
      }
      boolean needsRight =
          needs.stream().anyMatch(target -> target.tooth().quadrant().side() == Side.RIGHT);
      Side side = Side.RIGHT;
      if (numb.size() == 1) {
        side = numb.iterator().next();
      } else if (numb.isEmpty() ? !needsRight : numbInJaw.equals(Set.of(Side.LEFT))) {
        side = Side.LEFT;
      }
      result.add(
          new Shot(
              shot.number,
              shot.kind,
              Quadrant.of(shot.kind.jaw(), side),
              null,
              shot.volume,
              shot.agent));
    }
    return result;
  }

  private record Ranked(List<Shot> shots, double cost, double ml) {}

  /** Sets of injections that numb what is needed in a jaw, none given in vain; cheapest first. */
  private List<Ranked> covers(
      Jaw jaw, Set<Target> all, Agent agent, @Nullable Agent second, double leastCap) {
    List<Target> needs =
        all.stream().filter(target -> target.tooth().quadrant().jaw() == jaw).toList();
    if (needs.isEmpty()) {
      return List.of(new Ranked(List.of(), 0, 0));
    }
    List<Shot> shots =
        places(jaw, needs, agent, second).stream()
            .filter(
                shot ->
                    shot.kind.pulp().isEmpty() && !shot.kind.mesiobuccalRoot()
                        || cap(shot.volume) >= leastCap)
            .toList();
    double factor =
        alerts.stream()
            .map(AlertRule::injectionWeightFactor)
            .filter(figure -> figure != null)
            .mapToDouble(Figure::value)
            .max()
            .orElse(1);
    int[] numbs = new int[shots.size()];
    long[] cost = new long[shots.size()];
    for (int i = 0; i < numbs.length; i++) {
      Shot shot = shots.get(i);
      for (int t = 0; t < needs.size(); t++) {
        numbs[i] |= shot.numbs(needs.get(t)) ? 1 << t : 0;
      }
      cost[i] =
          Math.round(
              seconds(shot)
                  + practice.weights().injection().value() * factor
                  + (shot.kind.technique() == Technique.BLOCK && !shot.kind.superficial()
                      ? most(AlertRule::blockPriceSeconds)
                      : 0)
                  + practice.weights().cartridge().value() * shot.ml() / 1.8);
    }
    Set<Long> sets = new TreeSet<>();
    addSets(0, 0, (1 << needs.size()) - 1, numbs, sets);
    List<Ranked> covers = new ArrayList<>();
    for (long set : sets) {
      List<Shot> some = new ArrayList<>();
      double sum = 0;
      double ml = 0;
      for (int i = 0; i < numbs.length; i++) {
        if ((set >> i & 1) == 1) {
          some.add(shots.get(i));
          sum += cost[i];
          ml += Math.round(1000 * shots.get(i).ml());
        }
      }
      covers.add(new Ranked(some, sum, ml));
    }
    // Volume and number settle what costs the same.
    covers.sort(
        Comparator.comparingDouble(Ranked::cost)
            .thenComparingDouble(Ranked::ml)
            .thenComparingInt(ranked -> ranked.shots.size()));
    return covers;
  }

  /** Whatever is not numb yet is numbed in every way that there is. */
  private static void addSets(long set, int numb, int all, int[] numbs, Set<Long> sets) {
    if (numb == all) {
      sets.add(set);
      return;
    }
    int next = Integer.lowestOneBit(all & ~numb);
    for (int i = 0; i < numbs.length; i++) {
      if ((numbs[i] & next) != 0) {
        addSets(set | 1L << i, numb | numbs[i], all, numbs, sets);
      }
    }
  }

  /** All places of all injections that would numb any of it. */
  private List<Shot> places(Jaw jaw, List<Target> needs, Agent agent, @Nullable Agent second) {
    List<Shot> shots = new ArrayList<>();
    int number = 0;
    for (Agent each : second == null ? List.of(agent) : List.of(agent, second)) {
      for (Injection kind : practice.injections().values()) {
        for (Side side : Side.values()) {
          Quadrant quadrant = Quadrant.of(kind.jaw(), side);
          for (int position = 1; position <= (kind.perTooth() ? 8 : 1); position++) {
            for (Injection.Volume volume : kind.volumes()) {
              Tooth tooth = kind.perTooth() ? new Tooth(quadrant, position) : null;
              Shot shot = new Shot(number++, kind, quadrant, tooth, volume, each);
              Shot before = new Shot(0, kind, quadrant, tooth, volume, agent);
              boolean again = kind.bothSides() && side == Side.LEFT;
              boolean more = each == agent || !numbed(shot).equals(numbed(before));
              if (kind.jaw() == jaw && !again && more && needs.stream().anyMatch(shot::numbs)) {
                shots.add(shot);
              }
            }
          }
        }
      }
    }
    return shots;
  }

  private static Set<Target> numbed(Shot shot) {
    Set<Target> numbed = new TreeSet<>();
    for (Tooth tooth : Tooth.values()) {
      for (Target.Kind kind : Target.Kind.values()) {
        if (shot.numbs(new Target(tooth, kind))) {
          numbed.add(new Target(tooth, kind));
        }
      }
    }
    return numbed;
  }

  /** By quadrant, the longest onset first, then by the table. */
  private static List<List<Shot>> groups(List<Shot> shots) {
    Map<Quadrant, List<Shot>> groups = new TreeMap<>();
    shots.stream()
        .sorted(
            Comparator.comparingDouble((Shot shot) -> -longestOnset(shot))
                .thenComparingInt(Shot::number))
        .forEach(shot -> groups.computeIfAbsent(shot.quadrant, q -> new ArrayList<>()).add(shot));
    return List.copyOf(groups.values());
  }

  private static double longestOnset(Shot shot) {
    Injection kind = shot.kind;
    boolean pulp = !kind.pulp().isEmpty() || kind.mesiobuccalRoot();
    boolean tissue = !kind.facial().isEmpty() || !kind.lingual().isEmpty();
    return Math.max(
        pulp ? onset(shot, Target.Kind.PULP) : 0, tissue ? onset(shot, Target.Kind.FACIAL) : 0);
  }

  private static int onset(Shot shot, Target.Kind kind) {
    double minutes = shot.agent.onsetMinutes().get(shot.kind.technique()).value();
    boolean pulp = kind == Target.Kind.PULP || kind == Target.Kind.MESIOBUCCAL_ROOT;
    Figure own = pulp ? shot.kind.pulpOnsetMinutes() : shot.kind.tissueOnsetMinutes();
    return (int) Math.round(60 * (own == null ? minutes : Math.max(minutes, own.value())));
  }

  private static int lasts(Shot shot, Target.Kind kind) {
    boolean pulp = kind == Target.Kind.PULP || kind == Target.Kind.MESIOBUCCAL_ROOT;
    double minutes =
        pulp
            ? Math.min(
                shot.kind.technique() == Technique.BLOCK
                    ? inABlock(
                        shot.agent,
                        shot.kind.jaw() == Jaw.LOWER
                            && !shot.kind.superficial()
                            && !shot.kind.pulp().isEmpty())
                    : shot.agent.pulpalMinutes().get(shot.kind.technique()).value(),
                cap(shot.volume))
            : shot.agent.softTissueMinutes().value();
    return (int) Math.round(60 * minutes);
  }

  /** All orders of the steps of a visit, with all places of its groups of injections. */
  private final class Orders {
    private final List<List<Shot>> groups;
    private final int count;
    private final int[] length;
    private final int[][] change;
    private final int[] after;
    private final int[][][] needs;
    private final int[] given;
    private final int[] start;
    private final int[] first;
    private final Quadrant[] quadrant;
    private final int back = (int) Math.round(practice.weights().returnToQuadrant().value());
    private final int within = (int) Math.round(practice.weights().needleWithinArea().value());
    private final List<Step> mine;
    private final int[] teeth;
    private final int[][][] needsFirst;
    private final int mostBeforeLook;
    private final boolean looks;
    private IntPredicate fits = chair -> true;

    /** Whether numbness lasts in any order, however long it takes. */
    private boolean lasting;

    /** Of the order that costs least, and of these the shortest; -1 where there is none. */
    private int chair = -1;

    private int price;

    Orders(int set, List<List<Shot>> groups) {
      List<Integer> mine = indexes(set);
      this.groups = groups;
      this.mine = mine.stream().map(steps::get).toList();
      this.count = mine.size();
      this.length = new int[count];
      this.change = new int[count][count];
      this.after = new int[count];
      this.needs = new int[count][][];
      this.first = new int[count];
      this.quadrant = new Quadrant[count];
      double worst = mine.stream().mapToDouble(this::burden).max().orElse(0);
      for (int i = 0; i < count; i++) {
        Step step = steps.get(mine.get(i));
        length[i] =
            step.seconds()
                + (step.gel()
                    ? practice.gel().applySeconds().asInt() + practice.gel().onsetSeconds().asInt()
                    : 0)
                + (step.pass() == Pass.FINE ? step.chartSeconds() : 0);
        quadrant[i] = step.area().quadrant();
        double share = worst == 0 ? 1 : burden(mine.get(i)) / worst;
        first[i] = (int) Math.round(practice.weights().worstFirst().value() * (1 - share));
        needs[i] = step.needs().stream().map(this::numbing).toArray(int[][]::new);
        for (int j = 0; j < count; j++) {
          change[i][j] = changeover(step, steps.get(mine.get(j)));
          if (before(mine.get(j), mine.get(i))) {
            after[i] |= 1 << j;
          }
        }
      }
      this.teeth = new int[count];
      this.needsFirst = new int[count][][];
      int all = 0;
      for (int i = 0; i < count; i++) {
        for (Tooth tooth : steps.get(mine.get(i)).teeth()) {
          teeth[i] |= 1 << 8 * tooth.quadrant().ordinal() + tooth.position() - 1;
        }
        all |= teeth[i];
        Quadrant here = quadrant[i];
        needsFirst[i] =
            IntStream.range(0, count)
                .filter(j -> quadrant[j] == here)
                .mapToObj(j -> needs[j])
                .flatMap(Arrays::stream)
                .toArray(int[][]::new);
      }
      this.mostBeforeLook =
          alerts.stream()
              .map(AlertRule::teethBeforeLook)
              .filter(figure -> figure != null)
              .mapToInt(Figure::asInt)
              .min()
              .orElse(32);
      this.looks = Integer.bitCount(all) > mostBeforeLook;
      this.given =
          groups.stream().mapToInt(g -> g.stream().mapToInt(s -> seconds(s)).sum()).toArray();
      this.start = new int[groups.size()];
    }

    private double burden(int step) {
      return burdens.getOrDefault(steps.get(step).area().ref(), 0.0);
    }

    /** Group, seconds from its start until numb, seconds from its start until it wears off. */
    private int[] numbing(Target target) {
      for (int g = 0; g < groups.size(); g++) {
        int end = 0;
        for (Shot shot : groups.get(g)) {
          end += seconds(shot);
          if (shot.numbs(target)) {
            return new int[] {
              g, end + onset(shot, target.kind()), end + lasts(shot, target.kind())
            };
          }
        }
      }
      throw new IllegalStateException("Nothing numbs " + target + ".");
    }

    /** With all that stands around the work put before it. */
    void seek(int around, IntPredicate inTime) {
      fits = inTime;
      Arrays.fill(start, -1);
      go(0, -1, around, 0, !looks, 0);
    }

    /** Whether a visit may begin with it: nothing before anything is numb, if that is asked. */
    private boolean mayBegin(int i) {
      return !numbFirst || groups.isEmpty() || needsFirst[i].length > 0;
    }

    private int teethOf(int done) {
      int all = 0;
      for (int i = 0; i < count; i++) {
        all |= (done >> i & 1) == 1 ? teeth[i] : 0;
      }
      return all;
    }

    /**
     * @param gap what has come since the last step: 0 nothing, 1 a needle, -1 the look
     */
    private void go(int done, int last, int now, int paid, boolean looked, int gap) {
      if (Integer.bitCount(done) == count && looked) {
        lasting = true;
        int better = chair < 0 ? -1 : Integer.compare(now + paid, chair + price);
        if (fits.test(now) && (better < 0 || (better == 0 && now < chair))) {
          chair = now;
          price = paid;
        }
        return;
      }
      // A visit that cannot be better any more need not be looked at to its end.
      int left = 0;
      for (int i = 0; i < count; i++) {
        left += (done >> i & 1) == 0 ? length[i] : 0;
      }
      if (chair >= 0 && now + left + paid > chair + price) {
        return;
      }
      for (int g = 0; g < given.length; g++) {
        if (start[g] < 0) {
          start[g] = now;
          int early = looked ? 0 : beforeLook(g);
          go(done, last, now + given[g], paid + early, looked, gap == 0 ? 1 : gap);
          start[g] = -1;
        }
      }
      if (!looked && done != 0 && (teethOf(done) & teethOf(~done)) == 0) {
        int look = (int) Math.round(60 * practice.minutes().lookMinutes().value());
        go(done, last, now + look, paid, true, -1);
      }
      for (int i = 0; i < count; i++) {
        boolean opens =
            (done != 0 || mayBegin(i))
                && (looked || Integer.bitCount(teethOf(done | 1 << i)) <= mostBeforeLook);
        if (opens && (done >> i & 1) == 0 && (after[i] & ~done) == 0) {
          int end = end(i, now + (last < 0 ? 0 : change[last][i]));
          if (end >= 0) {
            int parts = gap == 1 && last >= 0 && sameBlock(last, i) ? within : 0;
            go(done | 1 << i, i, end, paid + price(i, done, last) + parts, looked, 0);
          }
        }
      }
    }

    /** What a group with a deep block costs before the look. */
    private int beforeLook(int group) {
      return groups.get(group).stream()
              .anyMatch(
                  shot -> shot.kind.technique() == Technique.BLOCK && !shot.kind.superficial())
          ? (int) Math.round(most(AlertRule::blockBeforeLookSeconds))
          : 0;
    }

    private boolean sameBlock(int one, int other) {
      Step first = mine.get(one);
      Step second = mine.get(other);
      return first.area().ref().equals(second.area().ref()) && first.pass() == second.pass();
    }

    private int price(int i, int done, int last) {
      if (last < 0) {
        return first[i];
      }
      boolean been = false;
      for (int j = 0; j < count; j++) {
        been |= (done >> j & 1) == 1 && quadrant[j] == quadrant[i];
      }
      return been && quadrant[i] != quadrant[last] ? back : 0;
    }

    /** When a step taken next would end; -1 where it would not be numb. */
    private int end(int i, int arrival) {
      int ready = arrival;
      for (int[] numb : numbFirst ? needsFirst[i] : needs[i]) {
        if (start[numb[0]] < 0) {
          return -1;
        }
        ready = Math.max(ready, start[numb[0]] + numb[1]);
      }
      int end = ready + length[i];
      for (int[] numb : needs[i]) {
        if (end > start[numb[0]] + numb[2]) {
          return -1;
        }
      }
      return end;
    }

    private int changeover(Step one, Step other) {
      Minutes minutes = practice.minutes();
      int seconds =
          one.insert().name().equals(other.insert().name())
                  || (one.power() == Power.NONE && other.power() == Power.NONE)
              ? 0
              : minutes.tipChangeSeconds().asInt();
      if (!one.area().ref().equals(other.area().ref())) {
        return seconds + minutes.repositionAreaSeconds().asInt();
      }
      return one.aspect() == other.aspect()
          ? seconds
          : seconds + minutes.repositionAspectSeconds().asInt();
    }
  }

  /** The most that an alert sets; 0 where none does. */
  private double most(Function<AlertRule, @Nullable Figure> of) {
    return alerts.stream()
        .map(of)
        .filter(figure -> figure != null)
        .mapToDouble(Figure::value)
        .max()
        .orElse(0);
  }
}
