package quadrille.facts.practice;

import java.util.Map;

/**
 * What earlier versions of the default practice called its inserts and their shapes. Files keep
 * their words for years, so whatever reads a name of an insert reads these too.
 */
public final class FormerNames {

  private static final Map<String, String> INSERTS =
      Map.of(
          "standard double-bend", "standard bent",
          "standard triple-bend", "standard bent for line angles",
          "slim right-curved", "slim curved right",
          "slim left-curved", "slim curved left",
          "ultra-thin straight", "finest straight",
          "sleeved implant", "sleeved for implants");

  private static final Map<String, String> WORDS =
      Map.of(
          "double-bend", "bent",
          "triple-bend", "bent-for-line-angles",
          "right-curved", "curved-right",
          "left-curved", "curved-left",
          "ultra-thin", "finest",
          "sleeved-implant", "sleeved");

  private FormerNames() {}

  /** The present name of an insert; a name that never changed is its own. */
  public static String insert(String name) {
    return INSERTS.getOrDefault(name, name);
  }

  /** The present word of a class or a shank. */
  static String word(String word) {
    return WORDS.getOrDefault(word, word);
  }
}
