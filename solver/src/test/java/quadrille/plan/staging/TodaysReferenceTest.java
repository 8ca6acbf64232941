package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.mouths.Tries;
import quadrille.plan.planning.PreparedMouth;
import quadrille.reference.ReferenceCases;
import quadrille.reference.ReferenceCases.Frozen;
import quadrille.reference.ReferenceCases.Stored;

/** The frozen cases by today's rules: what CP-SAT found of them, and what the program finds. */
final class TodaysReferenceTest {
  private static final Map<String, Stored> STORED =
      ReferenceCases.todaysResults().stream()
          .collect(Collectors.toMap(Stored::name, Function.identity()));

  private static final Map<String, PreparedMouth> MOUTHS =
      cases().collect(Collectors.toMap(Frozen::name, Frozen::mouth));

  /** In how many of the cases a course may cost more than CP-SAT's, as a share of them. */
  private static final double DEARER = 0.05;

  /** Those of which CP-SAT has found a course; {@code ReferenceRun} goes on with the others. */
  static Stream<Frozen> cases() {
    return sought().filter(frozen -> of(frozen).best() >= 0);
  }

  private static Stream<Frozen> sought() {
    return ReferenceCases.today().stream().filter(frozen -> STORED.containsKey(frozen.name()));
  }

  /** Where CP-SAT proves that there is no course of so many visits, none is found. */
  @Test
  void whereThereIsNoCourseNoneIsFound() {
    List<Frozen> none =
        sought().filter(frozen -> of(frozen).status().equals("INFEASIBLE")).toList();
    assertFalse(none.isEmpty());
    for (Frozen frozen : none) {
      assertFalse(
          new Stager(Effort.NORMAL).stage(frozen.mouth().inVisits(frozen.visits())).feasible(),
          frozen::name);
    }
  }

  /** Every fourth in the usual build, from the new ones back. */
  static List<Frozen> some() {
    List<Frozen> all = cases().toList();
    int each = Tries.of(4, 1);
    return IntStream.range(0, all.size() / each)
        .mapToObj(i -> all.get(all.size() - 1 - each * i))
        .toList();
  }

  private static Stored of(Frozen frozen) {
    return Objects.requireNonNull(STORED.get(frozen.name()), frozen::name);
  }

  /** What CP-SAT found, as the program lays it out. */
  private static final Map<String, Staged> PRICED =
      cases()
          .collect(
              Collectors.toMap(
                  Frozen::name,
                  frozen ->
                      new Stager(Effort.QUICK)
                          .rateAsOrdered(
                              mouth(frozen).inVisits(frozen.visits()), of(frozen).visits())));

  private static PreparedMouth mouth(Frozen frozen) {
    return Objects.requireNonNull(MOUTHS.get(frozen.name()));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void theProgramPutsTheSamePriceOnACourseAndFindsNothingBroken(Frozen frozen) {
    Staged priced = Objects.requireNonNull(PRICED.get(frozen.name()));
    assertEquals(frozen.steps(), priced.staging().steps().size());
    assertEquals(List.of(), priced.brokenRules());
    assertEquals(of(frozen).best(), priced.seconds());
    assertEquals(List.of(), mouth(frozen).audit(priced));
  }

  /** Neither is ever below what the other proves, and what one proves the other finds. */
  @Test
  void theProgramAndCpSatProveTheSame() {
    List<String> apart = new ArrayList<>();
    int dearer = 0;
    for (Frozen frozen : some()) {
      Staged found = new Stager(Effort.NORMAL).stage(mouth(frozen).inVisits(frozen.visits()));
      Stored stored = of(frozen);
      assertTrue(found.feasible(), () -> frozen + " " + found.brokenRules());
      boolean same =
          found.bound().seconds() <= stored.best()
              && stored.bound() <= found.seconds()
              && (!stored.proven() || found.seconds() == stored.best());
      if (!same) {
        apart.add(frozen + ": " + found.cost() + ", " + stored);
      }
      dearer += found.seconds() > stored.best() ? 1 : 0;
    }
    assertEquals(List.of(), apart);
    assertTrue(dearer <= DEARER * some().size(), "dearer than CP-SAT's: " + dearer);
  }

  @Test
  void casesAreFortyAndEachHistoryIsKnown() {
    List<Frozen> all = ReferenceCases.today();
    assertTrue(all.size() >= 40);
    assertEquals(all.size(), all.stream().map(Frozen::name).distinct().count());
    assertTrue(all.stream().allMatch(frozen -> frozen.chart().patient().history().taken()));
    assertTrue(sought().count() >= 39);
  }

  /** What today's rules know and those of 0.1.0 did not is among them. */
  @Test
  void theCasesAreOfManyKinds() {
    List<Frozen> all = ReferenceCases.today();
    List<Patient> patients = all.stream().map(frozen -> frozen.chart().patient()).toList();
    assertTrue(all.stream().anyMatch(frozen -> frozen.practice().contains("numb-first")));
    assertTrue(patients.stream().anyMatch(patient -> years(patient.ageYears()) < 14));
    for (Alert alert :
        List.of(
            Alert.NEEDLE_AVERSE,
            Alert.DIRECT_ORAL_ANTICOAGULANT,
            Alert.WARFARIN,
            Alert.SULFITE_ALLERGY,
            Alert.ENDOCARDITIS_RISK)) {
      assertTrue(patients.stream().anyMatch(patient -> patient.has(alert)), alert::toString);
    }
  }

  private static int years(@Nullable Integer known) {
    return known == null ? 99 : known;
  }
}
