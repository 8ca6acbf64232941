package quadrille.reference;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * The work of one visit with the injections that it is given: all that can be told before its order
 * is known.
 *
 * @param steps their places in the problem
 * @param groups injections by quadrant, each group in the order in which it is given
 */
record VisitWork(Problem problem, List<Integer> steps, List<List<Shot>> groups) {

  /**
   * What a step waits for.
   *
   * @param ready seconds from the start of the group until all of it is numb
   * @param wornOff seconds from the start of the group until the first of it wears off
   */
  record Wait(int group, int ready, int wornOff) {}

  /** By quadrant; in each what takes longest to work first, then by the table. */
  static VisitWork of(Problem problem, List<Integer> steps, List<Shot> shots) {
    Map<Quadrant, List<Shot>> groups = new TreeMap<>();
    shots.stream()
        .sorted(
            Comparator.comparingInt((Shot shot) -> -shot.longestOnset())
                .thenComparingInt(Shot::number))
        .forEach(s -> groups.computeIfAbsent(s.quadrant(), key -> new ArrayList<>()).add(s));
    return new VisitWork(problem, steps, List.copyOf(groups.values()));
  }

  private Practice practice() {
    return problem.practice();
  }

  private List<Shot> shots() {
    return groups.stream().flatMap(List::stream).toList();
  }

  Step step(int i) {
    return problem.steps().get(steps.get(i));
  }

  int count() {
    return steps.size();
  }

  /** Work, and the gel or charting before it. */
  int length(int i) {
    return step(i).seconds()
        + step(i).chartSecondsBefore()
        + (step(i).gel()
            ? practice().gel().applySeconds().asInt() + practice().gel().onsetSeconds().asInt()
            : 0);
  }

  int groupSeconds(int group) {
    return groups.get(group).stream().mapToInt(shot -> shot.seconds(practice())).sum();
  }

  /** Whether a group holds a deep block. */
  boolean deep(int group) {
    return groups.get(group).stream().anyMatch(Shot::deepBlock);
  }

  int changeover(int from, int to) {
    Step one = step(from);
    Step other = step(to);
    Minutes minutes = practice().minutes();
    int tip = tip(from).equals(tip(to)) ? 0 : minutes.tipChangeSeconds().asInt();
    if (!one.area().ref().equals(other.area().ref())) {
      return tip + minutes.repositionAreaSeconds().asInt();
    }
    return one.aspect() == other.aspect() ? tip : tip + minutes.repositionAspectSeconds().asInt();
  }

  /** What is on the unit; hand instruments need no change of it. */
  private String tip(int i) {
    return step(i).power() == Power.NONE ? "" : step(i).insert().name();
  }

  /** Charting at the end of the visit. */
  int chartSeconds() {
    return IntStream.range(0, count()).map(i -> step(i).chartSecondsAfter()).sum();
  }

  /** Gross before fine before finishing, in an area (H5). */
  boolean before(int one, int other) {
    List<Pass> order = List.of(Pass.GROSS, Pass.FINE, Pass.FINISHING);
    int place = order.indexOf(step(one).pass());
    return step(one).area().ref().equals(step(other).area().ref())
        && place >= 0
        && place < order.indexOf(step(other).pass());
  }

  Quadrant quadrant(int i) {
    return step(i).area().quadrant();
  }

  int quadrants() {
    return (int) IntStream.range(0, count()).mapToObj(this::quadrant).distinct().count();
  }

  int quadrantsWithFine() {
    return (int)
        IntStream.range(0, count())
            .filter(i -> step(i).pass() == Pass.FINE)
            .mapToObj(this::quadrant)
            .distinct()
            .count();
  }

  /** What it costs to begin with a step that is not of the worst area. */
  int firstPrice(int i) {
    double worst = IntStream.range(0, count()).mapToDouble(this::burden).max().orElse(0);
    double share = worst == 0 ? 1 : burden(i) / worst;
    return (int) Math.round(practice().weights().worstFirst().value() * (1 - share));
  }

  private double burden(int i) {
    return problem.burden(step(i).area().ref());
  }

  /** Whether a look at the bleeding must part its first teeth from the others. */
  boolean looks() {
    return IntStream.range(0, count())
            .mapToObj(i -> step(i).teeth())
            .flatMap(List::stream)
            .distinct()
            .count()
        > problem.teethBeforeLook();
  }

  /** Whether the visit may begin with a step: nothing is touched before anything is numb. */
  boolean mayBegin(int i) {
    return !problem.numbFirst() || groups.isEmpty() || !needs(quadrant(i)).isEmpty();
  }

  private SortedSet<Target> needs(Quadrant quadrant) {
    SortedSet<Target> needs = new TreeSet<>();
    IntStream.range(0, count())
        .filter(i -> quadrant(i) == quadrant)
        .forEach(i -> needs.addAll(step(i).needs()));
    return needs;
  }

  /** H8: from when to when a step can be done; none where it waits for nothing. */
  List<Wait> waits(int i) {
    SortedMap<Integer, Wait> waits = new TreeMap<>();
    if (problem.numbFirst()) {
      numbed(needs(quadrant(i)), false, waits);
    }
    numbed(step(i).needs(), true, waits);
    return List.copyOf(waits.values());
  }

  private void numbed(Collection<Target> needs, boolean lasting, SortedMap<Integer, Wait> waits) {
    for (Target need : needs) {
      Wait one = numbed(need);
      Wait own = lasting ? one : new Wait(one.group(), one.ready(), Integer.MAX_VALUE);
      waits.merge(
          one.group(),
          own,
          (a, b) ->
              new Wait(
                  a.group(), Math.max(a.ready(), b.ready()), Math.min(a.wornOff(), b.wornOff())));
    }
  }

