package quadrille.plan.course;

import java.util.Locale;

/** The words by which a plan file names values. */
final class FileWords {

  private FileWords() {}

  static String of(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
