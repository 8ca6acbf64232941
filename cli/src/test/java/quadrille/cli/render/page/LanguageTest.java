package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SortedSet;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

final class LanguageTest {

  private static final Pattern PLACE = Pattern.compile("\\{(\\d)");

  private static java.util.stream.Stream<String> codes() {
    return Language.codes().stream();
  }

  @ParameterizedTest
  @MethodSource("codes")
  void everyLanguageSaysTheSameThings(String code) {
    Language language = Language.of(code);
    assertEquals(Language.english().keys(), language.keys());
    for (String key : language.keys()) {
      assertEquals(places(Language.english().pattern(key)), places(language.pattern(key)), key);
      assertFalse(language.pattern(key).isBlank(), key);
      // A straight apostrophe would quote the rest of the pattern away.
      assertFalse(language.pattern(key).contains("'"), key);
    }
  }

  @ParameterizedTest
  @MethodSource("codes")
  void everyTextCanBeFilledIn(String code) {
    Language language = Language.of(code);
    for (String key : language.keys()) {
      for (int number : new int[] {1, 2, 90}) {
        String text = language.text(key, number, 7);
        assertFalse(text.contains("{"), text);
      }
    }
  }

  @Test
  void oneAndManyAreToldApart() {
    assertTrue(Language.of("en").text("what", 1).endsWith("in one visit."));
    assertTrue(Language.of("en").text("what", 3).endsWith("in 3 visits."));
    assertTrue(Language.of("de").text("what", 1).endsWith("in einem Termin."));
    assertTrue(Language.of("de").text("what", 3).endsWith("in 3 Terminen."));
  }

  @Test
  void unknownLanguageAndTextAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> Language.of("xx"));
    assertThrows(IllegalArgumentException.class, () -> Language.english().text("no such key"));
  }

  private static SortedSet<String> places(String pattern) {
    return PLACE
        .matcher(pattern)
        .results()
        .map(place -> place.group(1))
        .collect(Collectors.toCollection(TreeSet::new));
  }
}
