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
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Target;
import quadrille.plan.work.Target.Kind;

/** The cheapest cover of random needs against trying every subset of the practice's injections. */
final class InjectionCoverProperties {

  /** As many injections as may be tried in every combination. */
  private static final int MOST_TRIED = 17;

  private final Practice practice = usual();
  private final InjectionCover cover = new InjectionCover(practice, adult(70));

  @Property(tries = 150, seed = "20260102")
  void noSubsetOfTheTableIsCheaper(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 12) int size) {
    Random random = new Random(seed);
    Jaw jaw = random.nextBoolean() ? Jaw.UPPER : Jaw.LOWER;
    SortedSet<Target> needs = needs(random, jaw, size);
    List<Option> options = options(jaw, needs);
    while (options.size() > MOST_TRIED) {
      needs.remove(needs.last());
      options = options(jaw, needs);
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

  /** One injection at one place, described apart from the code under test. */
  private record Option(Injection injection, Quadrant quadrant, int position) {

    boolean covers(Target target) {
      Quadrant at = target.tooth().quadrant();
      int position = target.tooth().position();
      boolean sameSide = injection.bothSides() || at == quadrant;
      boolean sameTooth = !injection.perTooth() || position == this.position;
      if (at.jaw() != injection.jaw() || !sameSide || !sameTooth) {
        return false;
      }
      // No practice counts on these, whatever the agent.
      if (injection.notDependable().stream()
          .anyMatch(
              row ->
                  row.drugs().isEmpty()
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
    Best best = new Best(Long.MAX_VALUE, 0, 0);
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
          cost += cost(injection);
          microlitres += Math.round(injection.ml().value() * 1000);
        }
      }
      Best one = new Best(cost, microlitres, Integer.bitCount(subset));
      if (covered == all && one.beats(best)) {
        best = one;
      }
    }
    return best;
  }

  /** Seconds to give it, and what the practice weighs an injection and each 1.8 mL at. */
  private long cost(Injection injection) {
    double ml = injection.ml().value();
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

  private List<Option> options(Jaw jaw, SortedSet<Target> needs) {
    List<Option> options = new ArrayList<>();
    for (Injection injection : practice.injections().values()) {
      for (Quadrant quadrant : Quadrant.values()) {
        boolean once = injection.bothSides() && quadrant != Quadrant.UR;
        if (injection.jaw() == jaw && quadrant.jaw() == jaw && !once) {
          int last = injection.perTooth() ? 8 : 1;
          for (int position = 1; position <= last; position++) {
            Option option = new Option(injection, quadrant, position);
            if (needs.stream().anyMatch(option::covers)) {
              options.add(option);
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
