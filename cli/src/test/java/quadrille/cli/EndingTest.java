package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

final class EndingTest {

  private final StringWriter err = new StringWriter();
  private final Streams streams =
      new Streams(
          InputStream.nullInputStream(),
          OutputStream.nullOutputStream(),
          new PrintWriter(err, true),
          false);

  @Command(name = "broken")
  private final class Broken extends BaseCommand {
    Broken() {
      super(streams);
    }

    @Override
    int run() {
      throw new IllegalStateException("The step (7) has no insert.");
    }
  }

  private int endOf(BaseCommand command, String... args) {
    Ending ending = new Ending(streams);
    return new CommandLine(command)
        .setParameterExceptionHandler(ending)
        .setExecutionExceptionHandler(ending)
        .execute(args);
  }

  @Test
  void faultOfTheProgramIsShortAndHasItsOwnStatus() {
    assertEquals(Status.FAULT, endOf(new Broken()));
    assertEquals(
        """
        A fault of the program, not of your files: IllegalStateException (The step (7) has no insert.)
        Nothing was written. With --debug it says where; please report it.
        """,
        err.toString());
  }

  @Test
  void debugShowsWhere() {
    assertEquals(Status.FAULT, endOf(new Broken(), "--debug"));
    assertTrue(err.toString().contains("at quadrille.cli.EndingTest"), err::toString);
  }

  @Test
  void everyFaultIsListedAndHarmless() {
    Ending ending = new Ending(streams);
    InvalidDocumentException invalid =
        new InvalidDocumentException(
            List.of(
                new Fault("a.json, line 3, /teeth/0", "\"\u001b[2J\"", "a tooth"),
                new Fault("a.json, line 9, /teeth/4", "21", "0 to 20")));
    int status = ending.handleExecutionException(invalid, new CommandLine(new Broken()), null);
    assertEquals(Status.FILE, status);
    assertEquals(
        """
        a.json, line 3, /teeth/0: found "\ufffd[2J"; allowed: a tooth
        a.json, line 9, /teeth/4: found 21; allowed: 0 to 20
        2 faults; nothing was written.
        """,
        err.toString());
    assertFalse(err.toString().contains("\u001b"));
  }
}
