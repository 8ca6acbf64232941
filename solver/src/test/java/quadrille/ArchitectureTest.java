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
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;

/** Holds the direction in which the rooms of the house may know each other. */
@AnalyzeClasses(packages = "quadrille", importOptions = DoNotIncludeTests.class)
final class ArchitectureTest {

  /**
   * Each room from the ground up, and the rooms that it may know; a plus adds all that such a room
   * may know. DEVELOPERS.md has the same table, which {@link HouseTest} holds against this one.
   */
  static final Map<String, String> ROOMS = rooms();

  @ArchTest static final ArchRule dependenciesRunOneWay = layers();

  @ArchTest
  static final ArchRule everyClassHasARoom =
      classes()
          .that()
          .doNotHaveSimpleName("package-info")
          .should()
          .resideInAnyPackage(
              ROOMS.keySet().stream().map(ArchitectureTest::inside).toArray(String[]::new))
          .because("a package without a layer above escapes every rule; give a new one its line");

  @ArchTest
  static final ArchRule noPackageHoldsAKnot =
      noClasses()
          .should(new BePartOfAKnot(3))
          .because("four classes that all lead back to each other are one class in four files");

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
          .resideInAPackage(inside("plan.audit"))
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              inside("plan.anaesthesia"),
              inside("plan.visit"),
              inside("plan.bound"),
              inside("plan.exact"),
              inside("plan.staging"))
          .because("a second reading that calls the first one's reckoning repeats its mistakes");

  @ArchTest
  static final ArchRule auditOfADiarySharesNoReckoningWithIt =
      noClasses()
          .that()
          .resideInAPackage(inside("diary.audit"))
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(inside("diary.booking"), inside("diary.booking.problem"))
                  .or(resideInAPackage(inside("diary.book")).and(not(plainValue())))
                  .or(resideInAPackage(inside("diary.calendar")).and(not(plainValue()))))
          .because(
              "a second reading that calls the first one's reckoning repeats its mistakes;"
                  + " only the values that a diary is written in are shared");

  @ArchTest
  static final ArchRule onlyStagingAndBookingKnowTheSolver =
      noClasses()
          .that()
          .resideOutsideOfPackages(inside("plan.staging"), inside("diary.booking"))
          .should()
          .dependOnClassesThat()
          .resideInAPackage("ai.timefold..")
          .because("the solver must stay exchangeable, and facts and audit free of it");

  @ArchTest
  static final ArchRule onlyTheCommandLineWritesToTheTerminal =
      noClasses()
          .should(ACCESS_STANDARD_STREAMS)
          .because("a stray line on standard output breaks the JSON that is promised to be alone");

  @ArchTest
  static final ArchRule onlyNumberingsNameTeeth =
      noClasses()
          .that()
          .doNotBelongToAnyOf(Numbering.class, Tooth.class)
          .should()
          .callMethod(Tooth.class, "iso")
          .orShould()
          .callMethod(Tooth.class, "universal")
          .because(
              "most codes are teeth of both numberings, so that a code where a number belongs is the"
                  + " wrong tooth and goes unnoticed");

  @ArchTest
  static final ArchRule nothingReadsTheClock =
      noClasses()
          .should()
          .accessTargetWhere(machinesClock())
          .because("the same input gives the same plan on any day and on any machine");

  @ArchTest
  static final ArchRule nothingIsLeftToChance =
      noClasses()
          .should()
          .accessTargetWhere(chanceWithoutSeed())
          .because("the same input gives the same plan, so every chance has a seed");

  private static Map<String, String> rooms() {
    Map<String, String> rooms = new LinkedHashMap<>();
    rooms.put("document", "nobody");
    rooms.put("seeking", "nobody");
    rooms.put("facts.chart", "document");
    rooms.put("facts.exchange", "facts.chart+");
    rooms.put("facts.practice", "facts.chart+");
    rooms.put("plan.work", "facts.practice+");
    rooms.put("plan.anaesthesia", "plan.work+");
    rooms.put("plan.course", "plan.work+");
    rooms.put("plan.visit", "plan.anaesthesia+, plan.course+");
    rooms.put("plan.bound", "plan.visit+");
    rooms.put("plan.exact", "plan.visit+");
    rooms.put("plan.staging", "plan.bound+, plan.exact, seeking");
    rooms.put("plan.audit", "plan.course+");
    rooms.put("plan.planning", "plan.staging+, plan.audit");
    rooms.put("plan.scenario", "plan.planning+");
    rooms.put("diary.calendar", "document");
    rooms.put("diary.book", "facts.practice+, plan.course, diary.calendar");
    rooms.put("diary.audit", "diary.calendar, diary.book");
    rooms.put("diary.file", "document, diary.calendar, diary.book, diary.audit");
    rooms.put("diary.exchange", "document, diary.book");
    rooms.put("diary.booking.problem", "diary.book+");
    rooms.put("diary.booking", "diary.booking.problem+, seeking");
    rooms.put("diary.desk", "diary.booking+, diary.file+");
    rooms.put("treatment.record", "plan.anaesthesia+, plan.course+");
    rooms.put("treatment.recording", "plan.audit, treatment.record+");
    rooms.put("treatment.restaging", "plan.planning+, treatment.record+");
    rooms.put("treatment.calibration", "treatment.record+");
    rooms.put("treatment.day", "diary.book, treatment.record+");
    return rooms;
  }

  /** All rooms that a room may know, with those behind a plus. */
  static Set<String> known(String room) {
    Set<String> known = new LinkedHashSet<>();
    String list = ROOMS.get(room);
    if (list == null) {
      throw new IllegalArgumentException("(" + room + ") is no room of the table.");
    }
    for (String one : list.equals("nobody") ? new String[0] : list.split(", ")) {
      String name = one.replace("+", "");
      known.add(name);
      if (one.endsWith("+")) {
        known.addAll(known(name));
      }
    }
    return known;
  }

  /**
   * A room's package alone, since a room within a room has a line of its own; what is not in the
   * table has none.
   */
  private static String inside(String room) {
    if (!ROOMS.containsKey(room)) {
      throw new IllegalArgumentException("(" + room + ") is no room of the table.");
    }
    return "quadrille." + room;
  }

  private static ArchRule layers() {
    LayeredArchitecture house = layeredArchitecture().consideringOnlyDependenciesInLayers();
    for (String room : ROOMS.keySet()) {
      house = house.layer(room).definedBy(inside(room));
    }
    for (String room : ROOMS.keySet()) {
      Set<String> known = known(room);
      house =
          known.isEmpty()
              ? house.whereLayer(room).mayNotAccessAnyLayer()
              : house.whereLayer(room).mayOnlyAccessLayers(known.toArray(String[]::new));
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
