package quadrille.cli.render.picture;

import java.util.Locale;

/** How numbers stand in a picture. */
final class Svg {

  private Svg() {}

  /** At most three decimals, no idle zeros, a point whatever the locale. */
  static String number(double value) {
    String text = String.format(Locale.ROOT, "%.3f", value);
    text = text.replaceAll("0+$", "").replaceAll("\\.$", "");
    return text.equals("-0") ? "0" : text;
  }
}
