package quadrille.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;
import quadrille.cli.render.Messages;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

/** How a command ends that does not end well: a message to standard error and an exit status. */
final class Ending implements IParameterExceptionHandler, IExecutionExceptionHandler {

  private final PrintWriter err;

  Ending(Streams streams) {
    this.err = streams.err();
  }

  @Override
  public int handleParseException(ParameterException wrong, String[] args) {
    CommandLine command = wrong.getCommandLine();
    say(wrong.getMessage() == null ? "Wrong usage." : wrong.getMessage());
    if (wrong instanceof UnmatchedArgumentException unmatched) {
      List<String> near = unmatched.getSuggestions();
      if (!near.isEmpty()) {
        say("Did you mean " + near.stream().limit(3).collect(Collectors.joining(" or ")) + "?");
      }
    }
    say("See " + command.getCommandSpec().qualifiedName() + " --help.");
    return Status.USAGE;
  }

  @Override
  public int handleExecutionException(Exception wrong, CommandLine command, ParseResult parsed) {
    if (wrong instanceof InvalidDocumentException invalid) {
      List<Fault> faults = invalid.faults();
      faults.forEach(fault -> say(fault.message()));
      if (faults.size() > 1) {
        say(faults.size() + " faults; nothing was written.");
      }
      return Status.FILE;
    }
    if (wrong instanceof StopException stop) {
      say(stop.getMessage() == null ? "" : stop.getMessage());
      return stop.status();
    }
    boolean debug = command.getCommand() instanceof BaseCommand base && base.debug();
    return fault(wrong, debug);
  }

  /** Says that the program itself is wrong. */
  int fault(Throwable wrong, boolean debug) {
    String what = wrong.getClass().getSimpleName();
    say(
        "A fault of the program, not of your files: "
            + what
            + (wrong.getMessage() == null ? "" : " (" + wrong.getMessage() + ")"));
    if (debug) {
      wrong.printStackTrace(err);
      err.flush();
    } else {
      say("Nothing was written. With --debug it says where; please report it.");
    }
    return Status.FAULT;
  }

  private void say(String message) {
    message.lines().map(Messages::clean).forEach(err::println);
    err.flush();
  }
}
