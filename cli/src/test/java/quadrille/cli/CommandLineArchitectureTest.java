package quadrille.cli;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.Architectures.LayeredArchitecture;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Holds what the rooms of the command line may do. */
@AnalyzeClasses(packages = "quadrille.cli", importOptions = DoNotIncludeTests.class)
final class CommandLineArchitectureTest {

  private static final Pattern ROW =
      Pattern.compile("\\| `(quadrille\\.cli[a-z.]*)` \\|.*\\| ([^|]+) \\|");

  @ArchTest
  static final ArchRule onlyMainTouchesTheProcess =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName("quadrille.cli.Main")
          .should(ACCESS_STANDARD_STREAMS)
          .orShould()
          .callMethod(System.class, "exit", int.class)
          .orShould()
          .callMethod(System.class, "getenv", String.class)
          .orShould()
          .callMethod(System.class, "console")
          .because("a command whose streams are handed in can be tested as a whole");

  @ArchTest
  static final ArchRule renderingKnowsNoCommand =
      noClasses()
          .that()
          .resideInAPackage("quadrille.cli.render..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("quadrille.cli")
          .orShould()
          .dependOnClassesThat()
          .resideInAPackage("picocli..")
          .because("what is written does not depend on how it was asked for");

  @ArchTest
  static final ArchRule commandsWriteNoJson =
      noClasses()
          .that()
          .resideInAPackage("quadrille.cli")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("com.fasterxml..")
          .because("a command is thin: parse, call, render, exit status");

  @ArchTest static final ArchRule noGenericExceptions = NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;

  /** Each room from the ground up, and the rooms of the command line that it may know. */
  private static final Map<String, List<String>> ROOMS = rooms();

  @ArchTest
  static final ArchRule everyClassHasARoom =
      classes().should().resideInAnyPackage(ROOMS.keySet().toArray(String[]::new));

  @ArchTest static final ArchRule dependenciesRunOneWay = layers();

  @ArchTest
  static final ArchRule classesFormNoKnot =
      slices().assignedFrom(topLevelClasses()).should().beFreeOfCycles();

  @ArchTest
  static void theDevelopersTableIsTheTableOfTheRules(JavaClasses ignored) throws IOException {
    Map<String, List<String>> written = new LinkedHashMap<>();
    for (String line : Files.readAllLines(Path.of("../DEVELOPERS.md"))) {
      Matcher row = ROW.matcher(line);
      if (row.matches()) {
        List<String> known =
            Pattern.compile("quadrille\\.cli[a-z.]*")
                .matcher(row.group(2))
                .results()
                .map(MatchResult::group)
                .toList();
        written.put(row.group(1), known);
      }
    }
    assertEquals(ROOMS, written);
  }

  @ArchTest
  static final ArchRule commandsEndThroughTheBase =
      methods()
          .that()
          .areDeclaredInClassesThat()
          .areAssignableTo(Callable.class)
          .and()
          .haveName("call")
          .should()
          .beDeclaredIn(BaseCommand.class)
          .because("help, faults and exit status are one for all commands");

  private static Map<String, List<String>> rooms() {
    Map<String, List<String>> rooms = new LinkedHashMap<>();
    rooms.put("quadrille.cli.render", List.of());
    rooms.put("quadrille.cli.render.picture", List.of("quadrille.cli.render"));
    rooms.put(
        "quadrille.cli.render.page",
        List.of("quadrille.cli.render", "quadrille.cli.render.picture"));
    rooms.put(
        "quadrille.cli.serve",
        List.of(
            "quadrille.cli.render", "quadrille.cli.render.picture", "quadrille.cli.render.page"));
    rooms.put(
        "quadrille.cli",
        List.of(
            "quadrille.cli.render",
            "quadrille.cli.render.picture",
            "quadrille.cli.render.page",
            "quadrille.cli.serve"));
    return rooms;
  }

  private static ArchRule layers() {
    LayeredArchitecture house = layeredArchitecture().consideringOnlyDependenciesInLayers();
    for (String room : ROOMS.keySet()) {
      house = house.layer(room).definedBy(room);
    }
    for (Map.Entry<String, List<String>> room : ROOMS.entrySet()) {
      house =
          room.getValue().isEmpty()
              ? house.whereLayer(room.getKey()).mayNotAccessAnyLayer()
              : house
                  .whereLayer(room.getKey())
                  .mayOnlyAccessLayers(room.getValue().toArray(String[]::new));
    }
    return house;
  }

  private static SliceAssignment topLevelClasses() {
    return new SliceAssignment() {
      @Override
      public String getDescription() {
        return "top-level classes";
      }

      @Override
      public SliceIdentifier getIdentifierOf(JavaClass one) {
        return one.getEnclosingClass()
            .map(this::getIdentifierOf)
            .orElseGet(() -> SliceIdentifier.of(one.getName()));
      }
    };
  }
}
