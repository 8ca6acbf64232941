package quadrille.cli;

import java.io.PrintWriter;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.WholeMinutes;
import quadrille.plan.planning.Progress;

/**
 * How a search goes on, in one line of a terminal that is rewritten and in the end wiped out;
 * without colours or other terminal codes.
 */
final class ProgressLine implements Progress {

  private static final int MOVES_A_LINE = 100;

  private final PrintWriter err;
  private final boolean lively;
  private String shown = "";

  /**
   * @param lively whether there is a terminal; elsewhere nothing is shown
   */
  ProgressLine(PrintWriter err, boolean lively) {
    this.err = err;
    this.lively = lively;
  }

  /** Shows that a search has begun. */
  synchronized void begin() {
    show("Seeking ...");
  }

  @Override
  public synchronized void tried(int tried, int of, @Nullable Long bestSeconds) {
    show(
        "Seeking ... "
            + tried
            + " of at most "
            + of
            + (of == 1 ? " course" : " courses")
            + " sought, "
            + (bestSeconds == null
                ? "none keeps every rule yet"
                : "best cost " + WholeMinutes.price(bestSeconds)));
  }

  /** How far a search for bookings has come. */
  synchronized void booking(int moves, int of) {
    if (moves % MOVES_A_LINE == 0) {
      show("Booking ... " + 100L * moves / of + " %");
    }
  }

  /** Writes a message in a line of its own, terminal or not, and goes on below it. */
  synchronized void say(String message) {
    String before = shown;
    clear();
    err.println(message);
    show(before);
  }

  /** Wipes the line out. */
  synchronized void clear() {
    show("");
    if (lively) {
      err.print("\r");
      err.flush();
    }
  }

  private void show(String words) {
    if (lively) {
      err.print("\r" + words + " ".repeat(Math.max(0, shown.length() - words.length())));
      err.flush();
      shown = words;
    }
  }
}
