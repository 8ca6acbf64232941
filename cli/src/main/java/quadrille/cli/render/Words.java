package quadrille.cli.render;

import java.util.Arrays;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;

/** How numbers, times and teeth are said. */
public final class Words {

  private static final Pattern CUT_AREA =
      Pattern.compile(
          "\\b((?:UR|UL|LL|LR) (?:posterior|anterior) )([1-4][1-8])(?:-([1-4][1-8]))?\\b");
  private static final Pattern ISO = Pattern.compile("[1-4][1-8]");

  private Words() {}

  /** Minutes and seconds, such as {@code 12:05}; hours are not set apart. */
  public static String clock(int seconds) {
    return String.format(Locale.ROOT, "%d:%02d", seconds / 60, seconds % 60);
  }

  /** Whole minutes, such as {@code 52 min}. */
  public static String minutes(double seconds) {
    return Math.round(seconds / 60) + "\u00a0min";
  }

  /** Minutes with one decimal. */
  static String decimalMinutes(int seconds) {
    return String.format(Locale.ROOT, "%.1f", seconds / 60.0);
  }

  /** A share as a whole percentage; what is more than none never reads as none. */
  public static String percent(double share) {
    long percent = Math.round(share * 100);
    return percent == 0 && share > 0 ? "<1\u00a0%" : percent + "\u00a0%";
  }

  /** A number with at most so many decimals and no idle zeros. */
  public static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }

  /** A number of things, such as {@code 1 visit} or {@code 3 visits}. */
  public static String count(long number, String thing) {
    return number + "\u00a0" + thing + (number == 1 ? "" : "s");
  }

  /** A range, such as {@code 7 to 14}, or one number where both ends are the same. */
  public static String range(int from, int to) {
    return from == to ? Integer.toString(from) : from + " to " + to;
  }

  /** The first letter as a capital. */
  public static String capital(String words) {
    return words.isEmpty()
        ? words
        : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  /** Teeth by the chart's own numbering, with spaces between. */
  public static String teeth(Iterable<Tooth> teeth, Numbering numbering) {
    StringBuilder names = new StringBuilder();
    for (Tooth tooth : teeth) {
      names.append(names.isEmpty() ? "" : " ").append(numbering.name(tooth));
    }
    return names.toString();
  }

  /** Teeth given as ISO 3950 codes with spaces between, by the chart's own numbering. */
  public static String isoTeeth(String codes, Numbering numbering) {
    return Arrays.stream(codes.split(" "))
        .map(code -> ISO.matcher(code).matches() ? isoTooth(code, numbering) : code)
        .collect(Collectors.joining(" "));
  }

  /**
   * Words that name an area, by the chart's own numbering: the name of a cut area quotes ISO 3950
   * codes.
   */
  public static String area(String words, Chart chart) {
    return area(words, chart.numbering());
  }

  /** Words that name an area, by a numbering. */
  public static String area(String words, Numbering numbering) {
    return CUT_AREA
        .matcher(words)
        .replaceAll(
            cut ->
                cut.group(1)
                    + isoTooth(cut.group(2), numbering)
                    + (cut.group(3) == null ? "" : "-" + isoTooth(cut.group(3), numbering)));
  }

  private static String isoTooth(String code, Numbering numbering) {
    return numbering.name(Tooth.ofIso(Integer.parseInt(code)));
  }

  /** The quadrant that an area's name starts with, or the name itself where it has none. */
  public static String quadrant(String area) {
    for (Quadrant quadrant : Quadrant.values()) {
      if (area.startsWith(quadrant + " ")) {
        return quadrant.toString();
      }
    }
    return area;
  }
}
