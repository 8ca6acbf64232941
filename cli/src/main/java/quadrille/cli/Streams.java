package quadrille.cli;

import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;

/**
 * What a command reads from and writes to.
 *
 * @param in standard input
 * @param out standard output: results, as UTF-8
 * @param err standard error: messages to a person
 * @param styled whether headings may be set off by terminal codes
 */
record Streams(InputStream in, OutputStream out, PrintWriter err, boolean styled) {

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
}
