package quadrille.cli;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.TypeConversionException;
import quadrille.plan.planning.VisitRange;

/** Reads a number of visits off the command line. */
final class Visits {

  private static final Pattern RANGE = Pattern.compile("(\\d{1,3})(?:-(\\d{1,3}))?");

  private Visits() {}

  /**
   * Reads {@code 3} or {@code 2-4}.
   *
   * @throws TypeConversionException where it is neither, or out of bounds
   */
  static VisitRange range(String word) {
    Matcher range = RANGE.matcher(word);
    if (range.matches()) {
      int fewest = Integer.parseInt(range.group(1));
      int most = range.group(2) == null ? fewest : Integer.parseInt(range.group(2));
      if (fewest >= 1 && most >= fewest && most <= VisitRange.LIMIT) {
        return new VisitRange(fewest, most);
      }
    }
    throw new TypeConversionException(
        "\""
            + word
            + "\" is neither a number of visits, such as 3, nor a range, such as 2-4,"
            + " within 1 to "
            + VisitRange.LIMIT);
  }
}
