package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Weights;
import quadrille.plan.work.Target;

/**
 * Finds the cheapest injections that numb what must be numb, exactly.
 *
 * <p>An injection costs, in whole seconds: the time to give it, plus the practice's weight of an
 * injection times the patient's factor, plus its weight of a cartridge for each 1.8 mL. Between
 * sets of equal cost the one with less volume is taken, then the one with fewer injections, then
 * the one that comes first in the practice's table (right before left, front teeth first, small
 * volumes first; what a second agent gives last).
 *
 * <p>{@link #covers} keeps to one numb side, gives no block where front teeth of both sides are
 * infiltrated and nothing else is needed, and no block on both sides that never is; {@link
 * #cheapest} is the cheapest whatever the sides and with whatever agent, which no other undercuts.
 *
 * <p>Answers are remembered, so an instance belongs to one thread.
 */
public final class InjectionCover {

  /** A cartridge for the purpose of weighing volume, so that the set does not hang on the agent. */
  private static final double CARTRIDGE_ML = 1.8;

  private static final double MOST_SECONDS = 10_000_000;
  private static final double MOST_ML = 100;

  /** Beyond this many remembered answers all are forgotten; the answers stay the same. */
  private static final int REMEMBERED = 100_000;

  private static final double ALWAYS = Double.POSITIVE_INFINITY;

  private static final List<Target> TARGETS =
      Tooth.values().stream()
          .flatMap(tooth -> Arrays.stream(Target.Kind.values()).map(of -> new Target(tooth, of)))
          .toList();

  private final Practice practice;
  private final Patient patient;
  private final List<Injection.NotDependable> byDrug;
  private final List<Double> lasting;
  private final Map<Mix, Map<Jaw, JawCover>> mixes = new HashMap<>();
  private final Map<Asked, List<Cover>> covers = new HashMap<>();
  private final Map<Needs, Cover> cheapest = new HashMap<>();

  public InjectionCover(Practice practice, Patient patient) {
    this.practice = practice;
    this.patient = patient;
    this.byDrug =
        practice.injections().values().stream()
            .flatMap(injection -> injection.notDependable().stream())
            .filter(row -> !row.drugs().isEmpty())
            .toList();
    TreeSet<Double> caps = new TreeSet<>();
    caps.add(ALWAYS);
    practice.injections().values().stream()
        .flatMap(injection -> injection.volumes().stream())
        .map(InjectionCover::lasts)
        .forEach(caps::add);
    this.lasting = List.copyOf(caps);
  }

  /** Of the rows that speak of some drugs, which hold for one agent and for a second. */
  private record Mix(List<Boolean> first, @Nullable List<Boolean> second) {}

  /** Agents by their names, which are quicker told apart. */
  private record Asked(Needs needs, String first, @Nullable String second) {}

  private static double lasts(Injection.Volume volume) {
    Figure most = volume.pulpalMinutes();
    return most == null ? ALWAYS : most.value();
  }

  /**
   * The cheapest cover of some targets with whatever agent, of volumes that last as short as they
   * may, and on both sides where that is cheaper: no visit numbs them for less.
   */
  public Cover cheapest(Collection<Target> targets) {
    return cheapest(Needs.of(targets));
  }

  /** The cheapest cover of some targets, whatever the agent, the sides and how long it lasts. */
  public Cover cheapest(Needs needs) {
    Cover known = cheapest.get(needs);
    if (known == null) {
      forgetMany(cheapest);
      known = cover(solve(mix(null, null), needs, 0, Sides.ANY), needs, null, null);
      cheapest.put(needs, known);
    }
    return known;
  }

  /**
   * The covers that a visit may choose from with an agent, cheapest first: each next one is the
   * cheapest of injections that all last longer than the shortest of the one before. Of all covers
   * that keep to one numb side and give no block right and left that is never given so; where there
   * is none, the one answer breaks that, or leaves targets uncovered.
   *
   * @param second an agent that may be taken instead where the first does not numb as dependably;
   *     null for none
   */
  public List<Cover> covers(Needs needs, Agent first, @Nullable Agent second) {
    Asked asked = new Asked(needs, first.name(), second == null ? null : second.name());
    List<Cover> known = covers.get(asked);
    if (known == null) {
      forgetMany(covers);
      known = lasting(needs, first, second);
      covers.put(asked, known);
    }
    return known;
  }

  private static void forgetMany(Map<?, ?> remembered) {
    if (remembered.size() >= REMEMBERED) {
      remembered.clear();
    }
  }

