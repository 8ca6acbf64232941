package quadrille.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** How long a command seeks. */
final class DeadlineOption {

  private static final double MOST_SECONDS = 86_400;

  @Option(
      names = "--deadline",
      order = 31,
      paramLabel = "SECONDS",
      description =
          "Seek no longer than this and take the best so far, which may differ from run to run.")
  @Nullable
  private Double deadline;

  /** Seconds after which the search is to end; null where it runs to its own end. */
  @Nullable Double seconds() {
    return deadline;
  }

  /**
   * Checks the option.
   *
   * @throws StopException where it is out of bounds
   */
  void check() throws StopException {
    Double seconds = deadline;
    if (seconds != null && !(seconds > 0 && seconds <= MOST_SECONDS)) {
      throw StopException.usage(
          "--deadline: must be more than 0 and at most 86400 seconds, not " + seconds + ".");
    }
  }
}
