package quadrille.facts.practice;

import java.util.Locale;
import quadrille.facts.chart.Jaw;

/** Words of a practice file that no enum has. */
final class PracticeWords {

  static final String SCHEMA = "quadrille/practice/1";

  private PracticeWords() {}

  /** {@code upper} or {@code lower}. */
  static String jaw(Jaw jaw) {
    return jaw.name().toLowerCase(Locale.ROOT);
  }
}
