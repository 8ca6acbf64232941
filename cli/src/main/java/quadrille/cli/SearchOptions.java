package quadrille.cli;

import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;
import quadrille.plan.staging.Effort;

/** How hard and how long a command seeks. */
final class SearchOptions {

  @Option(
      names = "--effort",
      order = 30,
      paramLabel = "EFFORT",
      description = "How hard to seek: quick, normal (the default) or thorough.")
  private Effort effort = Effort.NORMAL;

  @Mixin private DeadlineOption deadline = new DeadlineOption();

  Effort effort() {
    return effort;
  }

  DeadlineOption deadline() {
    return deadline;
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
