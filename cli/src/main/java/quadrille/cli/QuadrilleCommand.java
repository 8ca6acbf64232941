package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command {@code quadrille}: names the others. */
@Command(
    name = "quadrille",
    description = {
      "Stages the debridement of a charted mouth over visits: which areas when,",
      "how long to book, what to numb inside the dose limits, and in which order",
      "the inserts are taken. A plan is a proposal for a licensed clinician."
    },
    synopsisHeading = "Usage: ",
    customSynopsis = "quadrille COMMAND ...",
    versionProvider = Version.class,
    sortOptions = false,
    usageHelpWidth = 80,
    descriptionHeading = "%n",
    optionListHeading = "%nOptions:%n",
    commandListHeading = "%nCommands:%n",
    footerHeading = "%n",
    footer = {
      "quadrille COMMAND --help tells more of one.",
      "",
      "Exit status: 0 done; 1 no plan keeps every hard rule, or an audit found",
      "something; 2 wrong usage; 3 a file that is invalid, or cannot be read or",
      "written; 70 a fault of the program."
    })
final class QuadrilleCommand implements Runnable {

  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(),
        "A command is missing: " + String.join(", ", spec.subcommands().keySet()) + ".");
  }
}