  private List<Cover> lasting(Needs needs, Agent first, @Nullable Agent second) {
    Map<Jaw, JawCover> mix = mix(first, second);
    List<Cover> covers = new ArrayList<>();
    Solution before = null;
    for (int level = 0; level < lasting.size(); level++) {
      Solution solution = legal(mix, needs, level);
      if (solution == null) {
        break;
      }
      if (before == null || !before.chosen().equals(solution.chosen())) {
        covers.add(cover(solution, needs, first, second));
      }
      before = solution;
    }
    return covers.isEmpty()
        ? List.of(cover(solve(mix, needs, 0, Sides.ANY), needs, first, second))
        : List.copyOf(covers);
  }

  private List<Boolean> rows(@Nullable Agent agent) {
    return byDrug.stream().map(row -> PlacedInjection.concerns(row, agent)).toList();
  }

  /**
   * Which injections may be given.
   *
   * @param numb the one side on which all may be; null for both
   * @param front whether only those may be that bind to no side
   * @param barred kinds that may not be given on a side, such as {@code inferior alveolar RIGHT}
   */
  private record Sides(@Nullable Side numb, boolean front, Set<String> barred) {
    static final Sides ANY = new Sides(null, false, Set.of());
    static final Sides FRONT = new Sides(null, true, Set.of());

    Sides without(String kind, Side side) {
      Set<String> more = new TreeSet<>(barred);
      more.add(kind + " " + side);
      return new Sides(numb, front, more);
    }
  }

  /**
   * @param chosen by the practice's table, upper jaw first
   * @param whole whether it covers all targets
   */
  private record Solution(List<Candidate> chosen, boolean whole) {
    private static final Comparator<Solution> CHEAPER =
        Comparator.comparingLong(Solution::weight)
            .thenComparing(Solution::numbers, Arrays::compare);

    long weight() {
      return chosen.stream().mapToLong(Candidate::weight).sum();
    }

    int[] numbers() {
      return chosen.stream().mapToInt(Candidate::number).toArray();
    }
  }

  /** The cheapest that keeps to the rules of sides; null where none covers all. */
  private @Nullable Solution legal(Map<Jaw, JawCover> mix, Needs needs, int level) {
    if (!practice.appointments().oneNumbSide()) {
      return undoubled(mix, needs, level, Sides.ANY);
    }
    // Where the front alone is worked on, on both sides, nobody blocks one of them.
    boolean front =
        practice.appointments().midlineInfiltration()
            && needs.touches(Side.RIGHT)
            && needs.touches(Side.LEFT);
    Solution best = front ? solve(mix, needs, level, Sides.FRONT) : null;
    if (best != null && best.whole()) {
      return best;
    }
    best = null;
    for (Side side : Side.values()) {
      Solution solution = solve(mix, needs, level, new Sides(side, false, Set.of()));
      if (solution.whole() && (best == null || Solution.CHEAPER.compare(solution, best) < 0)) {
        best = solution;
      }
    }
    return best;
  }

  /** Branches on the side of a block that is given on both and never may be. */
  private @Nullable Solution undoubled(
      Map<Jaw, JawCover> mix, Needs needs, int level, Sides sides) {
    Solution solution = solve(mix, needs, level, sides);
    if (!solution.whole()) {
      return null;
    }
    String doubled = doubled(solution);
    if (doubled == null) {
      return solution;
    }
    Solution best = null;
    for (Side side : Side.values()) {
      Solution other = undoubled(mix, needs, level, sides.without(doubled, side));
      if (other != null && (best == null || Solution.CHEAPER.compare(other, best) < 0)) {
        best = other;
      }
    }
    return best;
  }

  private static @Nullable String doubled(Solution solution) {
    Map<String, Side> sides = new HashMap<>();
    for (Candidate candidate : solution.chosen()) {
      PlacedInjection placed = candidate.placed().get(0);
      if (placed.injection().neverBothSides()) {
        Side side = placed.quadrant().side();
        Side other = sides.putIfAbsent(placed.injection().name(), side);
        if (other != null && other != side) {
          return placed.injection().name();
        }
      }
    }
    return null;
  }

  private Solution solve(Map<Jaw, JawCover> mix, Needs needs, int level, Sides sides) {
    List<Candidate> chosen = new ArrayList<>();
    boolean whole = true;
    for (Jaw jaw : Jaw.values()) {
      JawCover cover = Objects.requireNonNull(mix.get(jaw));
      long wanted = needs.of(jaw);
      chosen.addAll(cover.cheapest(wanted, level, sides));
      whole &= cover.uncoverable(wanted, level, sides) == 0;
    }
    return new Solution(chosen, whole);
  }

  /** Agents that no row tells apart share what has been found. */
  private Map<Jaw, JawCover> mix(@Nullable Agent first, @Nullable Agent second) {
    return mixes.computeIfAbsent(
        new Mix(rows(first), second == null ? null : rows(second)),
        key -> {
          Map<Jaw, JawCover> both = new EnumMap<>(Jaw.class);
          for (Jaw jaw : Jaw.values()) {
            both.put(jaw, new JawCover(jaw, first, second));
          }
          return both;
        });
  }

