package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Wishes as people say them. */
class WishSentencesTest {

  private static List<String> faults(String sentence, Numbering numbering) {
    List<String> faults = new ArrayList<>();
    WishSentences.read(
        sentence, numbering, (found, allowed) -> faults.add(found + " | " + allowed));
    return faults;
  }

  private static Wish wish(String sentence, Numbering numbering) {
    return WishSentences.read(
            sentence,
            numbering,
            (found, allowed) -> {
              throw new AssertionError(sentence + ": " + found + "; " + allowed);
            })
        .orElseThrow();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "must UR posterior in visit 2 | must UR posterior in visit 2",
        "MUST ur POSTERIOR in 2 of 3 visits | must UR posterior in visit 2 of 3",
        "rather upper right, lower right together | rather UR and LR together",
        "must 17-14 and 47 apart | must UR posterior 17-14 and LR posterior 47 apart",
        "must 14-17 in 1 | must UR posterior 17-14 in visit 1",
        "rather LL first | rather LL first",
        "must no injections in UR anterior with UL anterior"
            + " | must no injection in UR anterior and UL anterior",
        "must no injection UR | must no injection in UR",
        "rather not the slim curved right | rather not slim curved right",
        "must numb first | must numb first",
        "Rather by hand | rather by hand",
      })
  void areReadAsTheyAreSaid(String said, String read) {
    assertEquals(read, wish(said, Numbering.ISO3950).words(Numbering.ISO3950));
  }

  @Test
  void teethAreNamedByTheChartsNumbering() {
    Wish wish = wish("must 2-4 in visit 1", Numbering.UNIVERSAL);
    assertEquals("must UR posterior 17-15 in visit 1", wish.words(Numbering.ISO3950));
    assertEquals("must UR posterior 2-4 in visit 1", wish.words(Numbering.UNIVERSAL));
  }

  @Test
  void everyWishIsReadBackAsItIsWritten() {
    Random random = new Random(3);
    for (int i = 0; i < 500; i++) {
      Wish wish = SampleWishes.one(Tooth.values(), List.of("slim straight"), random);
      for (Numbering numbering : Numbering.values()) {
        assertEquals(wish, wish(wish.words(numbering), numbering));
      }
    }
  }

  @Test
  void allFaultsOfASentenceAreTold() {
    String places =
        "a quadrant (UR, UL, LL, LR), an area such as UR posterior, or teeth of one area";
    assertEquals(
        List.of(
            "\"mst\" | must or rather. Did you mean \"must\"?, as the first word",
            "\"posteror\" | " + places + ". Did you mean \"posterior\"?",
            "\"13\" | the number of a visit, 1 to 12"),
        faults("mst UR posteror in 13", Numbering.ISO3950));
    assertEquals(
        List.of("\"2\" | the number of visits, 3 to 12"),
        faults("must UR in 3 of 2", Numbering.ISO3950));
    assertEquals(
        List.of("one place only | two places or more, each " + places),
        faults("must UR apart", Numbering.ISO3950));
    assertEquals(
        List.of("UR posterior, twice | places that do not overlap"),
        faults("must UR and UR posterior apart", Numbering.ISO3950));
    assertEquals(
        List.of("\"14-12\", which is more than one area | teeth of one area"),
        faults("must 14-12 first", Numbering.ISO3950));
    assertEquals(List.of("\"49\" | " + places), faults("must 49 first", Numbering.ISO3950));
    assertEquals(
        List.of("nothing after \"not\" | the name of an insert of the practice"),
        faults("must not", Numbering.ISO3950));
    assertEquals(1, faults("must hurry", Numbering.ISO3950).size());
    assertEquals(1, faults("", Numbering.ISO3950).size());
  }
}