  private Wait numbed(Target need) {
    for (int group = 0; group < groups.size(); group++) {
      int end = 0;
      for (Shot shot : groups.get(group)) {
        end += shot.seconds(practice());
        if (shot.numbs(need)) {
          return new Wait(group, end + shot.onset(need.kind()), end + shot.lasts(need.kind()));
        }
      }
    }
    throw new IllegalStateException("Nothing numbs " + need + ".");
  }

  /** H4: how long the visit may take by the clock, frame included. */
  int mostSeconds() {
    int working = steps.stream().mapToInt(i -> problem.steps().get(i).seconds()).sum();
    double needed = Figures.needed(practice(), working, shots());
    return (int) Math.floor(problem.longestSeconds() + working - needed + 1e-4);
  }

  /** Work, gel, injections, and the changeovers that must come: each tip, each place once. */
  int leastSeconds() {
    Minutes minutes = practice().minutes();
    int tip = minutes.tipChangeSeconds().asInt();
    int move = Math.min(tip, minutes.repositionAreaSeconds().asInt());
    int tips = (int) IntStream.range(0, count()).mapToObj(this::tip).distinct().count();
    int places =
        (int)
            IntStream.range(0, count())
                .mapToObj(i -> step(i).area().ref() + " " + tip(i))
                .distinct()
                .count();
    int changes = tips * (tip - move) + places * move - tip;
    return IntStream.range(0, count()).map(this::length).sum()
        + IntStream.range(0, groups.size()).map(this::groupSeconds).sum()
        + Math.max(0, changes)
        + (looks() ? (int) Math.round(60 * minutes.lookMinutes().value()) : 0);
  }

  int inserts() {
    Set<String> names = new TreeSet<>();
    IntStream.range(0, count()).forEach(i -> names.add(step(i).insert().name()));
    return names.size();
  }

  /** What it costs beside its time, its order and where in the course it stands. */
  long price() {
    return Figures.whole(problem.injectionWeight()) * shots().size()
        + Figures.whole(problem.blockPrice()) * shots().stream().filter(Shot::deepBlock).count()
        + strongSeconds()
        + Figures.whole(practice().weights().noRoomToRepeat().value()) * noRoomToRepeat()
        + Figures.whole(practice().weights().cartridge().value()) * cartridges()
        + Figures.whole(practice().weights().splitQuadrant().value()) * quadrantsWithFine();
  }

  /** What its agents cost in lower blocks. */
  private long strongSeconds() {
    return Math.round(
        shots().stream()
            .filter(shot -> shot.deepBlock() && shot.kind().jaw() == Jaw.LOWER)
            .filter(shot -> !shot.kind().pulp().isEmpty())
            .map(shot -> shot.agent().lowerBlockPriceSeconds())
            .filter(Objects::nonNull)
            .mapToDouble(Figure::value)
            .sum());
  }

  private double blockMinutes() {
    return shots().stream()
        .mapToDouble(shot -> Shot.blockLasts(shot.agent(), true))
        .min()
        .orElse(0);
  }

  /** As preferred, but before each what costs less in lower blocks and lasts as long. */
  static List<VisitWork> suited(List<VisitWork> preferred) {
    Set<VisitWork> order = new LinkedHashSet<>();
    for (VisitWork one : preferred) {
      preferred.stream()
          .filter(other -> other.strongSeconds() < one.strongSeconds())
          .filter(other -> other.blockMinutes() >= one.blockMinutes())
          .forEach(order::add);
      order.add(one);
    }
    return List.copyOf(order);
  }

  private Map<Agent, Double> amounts() {
    Map<Agent, Double> amounts = new LinkedHashMap<>();
    shots().forEach(shot -> amounts.merge(shot.agent(), shot.ml(), Double::sum));
    return amounts;
  }

  private int cartridges() {
    return amounts().entrySet().stream()
        .mapToInt(
            one -> (int) Math.ceil(one.getValue() / one.getKey().cartridgeMl().value() - 1e-9))
        .sum();
  }

  private double gelCartridges(Set<Quadrant> where) {
    return IntStream.range(0, count())
            .filter(i -> step(i).gel() && where.contains(quadrant(i)))
            .map(i -> step(i).aspect() == StepAspect.BOTH ? 2 : 1)
            .sum()
        * practice().gel().cartridgesAspect().value();
  }

  /** H3, and what alerts cap (H10). */
  boolean withinDose() {
    return withinDose(amounts());
  }

  /** How many of the injections that may fail could not be given once more. */
  private long noRoomToRepeat() {
    return shots().stream()
        .filter(shot -> shot.kind().failureShare() != null)
        .filter(
            shot -> {
              Map<Agent, Double> more = amounts();
              more.merge(shot.agent(), shot.ml(), Double::sum);
              return !withinDose(more);
            })
        .count();
  }

  private boolean withinDose(Map<Agent, Double> amounts) {
    double share =
        gelCartridges(Set.of(Quadrant.values())) / practice().gel().cartridgesVisit().value();
    double epinephrine = 0;
    for (Map.Entry<Agent, Double> one : amounts.entrySet()) {
      Agent agent = Objects.requireNonNull(one.getKey());
      share += one.getValue() * agent.mgPerMl().value() / problem.mostMg(agent);
      epinephrine += one.getValue() * agent.epinephrineMgPerMl().value();
    }
    double mostGel = practice().gel().cartridgesQuadrant().value() + 1e-9;
    return share <= 1 + 1e-9
        && epinephrine <= problem.epinephrineCapMg() + 1e-9
        && List.of(Quadrant.values()).stream().allMatch(q -> gelCartridges(Set.of(q)) <= mostGel);
  }
}
