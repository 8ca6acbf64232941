package quadrille.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.text.Bidi;
import java.util.List;
import org.junit.jupiter.api.Test;

final class BidiTextTest {

  @Test
  void textWithoutControlsStaysAsItIs() {
    for (String text : List.of("", "Ada", "\u05d0\u05d1 12", "\u00e9\ud83e\uddb7\n2")) {
      assertEquals(text, BidiText.isolated(text));
    }
  }

  @Test
  void whatIsOpenedIsClosedAndWhatWasNotOpenedIsNot() {
    assertEquals("\u2068\u202eevil\u2069", BidiText.isolated("\u202eevil"));
    assertEquals("\u2068a\u2067b\u2069\u2069", BidiText.isolated("a\u2067b"));
    assertEquals("\u2068ab\u2069", BidiText.isolated("a\u2069b"));
    assertEquals("\u2068\u2066a\u2069b\u2069", BidiText.isolated("\u2066a\u2069b\u2069"));
    assertEquals("\u2068\u202e a\u2069", BidiText.isolated("\u202e\u2029a"));
  }

  /** By the platform's own implementation of Unicode Standard Annex 9. */
  @Test
  void whatStandsBehindRunsFromLeftToRight() {
    for (String text : List.of("\u202e", "\u202ea", "\u2067", "\u2069\u202eb", "\u202b\u2068c")) {
      assertTrue(level("x " + text + " visit 2 of 3") > 0, "the trick works where nothing is done");
      assertEquals(0, level("x " + BidiText.isolated(text) + " visit 2 of 3"));
    }
  }

  /** Of the digit before the last, which a wrong order would carry away. */
  private static int level(String line) {
    Bidi bidi = new Bidi(line, Bidi.DIRECTION_LEFT_TO_RIGHT);
    return bidi.getLevelAt(line.lastIndexOf("visit"));
  }
}
