package quadrille.facts.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Tuple;

/** Any valid chart at all; more than real mouths, on purpose. */
final class ChartArbitraries {

  private ChartArbitraries() {}

  static Arbitrary<Chart> charts() {
    return Combinators.combine(
            cases(),
            Arbitraries.longs()
                .between(-365 * 1900L, 365 * 5000L)
                .map(LocalDate::ofEpochDay)
                .injectNull(0.3),
            Arbitraries.of(Numbering.class),
            patients(),
            teeth(),
            Arbitraries.longs().injectNull(0.5))
        .as(
            (name, charted, numbering, patient, teeth, seed) -> {
              List<Tooth> worked =
                  teeth.stream().filter(ToothChart::worked).map(ToothChart::tooth).toList();
              List<Wish> wishes =
                  seed == null
                      ? List.of()
                      : SampleWishes.of(
                          worked, List.of("slim straight", "sleeved implant"), new Random(seed));
              return new Chart(
                  name,
                  charted,
                  numbering,
                  patient.withWishes(
                      WishSentences.fault(wishes, numbering).isEmpty() ? wishes : List.of()),
                  teeth);
            });
  }

  private static Arbitrary<String> cases() {
    return Arbitraries.strings()
        .withChars("Kk1042-_ \"\\/#:,;'äßЖ病\u0301\u00a0\u2028\uFEFF")
        .ofMinLength(1)
        .ofMaxLength(40)
        .map(text -> "x" + text);
  }

  private static Arbitrary<Patient> patients() {
    return Combinators.combine(
            Arbitraries.integers().between(0, 120).injectNull(0.2),
            Arbitraries.doubles().between(2, 400).ofScale(6).injectNull(0.2),
            Arbitraries.integers().between(10, 480).injectNull(0.2),
            Arbitraries.of(Alert.class).set().map(History::of),
            Arbitraries.of(Quadrant.class).injectNull(0.5),
            Arbitraries.of(true, false),
            cases().map(text -> text.replaceAll("[,;\"]", "") + "x").injectNull(0.5),
            Arbitraries.of(true, false, false, false))
        .as(
            (age, weight, longest, history, start, wishes, notes, unknown) ->
                new Patient(
                    age,
                    weight,
                    longest,
                    unknown ? History.UNKNOWN : history,
                    start,
                    wishes,
                    List.of(),
                    notes));
  }

  private static Arbitrary<List<ToothChart>> teeth() {
    Arbitrary<Set<Tooth>> listed = Arbitraries.of(Tooth.values()).set().ofMinSize(1);
    return listed
        .flatMap(
            chosen -> {
              List<Arbitrary<ToothChart>> each = new ArrayList<>();
              chosen.stream().sorted().forEach(tooth -> each.add(tooth(tooth)));
              return Combinators.combine(each).as(charts -> charts);
            })
        .filter(teeth -> teeth.stream().anyMatch(ToothChart::worked));
  }

  private static Arbitrary<ToothChart> tooth(Tooth tooth) {
    Arbitrary<Deposit> deposits = Arbitraries.of(Deposit.class);
    Arbitrary<Integer> grades = Arbitraries.integers().between(0, 3);
    Arbitrary<Set<Feature>> features = Arbitraries.of(Feature.class).set();
    return Arbitraries.frequencyOf(
        Tuple.of(5, full(tooth, ToothStatus.NATURAL, deposits, grades, features, readings())),
        Tuple.of(1, full(tooth, ToothStatus.IMPLANT, deposits, grades, features, readings())),
        Tuple.of(
            1,
            full(
                tooth,
                ToothStatus.PLANNED_EXTRACTION,
                deposits,
                grades,
                features,
                readings().injectNull(0.5))),
        Tuple.of(
            1,
            Arbitraries.just(
                new ToothChart(
                    tooth, ToothStatus.MISSING, Deposit.NONE, 0, 0, Set.of(), null, null))));
  }

  private static Arbitrary<ToothChart> full(
      Tooth tooth,
      ToothStatus status,
      Arbitrary<Deposit> deposits,
      Arbitrary<Integer> grades,
      Arbitrary<Set<Feature>> features,
      Arbitrary<AspectReading> readings) {
    boolean furcated = tooth.furcated() && status != ToothStatus.IMPLANT;
    return Combinators.combine(
            deposits, furcated ? grades : Arbitraries.just(0), grades, features, readings, readings)
        .as(
            (deposit, furcation, mobility, some, facial, lingual) ->
                new ToothChart(tooth, status, deposit, furcation, mobility, some, facial, lingual));
  }

  private static Arbitrary<AspectReading> readings() {
    Arbitrary<Site> sites =
        Combinators.combine(
                Arbitraries.integers().between(0, 20).injectNull(0.1),
                Arbitraries.frequencyOf(
                    Tuple.of(3, Arbitraries.just(0)),
                    Tuple.of(1, Arbitraries.integers().between(-10, 20))),
                Arbitraries.of(true, false))
            .as(Site::new);
    return Combinators.combine(sites, sites, sites).as(AspectReading::new);
  }
}
