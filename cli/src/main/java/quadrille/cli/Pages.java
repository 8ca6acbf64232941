package quadrille.cli;

import picocli.CommandLine.TypeConversionException;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ReassessKind;

/** How pages and their languages are named on the command line. */
final class Pages {

  private Pages() {}

  /**
   * Reads {@code chairside}, {@code desk} or {@code patient}.
   *
   * @throws TypeConversionException where it is none of them
   */
  static PageKind kind(String word) {
    for (PageKind kind : PageKind.values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    throw new TypeConversionException("\"" + word + "\" is neither chairside nor desk nor patient");
  }

  /**
   * Reads {@code progress} or {@code patient}.
   *
   * @throws TypeConversionException where it is neither of them
   */
  static ProgressKind progressKind(String word) {
    for (ProgressKind kind : ProgressKind.values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    throw new TypeConversionException("\"" + word + "\" is neither progress nor patient");
  }

  /**
   * Reads {@code clinician} or {@code patient}.
   *
   * @throws TypeConversionException where it is neither of them
   */
  static ReassessKind reassessKind(String word) {
    for (ReassessKind kind : ReassessKind.values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    throw new TypeConversionException("\"" + word + "\" is neither clinician nor patient");
  }

  /**
   * Reads a language's code.
   *
   * @throws TypeConversionException where there is no such language
   */
  static Language language(String code) {
    if (!Language.codes().contains(code)) {
      throw new TypeConversionException(
          "\"" + code + "\" is none of the languages: " + String.join(", ", Language.codes()));
    }
    return Language.of(code);
  }
}
