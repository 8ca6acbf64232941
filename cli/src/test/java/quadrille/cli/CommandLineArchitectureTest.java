package quadrille.cli;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.concurrent.Callable;

/** Holds what the rooms of the command line may do. */
@AnalyzeClasses(packages = "quadrille.cli", importOptions = DoNotIncludeTests.class)
final class CommandLineArchitectureTest {

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

  @ArchTest
  static final ArchRule packagesFormNoCycle =
      slices().matching("quadrille.cli.(*)..").should().beFreeOfCycles();

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
}
