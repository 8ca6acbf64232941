package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.practice.Pass;
import quadrille.plan.bound.LowerBound;
import quadrille.plan.planning.PreparedMouth;
import quadrille.reference.ReferenceCases;
import quadrille.reference.ReferenceCases.Frozen;
import quadrille.reference.ReferenceCases.Stored;

/** What CP-SAT found of the frozen cases, read again by the program. */
final class StoredReferenceTest {
  private static final Map<String, Stored> STORED = new TreeMap<>();
  private static final Map<String, PreparedMouth> MOUTHS = new TreeMap<>();

  static {
    ReferenceCases.firstResults().forEach(stored -> STORED.put(stored.name(), stored));
    ReferenceCases.firstRules().forEach(frozen -> MOUTHS.put(frozen.name(), frozen.mouth()));
  }

  static Stream<Frozen> cases() {
    return ReferenceCases.firstRules().stream();
  }

  /** Those of which CP-SAT says that nothing is cheaper. */
  static Stream<Frozen> proven() {
    return cases().filter(frozen -> of(frozen).proven());
  }

  private static Stored of(Frozen frozen) {
    return Objects.requireNonNull(STORED.get(frozen.name()), frozen::name);
  }

  private static PreparedMouth mouth(Frozen frozen) {
    return Objects.requireNonNull(MOUTHS.get(frozen.name()), frozen::name);
  }

  /** Of all cases, and at what cost, is asked by {@code BesideReferenceTest}. */
  @ParameterizedTest
  @MethodSource("proven")
  void theSearchFindsWhatIsProvenToBeCheapest(Frozen frozen) {
    Staged found = new Stager(Effort.NORMAL).stage(mouth(frozen).inVisits(frozen.visits()));
    assertTrue(found.feasible(), () -> found.brokenRules().toString());
    assertEquals(of(frozen).best(), found.seconds());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void theProgramPutsTheSamePriceOnACourseAndFindsNothingBroken(Frozen frozen) {
    PreparedMouth mouth = mouth(frozen);
    assertEquals(frozen.steps(), mouth.steps().size());
    Staged priced =
        new Stager(Effort.QUICK)
            .rateAsOrdered(mouth.inVisits(frozen.visits()), of(frozen).visits());
    assertEquals(List.of(), priced.brokenRules());
    assertEquals(of(frozen).best(), priced.seconds());
    assertEquals(List.of(), mouth.audit(priced));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void noCourseCostsLessThanTheLowerBound(Frozen frozen) {
    long lowerBound = new LowerBound(mouth(frozen).inVisits(frozen.visits())).seconds();
    assertTrue(lowerBound > 0);
    assertTrue(
        lowerBound <= of(frozen).best(), () -> lowerBound + " is above " + of(frozen).best());
  }

  @Test
  void everyCaseHasBeenSoughtAndNoOther() {
    assertEquals(
        cases().map(Frozen::name).toList(),
        ReferenceCases.firstResults().stream().map(Stored::name).toList());
    assertEquals(List.of(), cases().filter(frozen -> of(frozen).best() < 0).toList());
  }

  /** The set would prove little if its cases were all of one kind. */
  @Test
  void theCasesAreOfManyKinds() {
    List<Frozen> all = ReferenceCases.firstRules();
    assertTrue(all.size() >= 30);
    assertEquals(
        List.of(1, 2, 3, 4, 5, 6), all.stream().map(Frozen::visits).distinct().sorted().toList());
    assertTrue(all.stream().allMatch(frozen -> frozen.steps() >= 15 && frozen.steps() <= 60));
    List<PreparedMouth> mouths = List.copyOf(MOUTHS.values());
    long implants =
        mouths.stream()
            .filter(m -> m.steps().stream().anyMatch(s -> s.pass() == Pass.IMPLANT_CARE))
            .count();
    long gel = mouths.stream().filter(m -> m.steps().stream().anyMatch(s -> s.gel())).count();
    long lightAndCapped =
        all.stream()
            .map(frozen -> frozen.chart().patient())
            .filter(patient -> patient.has(Alert.HEART_DISEASE))
            .filter(patient -> patient.weightKg() != null && patient.weightKg() < 50)
            .count();
    assertTrue(implants >= 5, "with implants: " + implants);
    assertTrue(gel >= 3, "with gel: " + gel);
    assertTrue(lightAndCapped >= 5, "capped: " + lightAndCapped);
  }
}
