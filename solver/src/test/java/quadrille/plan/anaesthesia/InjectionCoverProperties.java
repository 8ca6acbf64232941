package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.anaesthesia.Practices.adult;
import static quadrille.plan.anaesthesia.Practices.usual;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.work.Target;
import quadrille.plan.work.Target.Kind;

/** The cheapest cover of random needs against trying every subset of the practice's injections. */
final class InjectionCoverProperties {

  /** As many injections as may be tried in every combination. */
  private static final int MOST_TRIED = 17;

  private static final int MOST_TRIED_BY_SIDE = 13;
  private static final double ALWAYS = Double.POSITIVE_INFINITY;

  private final Practice practice = usual();
  private final InjectionCover cover = new InjectionCover(practice, adult(70));

  @Property(tries = 150, seed = "20260102")
  void noSubsetOfTheTableIsCheaper(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 12) int size) {
    Random random = new Random(seed);
    Jaw jaw = random.nextBoolean() ? Jaw.UPPER : Jaw.LOWER;
    SortedSet<Target> needs = needs(random, jaw, size);
    List<Option> options = options(jaw, needs, "whatever", 1);
    while (options.size() > MOST_TRIED) {
      needs.remove(needs.last());
      options = options(jaw, needs, "whatever", 1);
    }

    Cover found = cover.cheapest(needs);

    assertTrue(found.uncoverable().isEmpty(), needs.toString());
    for (Target target : needs) {
      assertTrue(
          options.stream()
              .anyMatch(option -> option.covers(target) && option.isIn(found.injections())),
          target.toString());
    }
    Best best = tryEverySubset(options, List.copyOf(needs));
    assertEquals(best.cost(), found.costSeconds(), needs.toString());
    assertEquals(best.microlitres(), Math.round(found.ml() * 1000), needs.toString());
    assertEquals(best.count(), found.injections().size(), needs.toString());
  }

  /**
   * What a visit may choose from: at each length that some volume lasts, no set that keeps to the
   * rules of sides is cheaper. Asked of one cover with two agents in turn.
   */
  @Property(tries = 150, seed = "20260103")
  void noSubsetThatKeepsToTheRulesOfSidesIsCheaper(
      @ForAll long seed,
      @ForAll @IntRange(min = 1, max = 5) int size,
      @ForAll boolean oneNumbSide,
      @ForAll boolean midline)
      throws InvalidDocumentException {
    Practice ruled =
        PracticeReader.read(
            "practice.json",
            "{\"schema\": \"quadrille/practice/1\", \"appointments\": {\"oneNumbSide\": "
                + oneNumbSide
                + ", \"midlineInfiltration\": "
                + midline
                + "}}");
    Random random = new Random(seed);
    Jaw jaw = random.nextBoolean() ? Jaw.UPPER : Jaw.LOWER;
    SortedSet<Target> wanted = needs(random, jaw, size);
    while (options(jaw, wanted, "articaine", 2).size() > MOST_TRIED_BY_SIDE) {
      wanted.remove(wanted.last());
    }
    InjectionCover asked = new InjectionCover(ruled, adult(70));
    for (String name : List.of("lidocaine-2-100", "articaine-4-100")) {
      Agent agent = Practices.agent(name);
      List<Option> options = options(jaw, wanted, agent.drug(), 2);
      List<Best> due = new ArrayList<>();
      for (double minutes : List.of(20.0, 30.0, ALWAYS)) {
        List<Option> lasting =
            options.stream().filter(option -> option.lastsMinutes() >= minutes).toList();
        Best best = ofTheSides(lasting, List.copyOf(wanted), oneNumbSide, midline);
        if (best.count() == 0) {
          break;
        }
        if (due.isEmpty() || !due.get(due.size() - 1).equals(best)) {
          due.add(best);
        }
      }
      if (due.isEmpty()) {
        due.add(tryEverySubset(options, List.copyOf(wanted)));
      }
      List<Cover> found = asked.covers(Needs.of(wanted), agent, null);
      if (found.get(0).uncoverable().isEmpty()) {
        List<Best> told =
            found.stream()
                .map(
                    one ->
                        new Best(
                            one.costSeconds(),
                            Math.round(one.ml() * 1000),
                            one.injections().size()))
                .distinct()
                .toList();
        assertEquals(due, told, wanted + " with " + name);
      } else {
        assertEquals(0, due.get(0).count(), wanted + " with " + name);
      }
    }
  }

  /**
   * The best that keeps to one numb side, where the practice does, or else gives no kind right and
   * left that never is; none has no injection.
   */
  private Best ofTheSides(
      List<Option> options, List<Target> needs, boolean oneNumbSide, boolean midline) {
    if (!oneNumbSide) {
      return tryEverySubset(options, needs, true);
    }
    List<Option> front = options.stream().filter(option -> option.bindsNoSide(midline)).toList();
    boolean bothSides =
        needs.stream().map(target -> target.tooth().quadrant().side()).distinct().count() > 1;
    Best best = midline && bothSides ? tryEverySubset(front, needs) : NONE;
    if (best.count() > 0) {
      return best;
    }
    for (Side side : Side.values()) {
      Best ofSide =
          tryEverySubset(
              options.stream()
                  .filter(option -> option.bindsNoSide(midline) || option.quadrant().side() == side)
                  .toList(),
              needs);
      best = ofSide.beats(best) ? ofSide : best;
    }
    return best;
  }

  /** One injection at one place, described apart from the code under test. */
  private record Option(
      Injection injection, Quadrant quadrant, int position, int volume, String drug) {

    double ml() {
      return injection.volumes().get(volume).ml().value();
    }

    double lastsMinutes() {
      Figure most = injection.volumes().get(volume).pulpalMinutes();
      return most == null || injection.pulp().isEmpty() ? ALWAYS : most.value();
    }

    boolean bindsNoSide(boolean midline) {
      return injection.bothSides()
          || (midline && injection.perTooth() && injection.acrossMidline().contains(position));
    }

    boolean covers(Target target) {
      Quadrant at = target.tooth().quadrant();
      int position = target.tooth().position();
      boolean sameSide = injection.bothSides() || at == quadrant;
      boolean sameTooth = !injection.perTooth() || position == this.position;
      if (at.jaw() != injection.jaw() || !sameSide || !sameTooth) {
        return false;
      }
      // The practice does not count on these, whatever the agent or with this one.
      if (injection.notDependable().stream()
          .anyMatch(
              row ->
                  (row.drugs().isEmpty() || row.drugs().contains(drug))
                      && row.tissue().word().equals(target.kind().name().toLowerCase(Locale.ROOT))
                      && row.positions().contains(position))) {
        return false;
      }
      return switch (target.kind()) {
        case PULP -> injection.pulp().contains(position);
        case MESIOBUCCAL_ROOT -> injection.mesiobuccalRoot() && position == 6;
        case FACIAL -> injection.facial().contains(position);
        case LINGUAL -> injection.lingual().contains(position);
      };
    }

    boolean isIn(List<PlacedInjection> placed) {
      return placed.stream()
          .anyMatch(
              other ->
                  other.injection().name().equals(injection.name())
                      && (injection.bothSides() || other.quadrant() == quadrant)
                      && (other.tooth() == null || other.tooth().position() == position));
    }
  }

  private static final Best NONE = new Best(Long.MAX_VALUE, 0, 0);

  private record Best(long cost, long microlitres, int count) {

    boolean beats(Best other) {
      if (cost != other.cost) {
        return cost < other.cost;
      }
      return microlitres != other.microlitres
          ? microlitres < other.microlitres
          : count < other.count;
    }
  }

  private Best tryEverySubset(List<Option> options, List<Target> needs) {
    return tryEverySubset(options, needs, false);
  }

  /** Whether a kind is given right and left that never is. */
  private static boolean doubles(List<Option> options, int subset) {
    List<Option> given =
        IntStream.range(0, options.size())
            .filter(i -> (subset & 1 << i) != 0)
            .mapToObj(options::get)
            .filter(option -> option.injection().neverBothSides())
            .toList();
    return given.stream()
        .anyMatch(
            one ->
                given.stream()
                    .anyMatch(
                        other ->
                            one.injection() == other.injection()
                                && one.quadrant() != other.quadrant()));
  }

  private Best tryEverySubset(List<Option> options, List<Target> needs, boolean undoubled) {
    Best best = NONE;
    int all = (1 << needs.size()) - 1;
    int[] masks = new int[options.size()];
    for (int i = 0; i < masks.length; i++) {
      for (int j = 0; j < needs.size(); j++) {
        masks[i] |= options.get(i).covers(needs.get(j)) ? 1 << j : 0;
      }
    }
    for (int subset = 0; subset < 1 << options.size(); subset++) {
      int covered = 0;
      long cost = 0;
      long microlitres = 0;
      for (int i = 0; i < masks.length; i++) {
        if ((subset & 1 << i) != 0) {
          Injection injection = options.get(i).injection();
          covered |= masks[i];
          cost += cost(injection, options.get(i).ml());
          microlitres += Math.round(options.get(i).ml() * 1000);
        }
      }
      Best one = new Best(cost, microlitres, Integer.bitCount(subset));
      if (covered == all && (!undoubled || !doubles(options, subset)) && one.beats(best)) {
        best = one;
      }
    }
    return best;
  }

  /** Seconds to give it, and what the practice weighs an injection and each 1.8 mL at. */
  private long cost(Injection injection, double ml) {
    double rate =
        injection.mlPerMinute() == null
            ? practice.numbing().mlPerMinute().value()
            : injection.mlPerMinute().value();
    long give =
        Math.round(60 * ml / rate) + Math.round(practice.numbing().handlingSeconds().value());
    return Math.round(
        give
            + practice.weights().injection().value()
            + practice.weights().cartridge().value() * ml / 1.8);
  }

  private List<Option> options(Jaw jaw, SortedSet<Target> needs, String drug, int volumes) {
    List<Option> options = new ArrayList<>();
    for (Injection injection : practice.injections().values()) {
      for (Quadrant quadrant : Quadrant.values()) {
        boolean once = injection.bothSides() && quadrant != Quadrant.UR;
        if (injection.jaw() == jaw && quadrant.jaw() == jaw && !once) {
          int last = injection.perTooth() ? 8 : 1;
          for (int position = 1; position <= last; position++) {
            for (int v = 0; v < Math.min(volumes, injection.volumes().size()); v++) {
              Option option = new Option(injection, quadrant, position, v, drug);
              if (needs.stream().anyMatch(option::covers)) {
                options.add(option);
              }
            }
          }
        }
      }
    }
    return options;
  }

  private static SortedSet<Target> needs(Random random, Jaw jaw, int size) {
    SortedSet<Target> needs = new TreeSet<>();
    for (int i = 0; i < size; i++) {
      Quadrant[] quadrants =
          jaw == Jaw.UPPER
              ? new Quadrant[] {Quadrant.UR, Quadrant.UL}
              : new Quadrant[] {Quadrant.LR, Quadrant.LL};
      Tooth tooth = new Tooth(quadrants[random.nextInt(2)], 1 + random.nextInt(8));
      Kind[] kinds = {Kind.PULP, Kind.FACIAL, Kind.LINGUAL};
      Kind kind = kinds[random.nextInt(kinds.length)];
      needs.add(new Target(tooth, kind));
      if (jaw == Jaw.UPPER && tooth.position() == 6 && kind == Kind.PULP) {
        needs.add(new Target(tooth, Kind.MESIOBUCCAL_ROOT));
      }
    }
    return needs;
  }
}
