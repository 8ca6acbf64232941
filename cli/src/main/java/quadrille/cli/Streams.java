package quadrille.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.function.Supplier;
import java.util.random.RandomGenerator;
import quadrille.document.FileStore;

/**
 * What a command reads from and writes to.
 *
 * @param in standard input
 * @param out standard output: results, as UTF-8
 * @param err standard error: messages to a person
 * @param styled whether headings may be set off by terminal codes
 * @param lively whether standard error is a terminal, on which a line may be rewritten
 * @param interrupts tells of Ctrl-C
 * @param files the way to files
 * @param clock what time it is
 * @param chance what nobody can guess, for keys; never for plans
 * @param account whose account the program runs in: who did what nobody says who did
 */
record Streams(
    InputStream in,
    OutputStream out,
    PrintWriter err,
    boolean styled,
    boolean lively,
    Interrupts interrupts,
    FileStore files,
    Clock clock,
    Supplier<RandomGenerator> chance,
    String account) {

  /** Streams by the clock of the machine, in nobody's account. */
  Streams(
      InputStream in,
      OutputStream out,
      PrintWriter err,
      boolean styled,
      boolean lively,
      Interrupts interrupts,
      FileStore files) {
    this(
        in,
        out,
        err,
        styled,
        lively,
        interrupts,
        files,
        Clock.systemUTC(),
        SecureRandom::new,
        "desk");
  }

  /** Streams beside files by the usual rules. */
  Streams(
      InputStream in,
      OutputStream out,
      PrintWriter err,
      boolean styled,
      boolean lively,
      Interrupts interrupts) {
    this(in, out, err, styled, lively, interrupts, FileStore.USUAL);
  }

  /** Streams that are no terminal, and that nobody interrupts. */
  Streams(InputStream in, OutputStream out, PrintWriter err, boolean styled) {
    this(in, out, err, styled, false, Interrupts.NONE);
  }

  /**
   * Whether terminal codes are welcome.
   *
   * @param terminal whether standard output is a terminal
   * @param noColor the value of {@code NO_COLOR}, or null; any that is not empty asks for none
   * @param term the value of {@code TERM}, or null
   */
  static boolean welcomesStyle(
      boolean terminal,
      @org.jspecify.annotations.Nullable String noColor,
      @org.jspecify.annotations.Nullable String term) {
    return terminal && (noColor == null || noColor.isEmpty()) && !"dumb".equals(term);
  }

  /**
   * Whether a link to an open file, as Linux keeps them, leads to a terminal.
   *
   * @param link such as {@code /proc/self/fd/2}
   */
  static boolean isTerminal(Path link) {
    try {
      String file = Files.readSymbolicLink(link).toString();
      return file.startsWith("/dev/pts/") || file.startsWith("/dev/tty");
    } catch (IOException | UnsupportedOperationException unknown) {
      return false;
    }
  }
}
