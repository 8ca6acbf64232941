package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

final class PageTest {

  @Test
  void wrapsAtSpacesAndKeepsNumberAndUnitTogether() {
    assertEquals(List.of("one two", "three"), Page.wrap("one  two three", 9));
    assertEquals(List.of("takes", "12\u00a0min"), Page.wrap("takes 12\u00a0min", 9));
    assertEquals(List.of(""), Page.wrap("", 9));
  }

  @Test
  void breaksAWordOnlyWhereItIsWiderThanTheLine() {
    assertEquals(List.of("a", "bcdefghij", "k"), Page.wrap("a bcdefghijk", 9));
  }

  @Test
  void countsCodePointsNotChars() {
    String tooth = "\ud83e\uddb7";
    assertEquals(List.of(tooth.repeat(9), tooth), Page.wrap(tooth.repeat(10), 9));
  }

  @Test
  void hangsALabelBesideItsWords() {
    assertEquals(
        "Tray      standard straight\n",
        new Page(false).hang("Tray", 10, "standard straight").text());
    assertEquals("", new Page(false).items(List.of()).text());
  }

  @Test
  void labelTooLongForItsColumnHasALineOfItsOwn() {
    assertEquals("Furcation\n  16\n", new Page(false).hang("Furcation", 2, "16").text());
  }

  @Test
  void nothingOutOfAFileSteersTheTerminal() {
    String hostile = "a\u001b[31mb\rc\u202ed\u0000e\u2028f\ud800g\nh";
    assertEquals(
        "a\ufffd[31mb\ufffdc\ufffdd\ufffde\ufffdf\ufffdg h\n",
        new Page(true).paragraph(hostile).text());
  }

  @Test
  void headingsAreSetOffOnATerminalOnly() {
    assertEquals("Teeth\n", new Page(false).heading("Teeth").text());
    assertEquals("\u001b[1mTeeth\u001b[0m\n", new Page(true).heading("Teeth").text());
  }

  @Property
  void noLineIsEverWiderThanThePage(
      @ForAll String label, @ForAll @IntRange(max = 40) int indent, @ForAll String words) {
    Page page = new Page(false);
    page.heading(words).hang(label, indent, words).line(label + words).item(words);
    assertTrue(page.text().lines().allMatch(line -> Page.length(line) <= Page.WIDTH), page::text);
  }

  @Property
  void wrappingLosesNothing(@ForAll String words, @ForAll @IntRange(min = 1, max = 40) int width) {
    String joined = String.join("", Page.wrap(words, width));
    assertEquals(words.strip().replace(" ", ""), joined.replace(" ", ""));
  }
}
