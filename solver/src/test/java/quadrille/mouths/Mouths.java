package quadrille.mouths;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.domains.DomainContextBase;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;

/**
 * Mouths for property tests. Put {@code @Domain(Mouths.class)} on a property to have its {@code
 * Chart} parameters drawn by {@link #any()}, or call one of the methods from a provider of your
 * own.
 */
public final class Mouths extends DomainContextBase {

  /** Mouths of every profile and size, one in ten of them hostile. */
  @Provide
  public static Arbitrary<Chart> any() {
    return Arbitraries.frequencyOf(
        Tuple.of(
            9,
            of(
                Profile.TREATMENT,
                Profile.POPULATION,
                Profile.SEVERE,
                Profile.MILD,
                Profile.IMPLANTS,
                Profile.CAPPED)),
        Tuple.of(1, hostile()));
  }

  /** Mouths of the profiles, thinned out to any size; what fails shrinks to few teeth. */
  public static Arbitrary<Chart> of(Profile... profiles) {
    return Combinators.combine(
            seeds(), Arbitraries.of(profiles), Arbitraries.integers().between(1, 32))
        .as((seed, profile, most) -> thinned(MouthGenerator.mouth(seed, profile), seed, most));
  }

  /** Mouths of the profiles as they were drawn, none thinned out. */
  public static Arbitrary<Chart> whole(Profile... profiles) {
    return Combinators.combine(seeds(), Arbitraries.of(profiles)).as(MouthGenerator::mouth);
  }

  /**
   * So many mouths for tests that take long with each: the profiles in turn, each mouth thinned out
   * to some size.
   */
  public static List<Chart> sample(int count, Profile... profiles) {
    List<Chart> mouths = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Chart chart = MouthGenerator.mouth(i, profiles[i % profiles.length]);
      mouths.add(thinned(chart, i, 1 + new Random(i).nextInt(32)));
    }
    return mouths;
  }

  /** The hostile mouths. */
  public static Arbitrary<Chart> hostile() {
    return Arbitraries.of(MouthGenerator.hostile());
  }

  private static Arbitrary<Long> seeds() {
    return Arbitraries.longs().between(0, 1_000_000).withoutEdgeCases();
  }

  /**
   * The chart with at most so many positions listed. A smaller number leaves a part of what a
   * larger one leaves, so that shrinking takes teeth away one by one.
   */
  static Chart thinned(Chart chart, long seed, int most) {
    List<Tooth> order = new ArrayList<>(chart.worked().stream().map(t -> t.tooth()).toList());
    Collections.shuffle(order, new Random(seed));
    Set<Tooth> kept = new HashSet<>(order.subList(0, Math.min(most, order.size())));
    return new Chart(
        chart.caseName() + " thinned to " + most,
        chart.charted(),
        chart.numbering(),
        chart.patient(),
        chart.teeth().stream().filter(tooth -> kept.contains(tooth.tooth())).toList());
  }
}
