package quadrille.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;
import quadrille.plan.staging.Effort;

/** How hard and how long a command seeks. */
final class SearchOptions {

  private static final double MOST_SECONDS = 86_400;

  @Option(
      names = "--effort",
      order = 30,
      paramLabel = "EFFORT",
      description = "How hard to seek: quick, normal (the default) or thorough.")
  private Effort effort = Effort.NORMAL;

  @Option(
      names = "--deadline",
      order = 31,
      paramLabel = "SECONDS",
      description =
          "Seek no longer than this and take the best so far, which may differ from run to run.")
  @Nullable
  private Double deadline;

  Effort effort() {
    return effort;
  }

  /** Seconds after which the search is to end; null where it runs to its own end. */
  @Nullable Double deadline() {
    return deadline;
  }

  /**
   * Checks the options.
   *
   * @throws StopException where one is out of bounds
   */
  void check() throws StopException {
    Double seconds = deadline;
    if (seconds != null && !(seconds > 0 && seconds <= MOST_SECONDS)) {
      throw StopException.usage(
          "--deadline: must be more than 0 and at most 86400 seconds, not " + seconds + ".");
    }
  }

  /** Reads a word of the command line. */
  static Effort effort(String word) {
    for (Effort effort : Effort.values()) {
      if (effort.word().equals(word)) {
        return effort;
      }
    }
    throw new TypeConversionException("\"" + word + "\" is neither quick nor normal nor thorough");
  }
}
