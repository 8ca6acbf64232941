package quadrille;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaConstructor.CONSTRUCTOR_NAME;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitAccessTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.Architectures.LayeredArchitecture;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Holds the direction in which the rooms of the house may know each other. */
@AnalyzeClasses(packages = "quadrille", importOptions = DoNotIncludeTests.class)
final class ArchitectureTest {

  /** Each room, and all that it may use. A new package gets its line here and in DEVELOPERS.md. */
  private static final Map<String, List<String>> ROOMS = rooms();

  @ArchTest static final ArchRule dependenciesRunOneWay = layers();

  @ArchTest
  static final ArchRule everyClassHasARoom =
      classes()
          .should()
          .resideInAnyPackage(
              ROOMS.keySet().stream().map(ArchitectureTest::inside).toArray(String[]::new))
          .because("a package without a layer above escapes every rule; give a new one its line");

  @ArchTest
  static final ArchRule packagesFormNoCycle =
      slices()
          .matching("quadrille.(**)")
          .should()
          .beFreeOfCycles()
          .because("packages in a cycle can only be understood, tested and changed together");

  @ArchTest
  static final ArchRule auditSharesNoReckoningWithTheSolver =
      noClasses()
          .that()
          .resideInAPackage("quadrille.plan.audit..")
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(
                      "quadrille.plan.visit..",
                      "quadrille.plan.bound..",
                      "quadrille.plan.staging..")
                  .or(resideInAPackage("quadrille.plan.anaesthesia..").and(not(plainValue()))))
          .because(
              "a second reading that calls the first one's reckoning repeats its mistakes;"
                  + " only the values that a course is written in are shared");

  @ArchTest
  static final ArchRule auditOfADiarySharesNoReckoningWithIt =
      noClasses()
          .that()
          .resideInAPackage("quadrille.diary.audit..")
          .should()
          .dependOnClassesThat(
              resideInAPackage("quadrille.diary.booking..")
                  .or(resideInAPackage("quadrille.diary.book..").and(not(plainValue())))
                  .or(resideInAPackage("quadrille.diary.calendar..").and(not(plainValue()))))
          .because(
              "a second reading that calls the first one's reckoning repeats its mistakes;"
                  + " only the values that a diary is written in are shared");

  @ArchTest
  static final ArchRule onlyStagingAndBookingKnowTheSolver =
      noClasses()
          .that()
          .resideOutsideOfPackages("quadrille.plan.staging..", "quadrille.diary.booking..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("ai.timefold..")
          .because("the solver must stay exchangeable, and facts and audit free of it");

  @ArchTest
  static final ArchRule onlyTheCommandLineWritesToTheTerminal =
      noClasses()
          .that()
          .resideOutsideOfPackage("quadrille.cli..")
          .should(ACCESS_STANDARD_STREAMS)
          .because("a stray line on standard output breaks the JSON that is promised to be alone");

  @ArchTest
  static final ArchRule nothingReadsTheClock =
      noClasses()
          .that()
          .resideOutsideOfPackage("quadrille.cli..")
          .should()
          .accessTargetWhere(machinesClock())
          .because("the same input gives the same plan on any day and on any machine");

  @ArchTest
  static final ArchRule nothingIsLeftToChance =
      noClasses()
          .should()
          .accessTargetWhere(chanceWithoutSeed())
          .because("the same input gives the same plan, so every chance has a seed");

  private static Map<String, List<String>> rooms() {
    Map<String, List<String>> rooms = new LinkedHashMap<>();
    rooms.put("document", List.of());
    rooms.put("facts.chart", List.of("document"));
    rooms.put("facts.practice", List.of("document", "facts.chart"));
    rooms.put("plan.work", List.of("document", "facts.chart", "facts.practice"));
    rooms.put(
        "plan.anaesthesia", List.of("document", "facts.chart", "facts.practice", "plan.work"));
    rooms.put(
        "plan.course",
        List.of("document", "facts.chart", "facts.practice", "plan.work", "plan.anaesthesia"));
    rooms.put(
        "plan.visit",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course"));
    rooms.put(
        "plan.bound",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "plan.visit"));
    rooms.put(
        "plan.exact",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "plan.visit"));
    rooms.put(
        "plan.staging",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "plan.visit",
            "plan.bound",
            "plan.exact"));
    rooms.put(
        "plan.audit",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course"));
    rooms.put(
        "plan.planning",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "plan.visit",
            "plan.bound",
            "plan.exact",
            "plan.staging",
            "plan.audit"));
    rooms.put(
        "plan.scenario",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "plan.visit",
            "plan.bound",
            "plan.exact",
            "plan.staging",
            "plan.audit",
            "plan.planning"));
    rooms.put("diary.calendar", List.of("document"));
    rooms.put(
        "diary.book",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "diary.calendar"));
    rooms.put("diary.audit", List.of("document", "diary.calendar", "diary.book"));
    rooms.put("diary.file", List.of("document", "diary.calendar", "diary.book", "diary.audit"));
    rooms.put(
        "diary.booking.problem",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "diary.calendar",
            "diary.book"));
    rooms.put(
        "diary.booking",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "diary.calendar",
            "diary.book",
            "diary.booking.problem"));
    rooms.put("diary.exchange", List.of("document", "diary.calendar", "diary.book"));
    rooms.put(
        "treatment.record",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course"));
    rooms.put(
        "treatment.restaging",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "plan.visit",
            "plan.bound",
            "plan.exact",
            "plan.staging",
            "plan.audit",
            "plan.planning",
            "treatment.record"));
    rooms.put(
        "treatment.calibration",
        List.of(
            "document",
            "facts.chart",
            "facts.practice",
            "plan.work",
            "plan.anaesthesia",
            "plan.course",
            "treatment.record"));
    return rooms;
  }

  /** Just this package: a room within a room has a line of its own. */
  private static String inside(String room) {
    return "quadrille." + room;
  }

  private static ArchRule layers() {
    LayeredArchitecture house = layeredArchitecture().consideringOnlyDependenciesInLayers();
    for (String room : ROOMS.keySet()) {
      house = house.layer(room).definedBy(inside(room));
    }
    for (Map.Entry<String, List<String>> room : ROOMS.entrySet()) {
      house =
          room.getValue().isEmpty()
              ? house.whereLayer(room.getKey()).mayNotAccessAnyLayer()
              : house
                  .whereLayer(room.getKey())
                  .mayOnlyAccessLayers(room.getValue().toArray(String[]::new));
    }
    return house.because("a stranger finds a decision in one room only if no room reaches upwards");
  }

  private static DescribedPredicate<JavaClass> plainValue() {
    return describe("a record or an enum", type -> type.isRecord() || type.isEnum());
  }

  /** Calls and method references alike; {@code now(Clock)} is fine, its clock is handed in. */
  private static DescribedPredicate<JavaAccess<?>> machinesClock() {
    return describe(
        "the machine's clock is read",
        access -> {
          String owner = access.getTargetOwner().getFullName();
          String name = access.getTarget().getName();
          return switch (owner) {
            case "java.lang.System" -> name.equals("currentTimeMillis") || name.equals("nanoTime");
            case "java.time.Clock" -> name.startsWith("system") || name.startsWith("tick");
            case "java.util.Date" -> hasNoParameters(access) && name.equals(CONSTRUCTOR_NAME);
            case "java.util.Calendar" -> name.equals("getInstance");
            default ->
                owner.startsWith("java.time.")
                    && name.equals("now")
                    && !parameters(access).contains("java.time.Clock");
          };
        });
  }

  private static DescribedPredicate<JavaAccess<?>> chanceWithoutSeed() {
    return describe(
        "chance has no seed",
        access -> {
          String name = access.getTarget().getName();
          return switch (access.getTargetOwner().getFullName()) {
            case "java.util.Random", "java.util.SplittableRandom" ->
                hasNoParameters(access) && name.equals(CONSTRUCTOR_NAME);
            case "java.lang.Math", "java.lang.StrictMath" -> name.equals("random");
            case "java.util.UUID" -> name.equals("randomUUID");
            case "java.util.Collections" ->
                name.equals("shuffle") && !parameters(access).contains("java.util.Random");
            case "java.util.concurrent.ThreadLocalRandom" -> name.equals("current");
            case "java.security.SecureRandom" -> name.equals(CONSTRUCTOR_NAME);
            default -> false;
          };
        });
  }

  private static boolean hasNoParameters(JavaAccess<?> access) {
    return parameters(access).isEmpty();
  }

  private static List<String> parameters(JavaAccess<?> access) {
    return access.getTarget() instanceof CodeUnitAccessTarget target
        ? target.getRawParameterTypes().stream().map(JavaClass::getFullName).toList()
        : List.of();
  }
}