  private Cover cover(
      Solution solution, Needs needs, @Nullable Agent first, @Nullable Agent second) {
    int cost = solution.chosen().stream().mapToInt(Candidate::cost).sum();
    List<Cover.Group> groups = groups(solution.chosen(), needs, first, second);
    TreeSet<Target> uncoverable = new TreeSet<>();
    if (!solution.whole()) {
      for (Target target : needs.targets()) {
        if (groups.stream()
            .flatMap(group -> group.injections().stream())
            .noneMatch(injection -> injection.numbs(target))) {
          uncoverable.add(target);
        }
      }
    }
    return new Cover(groups, uncoverable, cost);
  }

  private static List<Cover.Group> groups(
      List<Candidate> chosen, Needs needs, @Nullable Agent first, @Nullable Agent second) {
    List<PlacedInjection> all = new ArrayList<>();
    for (Candidate candidate : chosen) {
      PlacedInjection placed =
          candidate.placed().size() == 1
              ? candidate.placed().get(0)
              : candidate.placed().get(sharedSide(chosen, candidate, needs).ordinal());
      all.add(placed.of(candidate.second() ? second : first));
    }
    // The sort is stable: of equal onset, the table decides.
    all.sort(Comparator.comparing(Numbness::onsetSeconds, Comparator.reverseOrder()));
    List<Cover.Group> groups = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      List<PlacedInjection> here =
          all.stream().filter(placed -> placed.quadrant() == quadrant).toList();
      if (!here.isEmpty()) {
        groups.add(new Cover.Group(quadrant, here));
      }
    }
    return groups;
  }

  /**
   * Where an injection that numbs both sides is given: on the side that is numb anyway. Where both
   * are, with the group of its own jaw, the right one first; where neither is, on the side that
   * needs it, the right one first.
   */
  private static Side sharedSide(List<Candidate> chosen, Candidate shared, Needs needs) {
    boolean[] numb = new boolean[Side.values().length];
    boolean[] numbInJaw = new boolean[Side.values().length];
    for (Candidate candidate : chosen) {
      if (candidate.placed().size() == 1) {
        Quadrant quadrant = candidate.placed().get(0).quadrant();
        numb[quadrant.side().ordinal()] = true;
        numbInJaw[quadrant.side().ordinal()] |= quadrant.jaw() == shared.jaw();
      }
    }
    int right = Side.RIGHT.ordinal();
    int left = Side.LEFT.ordinal();
    if (numb[right] != numb[left]) {
      return numb[right] ? Side.RIGHT : Side.LEFT;
    }
    if (numb[right]) {
      return numbInJaw[right] || !numbInJaw[left] ? Side.RIGHT : Side.LEFT;
    }
    return needs.touches(Side.RIGHT) || !needs.touches(Side.LEFT) ? Side.RIGHT : Side.LEFT;
  }

  /**
   * An injection at a place, or at either of two for one that numbs both sides.
   *
   * @param number by the practice's table, then right before left, then from the midline, then by
   *     volume; all of the first agent's before any of the second's
   * @param placed one, or the right and the left one
   * @param second whether it is the second agent's
   */
  private record Candidate(
      int number, Jaw jaw, List<PlacedInjection> placed, boolean second, long mask, int cost) {

    Candidate {
      placed = List.copyOf(placed);
    }

    /** Cost first, then volume in microlitres, then one for the injection itself. */
    long weight() {
      long microlitres = Math.round(placed.get(0).ml() * 1000);
      return ((long) cost << 32) + (microlitres << 8) + 1;
    }

    boolean allowed(Sides sides, boolean acrossMidline) {
      if (placed.size() > 1) {
        return true;
      }
      PlacedInjection one = placed.get(0);
      Side side = one.quadrant().side();
      boolean across = acrossMidline && one.acrossMidline();
      boolean here = across || (!sides.front() && (sides.numb() == null || side == sides.numb()));
      return here && !sides.barred().contains(one.injection().name() + " " + side);
    }

    double lasts() {
      PlacedInjection one = placed.get(0);
      boolean pulp = !one.injection().pulp().isEmpty() || one.injection().mesiobuccalRoot();
      return pulp ? InjectionCover.lasts(one.amount()) : ALWAYS;
    }
  }

  private record Limits(int level, Sides sides) {}

  /** The candidates that a limit leaves, and the answers found so far. */
  private record Answers(
      List<Candidate> candidates, CheapestCover cheapest, Map<Long, List<Candidate>> known) {

    static Answers of(List<Candidate> candidates) {
      return new Answers(
          candidates,
          new CheapestCover(
              candidates.stream().mapToLong(Candidate::mask).toArray(),
              candidates.stream().mapToLong(Candidate::weight).toArray()),
          new HashMap<>());
    }
  }

  /** The injections of one jaw with a mix of agents. */
  private final class JawCover {

    private final List<Candidate> candidates = new ArrayList<>();
    private final Map<Limits, Answers> answers = new HashMap<>();

    JawCover(Jaw jaw, @Nullable Agent first, @Nullable Agent second) {
      List<List<PlacedInjection>> places =
          practice.injections().values().stream()
              .filter(injection -> injection.jaw() == jaw)
              .flatMap(injection -> places(injection).stream())
              .toList();
      places.forEach(placed -> add(jaw, placed, false, mask(placed.get(0), first)));
      if (second != null) {
        for (List<PlacedInjection> placed : places) {
          long mask = mask(placed.get(0), second);
          if ((mask & ~mask(placed.get(0), first)) != 0) {
            add(jaw, placed, true, mask);
          }
        }
      }
    }

    private void add(Jaw jaw, List<PlacedInjection> placed, boolean second, long mask) {
      if (mask != 0) {
        int cost = cost(placed.get(0), practice, patient);
        candidates.add(new Candidate(candidates.size(), jaw, placed, second, mask, cost));
      }
    }

    private static long mask(PlacedInjection placed, @Nullable Agent agent) {
      long mask = 0;
      PlacedInjection given = placed.of(agent);
      for (Target target : TARGETS) {
        mask |= given.numbs(target) ? Needs.bit(target) : 0;
      }
      return mask;
    }

    private Answers answers(int level, Sides sides) {
      return answers.computeIfAbsent(
          new Limits(level, sides),
          limits ->
              Answers.of(
                  candidates.stream()
                      .filter(one -> one.lasts() >= lasting.get(level))
                      .filter(
                          one -> one.allowed(sides, practice.appointments().midlineInfiltration()))
                      .toList()));
    }

    long uncoverable(long needs, int level, Sides sides) {
      return needs & ~answers(level, sides).cheapest().coverable(needs);
    }

    List<Candidate> cheapest(long needs, int level, Sides sides) {
      if (needs == 0) {
        return List.of();
      }
      Answers here = answers(level, sides);
      List<Candidate> known = here.known().get(needs);
      if (known == null) {
        forgetMany(here.known());
        known = new ArrayList<>();
        for (int number : here.cheapest().solve(here.cheapest().coverable(needs))) {
          known.add(here.candidates().get(number));
        }
        here.known().put(needs, known);
      }
      return known;
    }
  }

  private static List<List<PlacedInjection>> places(Injection injection) {
    List<List<PlacedInjection>> places = new ArrayList<>();
    int volumes = injection.volumes().size();
    if (injection.bothSides() && !injection.perTooth()) {
      for (int v = 0; v < volumes; v++) {
        int volume = v;
        places.add(
            Arrays.stream(Side.values())
                .map(side -> Quadrant.of(injection.jaw(), side))
                .map(quadrant -> new PlacedInjection(injection, quadrant, null, volume, null))
                .toList());
      }
      return places;
    }
    for (Side side : Side.values()) {
      Quadrant quadrant = Quadrant.of(injection.jaw(), side);
      for (int position = 1; position <= (injection.perTooth() ? 8 : 1); position++) {
        Tooth tooth = injection.perTooth() ? new Tooth(quadrant, position) : null;
        if (tooth == null || PlacedInjection.givenAt(injection, position)) {
          for (int volume = 0; volume < volumes; volume++) {
            places.add(List.of(new PlacedInjection(injection, quadrant, tooth, volume, null)));
          }
        }
      }
    }
    return places;
  }

  private static int cost(PlacedInjection placed, Practice practice, Patient patient) {
    Weights weights = practice.weights();
    PatientRules rules = PatientRules.of(practice, patient);
    double cost =
        placed.seconds(practice.numbing())
            + weights.injection().value() * rules.injectionWeightFactor()
            + (placed.injection().deepBlock() ? rules.blockPriceSeconds() : 0)
            + weights.cartridge().value() * placed.ml() / CARTRIDGE_ML;
    check(placed.injection(), "cost", cost, MOST_SECONDS, "s");
    check(placed.injection(), "volume", placed.ml(), MOST_ML, "mL");
    return (int) Math.round(cost);
  }

  private static void check(
      Injection injection, String what, double value, double most, String unit) {
    if (!(value >= 0 && value <= most)) {
      throw new IllegalArgumentException(
          "The "
              + what
              + " ("
              + value
              + " "
              + unit
              + ") of the injection ("
              + injection.name()
              + ") must be 0 to "
              + most
              + " "
              + unit
              + ".");
    }
  }
}
