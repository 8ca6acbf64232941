package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import quadrille.document.FileStore;

/**
 * One run of the program within the test.
 *
 * @param status exit status
 * @param out all of standard output
 * @param err all of standard error
 */
record Run(int status, String out, String err) {

  /** The demo diary is of March 2026. */
  static final Clock AT_THE_DESK =
      Clock.fixed(Instant.parse("2026-02-27T12:00:00Z"), ZoneOffset.UTC);

  private static final Map<List<String>, Run> KEPT = new ConcurrentHashMap<>();

  /** Runs with nothing on standard input and no terminal. */
  static Run of(String... args) {
    return withInput("", args);
  }

  /**
   * As {@link #of}, but once only in this virtual machine: for a command whose answer several tests
   * look at, and that writes nothing.
   */
  static Run kept(String... args) {
    return KEPT.computeIfAbsent(List.of(args), command -> of(args));
  }

  /** Runs with a text on standard input and no terminal. */
  static Run withInput(String in, String... args) {
    return run(in, false, false, Interrupts.NONE, args);
  }

  /** Runs on a terminal that takes styles. */
  static Run onTerminal(String... args) {
    return run("", true, false, Interrupts.NONE, args);
  }

  /** Runs with standard error on a terminal. */
  static Run watched(String... args) {
    return run("", false, true, Interrupts.NONE, args);
  }

  /** Runs with Ctrl-C pressed as soon as the program listens. */
  static Run interrupted(String... args) {
    Interrupts atOnce =
        first -> {
          first.run();
          return () -> {};
        };
    return run("", false, false, atOnce, args);
  }

  /** Runs beside files by other rules, or with somebody who listens to what is done to them. */
  static Run over(FileStore files, String... args) {
    return run("", false, false, Interrupts.NONE, files, args);
  }

  private static Run run(
      String in, boolean styled, boolean lively, Interrupts interrupts, String... args) {
    return run(in, styled, lively, interrupts, FileStore.USUAL, args);
  }

  private static Run run(
      String in,
      boolean styled,
      boolean lively,
      Interrupts interrupts,
      FileStore files,
      String... args) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    StringWriter err = new StringWriter();
    Streams streams =
        new Streams(
            new ByteArrayInputStream(in.getBytes(UTF_8)),
            out,
            new PrintWriter(err, true),
            styled,
            lively,
            interrupts,
            files,
            AT_THE_DESK,
            () -> new Random(18),
            "Desk");
    int status = Main.run(streams, args);
    return new Run(status, out.toString(UTF_8), err.toString());
  }

  /** Checks that all went well, and answers with standard output. */
  String done() {
    assertEquals("", err);
    assertEquals(Status.DONE, status, out);
    return out;
  }
}
