package quadrille.cli;

import java.io.PrintWriter;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.MaxValuesExceededException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.MutuallyExclusiveArgsException;
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
    say(message(wrong, args));
    if (wrong instanceof UnmatchedArgumentException unmatched) {
      List<String> near = unmatched.getSuggestions();
      if (!near.isEmpty()) {
        say("Did you mean " + near.stream().limit(3).collect(Collectors.joining(" or ")) + "?");
      }
    }
    say("See " + command.getCommandSpec().qualifiedName() + " --help.");
    return Status.USAGE;
  }

  /** Groups of options are told by the options given: how the groups nest helps nobody. */
  private static String message(ParameterException wrong, String[] args) {
    if (wrong instanceof MutuallyExclusiveArgsException
        || wrong instanceof MaxValuesExceededException
            && String.valueOf(wrong.getMessage()).contains("only one match")) {
      return "Not all of these at once, and each but once: " + args(wrong, args) + ".";
    }
    return wrong.getMessage() == null ? "Wrong usage." : wrong.getMessage();
  }

  private static String args(ParameterException wrong, String[] args) {
    Stream<String> files =
        wrong.getCommandLine().getCommandSpec().positionalParameters().stream()
            .filter(file -> file.group() != null)
            .map(ArgSpec::paramLabel);
    Stream<String> options =
        Arrays.stream(args)
            .filter(arg -> arg.startsWith("--"))
            .map(arg -> arg.contains("=") ? arg.substring(0, arg.indexOf('=')) : arg);
    return Stream.concat(files, options).distinct().collect(Collectors.joining(", "));
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
