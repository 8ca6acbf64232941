package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

final class MainTest {

  static List<String> commands() {
    Streams none =
        new Streams(
            InputStream.nullInputStream(),
            OutputStream.nullOutputStream(),
            new PrintWriter(OutputStream.nullOutputStream()),
            false);
    return List.copyOf(Main.commandLine(none).getSubcommands().keySet());
  }

  @ParameterizedTest
  @ValueSource(strings = {"--version", "-V"})
  void versionIsTheBuildsOwn(String option) {
    String out = Run.of(option).done();
    assertTrue(out.matches("quadrille \\d+\\.\\d+\\.\\d+(-SNAPSHOT)?\\R"), out);
  }

  @ParameterizedTest
  @MethodSource("commands")
  void everyCommandSaysItsVersion(String command) {
    assertEquals(Run.of("--version").done(), Run.of(command, "--version").done());
  }

  @Test
  void helpNamesEveryCommand() {
    String help = Run.of("--help").done();
    Golden.check("help.txt", help);
    Golden.checkWidth(help);
    commands().forEach(command -> assertTrue(help.contains("\n  " + command + " "), help));
  }

  @ParameterizedTest
  @MethodSource("commands")
  void everyCommandHasHelp(String command) {
    String help = Run.of(command, "--help").done();
    Golden.check("help-" + command + ".txt", help);
    Golden.checkWidth(help);
    assertTrue(help.startsWith("Usage: quadrille " + command), help);
    assertTrue(help.contains("--format"), help);
    assertEquals(help, Run.of(command, "-h").done());
  }

  @Test
  void helpIsSetOffOnATerminalOnly() {
    assertFalse(Run.of("check", "--help").out().contains("\u001b"));
    assertTrue(Run.onTerminal("check", "--help").out().contains("\u001b[1m"));
  }

  @Test
  void noColorAndDumbTerminalsTurnStylesOff() {
    assertAll(
        () -> assertTrue(Streams.welcomesStyle(true, null, "xterm")),
        () -> assertTrue(Streams.welcomesStyle(true, "", "xterm"), "empty counts as unset"),
        () -> assertFalse(Streams.welcomesStyle(true, "1", "xterm")),
        () -> assertFalse(Streams.welcomesStyle(true, null, "dumb")),
        () -> assertFalse(Streams.welcomesStyle(false, null, "xterm")));
  }

  @Test
  void noCommandIsWrongUsage() {
    Run run = Run.of();
    assertEquals(
        "A command is missing: " + String.join(", ", commands()) + ".\nSee quadrille --help.\n",
        run.err());
    assertEquals(Status.USAGE, run.status());
    assertEquals("", run.out());
  }

  @Test
  void nearestCommandIsSuggested() {
    Run run = Run.of("chek", "chart.json");
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains("Did you mean check or chart?"), run.err());
  }

  @Test
  void unknownOptionIsWrongUsage() {
    Run run = Run.of("check", "--no-such-option", "chart.json");
    assertEquals("Unknown option: '--no-such-option'\nSee quadrille check --help.\n", run.err());
    assertEquals(Status.USAGE, run.status());
  }

  @Test
  void unknownFormatIsWrongUsage() {
    Run run = Run.of("check", "--format", "xml", "chart.json");
    assertEquals(Status.USAGE, run.status());
    assertEquals(
        "Invalid value for option '--format': \"xml\" is neither text nor json nor html\n"
            + "See quadrille check --help.\n",
        run.err());
  }

  @Test
  void missingFileOfACommandIsWrongUsage() {
    Run run = Run.of("check");
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains("CHART"), run.err());
  }

  /** A full disk behind standard output must not look like success. */
  @Test
  void resultThatCannotBeWrittenIsNotDone() {
    StringWriter err = new StringWriter();
    OutputStream full =
        new OutputStream() {
          @Override
          public void write(int b) throws IOException {
            throw new IOException("No space left on device");
          }
        };
    int status =
        Main.run(
            new Streams(InputStream.nullInputStream(), full, new PrintWriter(err, true), false),
            "practice");
    assertEquals("standard output: cannot be written: No space left on device.\n", err.toString());
    assertEquals(Status.FILE, status);
  }
}
