package quadrille.cli;

import picocli.CommandLine.Option;
import quadrille.diary.book.LongerGaps;

/** That a clinician lets the gaps of a course grow; a group, and so null where nobody does. */
final class GapOptions {

  @Option(
      names = "--longer-gaps",
      order = 24,
      required = true,
      paramLabel = "DAYS",
      description =
          "A clinician lets gaps be so many days longer than the plan's longest, 1 to 28; each such"
              + " day has a price.")
  private int days;

  @Option(
      names = "--allowed-by",
      order = 24,
      required = true,
      paramLabel = "NAME",
      description = "With --longer-gaps: which clinician allowed it.")
  private String name = "";

  /** What is allowed. */
  LongerGaps longer() throws StopException {
    if (days < 1 || days > LongerGaps.MOST_DAYS) {
      throw StopException.usage(
          "--longer-gaps: is " + days + "; 1 to " + LongerGaps.MOST_DAYS + " days are allowed.");
    }
    if (name.isBlank() || name.length() > LongerGaps.MOST_NAME) {
      throw StopException.usage(
          "--allowed-by: is \""
              + (name.length() > LongerGaps.MOST_NAME ? name.substring(0, 40) + "..." : name)
              + "\"; the name of a clinician of at most "
              + LongerGaps.MOST_NAME
              + " characters is needed.");
    }
    return new LongerGaps(days, name.strip());
  }
}
