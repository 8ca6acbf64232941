package quadrille;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
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
import java.util.List;

/** Holds the direction in which the rooms of the house may know each other. */
@AnalyzeClasses(packages = "quadrille", importOptions = DoNotIncludeTests.class)
final class ArchitectureTest {

  /** Each package, and all that it may use. A new package gets its line here. */
  @ArchTest
  static final ArchRule dependenciesRunOneWay =
      layeredArchitecture()
          .consideringOnlyDependenciesInLayers()
          .withOptionalLayers(true)
          .layer("reading")
          .definedBy("quadrille.reading..")
          .layer("chart")
          .definedBy("quadrille.chart..")
          .layer("practice")
          .definedBy("quadrille.practice..")
          .layer("work")
          .definedBy("quadrille.work..")
          .layer("anaesthesia")
          .definedBy("quadrille.anaesthesia..")
          .layer("course")
          .definedBy("quadrille.course..")
          .layer("record")
          .definedBy("quadrille.record..")
          .layer("calibration")
          .definedBy("quadrille.calibration..")
          .layer("calendar")
          .definedBy("quadrille.calendar..")
          .layer("diary")
          .definedBy("quadrille.diary..")
          .layer("diaryaudit")
          .definedBy("quadrille.diaryaudit..")
          .layer("diaryfile")
          .definedBy("quadrille.diaryfile..")
          .layer("booking")
          .definedBy("quadrille.booking..")
          .layer("exchange")
          .definedBy("quadrille.exchange..")
          .layer("staging")
          .definedBy("quadrille.staging..")
          .layer("audit")
          .definedBy("quadrille.audit..")
          .layer("planning")
          .definedBy("quadrille.planning..")
          .layer("scenario")
          .definedBy("quadrille.scenario..")
          .whereLayer("reading")
          .mayNotAccessAnyLayer()
          .whereLayer("chart")
          .mayOnlyAccessLayers("reading")
          .whereLayer("practice")
          .mayOnlyAccessLayers("reading", "chart")
          .whereLayer("work")
          .mayOnlyAccessLayers("reading", "chart", "practice")
          .whereLayer("anaesthesia")
          .mayOnlyAccessLayers("reading", "chart", "practice", "work")
          .whereLayer("course")
          .mayOnlyAccessLayers("reading", "chart", "practice", "work", "anaesthesia")
          .whereLayer("record")
          .mayOnlyAccessLayers("reading", "chart", "practice", "work", "anaesthesia", "course")
          .whereLayer("calibration")
          .mayOnlyAccessLayers(
              "reading", "chart", "practice", "work", "anaesthesia", "course", "record")
          .whereLayer("calendar")
          .mayOnlyAccessLayers("reading")
          .whereLayer("diary")
          .mayOnlyAccessLayers(
              "reading", "chart", "practice", "work", "anaesthesia", "course", "calendar")
          .whereLayer("diaryaudit")
          .mayOnlyAccessLayers("reading", "calendar", "diary")
          .whereLayer("diaryfile")
          .mayOnlyAccessLayers("reading", "calendar", "diary", "diaryaudit")
          .whereLayer("booking")
          .mayOnlyAccessLayers(
              "reading", "chart", "practice", "work", "anaesthesia", "course", "calendar", "diary")
          .whereLayer("exchange")
          .mayOnlyAccessLayers("reading", "calendar", "diary")
          .whereLayer("staging")
          .mayOnlyAccessLayers("reading", "chart", "practice", "work", "anaesthesia", "course")
          .whereLayer("audit")
          .mayOnlyAccessLayers("reading", "chart", "practice", "work", "anaesthesia", "course")
          .whereLayer("planning")
          .mayOnlyAccessLayers(
              "reading",
              "chart",
              "practice",
              "work",
              "anaesthesia",
              "course",
              "record",
              "staging",
              "audit")
          .whereLayer("scenario")
          .mayOnlyAccessLayers(
              "reading",
              "chart",
              "practice",
              "work",
              "anaesthesia",
              "course",
              "record",
              "staging",
              "audit",
              "planning")
          .allowEmptyShould(true)
          .because("a stranger finds a decision in one room only if no room reaches upwards");

  @ArchTest
  static final ArchRule everyClassHasARoom =
      classes()
          .should()
          .resideInAnyPackage(
              "quadrille.reading..",
              "quadrille.chart..",
              "quadrille.practice..",
              "quadrille.work..",
              "quadrille.anaesthesia..",
              "quadrille.course..",
              "quadrille.record..",
              "quadrille.calibration..",
              "quadrille.calendar..",
              "quadrille.diary..",
              "quadrille.diaryaudit..",
              "quadrille.diaryfile..",
              "quadrille.exchange..",
              "quadrille.booking..",
              "quadrille.staging..",
              "quadrille.audit..",
              "quadrille.planning..",
              "quadrille.scenario..")
          .allowEmptyShould(true)
          .because("a package without a layer above escapes every rule; give a new one its line");

  @ArchTest
  static final ArchRule packagesFormNoCycle =
      slices()
          .matching("quadrille.(*)..")
          .should()
          .beFreeOfCycles()
          .allowEmptyShould(true)
          .because("packages in a cycle can only be understood, tested and changed together");

  @ArchTest
  static final ArchRule auditSharesNoReckoningWithTheSolver =
      noClasses()
          .that()
          .resideInAPackage("quadrille.audit..")
          .should()
          .dependOnClassesThat(
              resideInAPackage("quadrille.staging..")
                  .or(resideInAPackage("quadrille.anaesthesia..").and(not(plainValue()))))
          .allowEmptyShould(true)
          .because(
              "a second reading that calls the first one's reckoning repeats its mistakes;"
                  + " only the values that a course is written in are shared");

  @ArchTest
  static final ArchRule auditOfADiarySharesNoReckoningWithIt =
      noClasses()
          .that()
          .resideInAPackage("quadrille.diaryaudit..")
          .should()
          .dependOnClassesThat(
              resideInAPackage("quadrille.booking..")
                  .or(resideInAPackage("quadrille.diary..").and(not(plainValue())))
                  .or(resideInAPackage("quadrille.calendar..").and(not(plainValue()))))
          .allowEmptyShould(true)
          .because(
              "a second reading that calls the first one's reckoning repeats its mistakes;"
                  + " only the values that a diary is written in are shared");

  @ArchTest
  static final ArchRule onlyStagingAndBookingKnowTheSolver =
      noClasses()
          .that()
          .resideOutsideOfPackages("quadrille.staging..", "quadrille.booking..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("ai.timefold..")
          .allowEmptyShould(true)
          .because("the solver must stay exchangeable, and facts and audit free of it");

  @ArchTest
  static final ArchRule onlyTheCommandLineWritesToTheTerminal =
      noClasses()
          .that()
          .resideOutsideOfPackage("quadrille.cli..")
          .should(ACCESS_STANDARD_STREAMS)
          .allowEmptyShould(true)
          .because("a stray line on standard output breaks the JSON that is promised to be alone");

  @ArchTest
  static final ArchRule nothingReadsTheClock =
      noClasses()
          .that()
          .resideOutsideOfPackage("quadrille.cli..")
          .should()
          .accessTargetWhere(machinesClock())
          .allowEmptyShould(true)
          .because("the same input gives the same plan on any day and on any machine");

  @ArchTest
  static final ArchRule nothingIsLeftToChance =
      noClasses()
          .should()
          .accessTargetWhere(chanceWithoutSeed())
          .allowEmptyShould(true)
          .because("the same input gives the same plan, so every chance has a seed");

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
