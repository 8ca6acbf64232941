package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import quadrille.facts.chart.ChartSigns.Criterion;
import quadrille.facts.chart.ChartSigns.DeepImplant;
import quadrille.facts.chart.ChartSigns.Sign;
import quadrille.facts.chart.ChartSigns.Stage;

/** Mouths in a few lines against the published table: Tonetti, Greenwell, Kornman 2018. */
final class ChartSignsTest {

  private static ChartSigns signs(String... teeth) throws Exception {
    String chart =
        "case K-1\nnumbering iso3950\nage 50\nweight 70\nalerts none\n"
            + String.join("\n", teeth)
            + "\n";
    return ChartSigns.of(ChartReader.lines("k.teeth", chart));
  }

  private static Sign sign(ChartSigns signs, Criterion criterion) {
    return signs.stage().stream()
        .filter(sign -> sign.criterion() == criterion)
        .findFirst()
        .orElseThrow();
  }

  private static List<Tooth> teeth(int... iso) {
    return java.util.Arrays.stream(iso).mapToObj(Tooth::ofIso).toList();
  }

  /** Depth and recession at the distal site of 16; the table's limits on both sides. */
  @ParameterizedTest
  @CsvSource({
    "1, 0, I",
    "2, 0, I",
    "2, 1, II",
    "3, 1, II",
    "3, 2, III IV",
    "4, 8, III IV",
    "2, -2, ''"
  })
  void attachmentLossIsDepthAndRecession(int depth, int recession, String stages) throws Exception {
    Sign sign =
        sign(
            signs("16 none | " + depth + "/" + recession + " 0 0 | 0 0 0"),
            Criterion.ATTACHMENT_LOSS);
    assertEquals(depth + recession, sign.value());
    assertEquals(
        stages, String.join(" ", sign.stages().stream().sorted().map(Stage::name).toList()));
  }

  /** The middle of the facial side may be worn by brushing: the table looks between the teeth. */
  @Test
  void recessionInTheMiddleOfAToothIsNoInterdentalLoss() throws Exception {
    assertEquals(2, sign(signs("13 none | 2 3/5 2 | 2 2 2"), Criterion.ATTACHMENT_LOSS).value());
  }

  /** The worst stage is looked at: 1 to 2, 3 to 4, 5 and more mm are one each. */
  @ParameterizedTest
  @CsvSource({
    "6, 0, 0, false",
    "6, 0, 4, false",
    "6, 5, 0, false",
    "6, 0, 5, true",
    "2, 1, 0, false",
    "2, 0, 1, true",
    "0, 0, 0, false"
  })
  void lossAtOneToothOrAtNeighboursIsNotApart(int at11, int at21, int at22, boolean apart)
      throws Exception {
    ChartSigns signs =
        signs(
            "11 none | " + at11 + " 0 0 | 0 0 0",
            "21 none | " + at21 + " 0 0 | 0 0 0",
            "22 none | " + at22 + " 0 0 | 0 0 0",
            "43 none | 0 0 0 | 0 0 0");
    assertEquals(apart, signs.lossApart());
    assertEquals(at11 == 0, signs.lossTeeth().isEmpty());
  }

  @Test
  void lossInBothJawsIsApart() throws Exception {
    assertTrue(signs("11 none | 3 0 0 | 0 0 0", "41 none | 3 0 0 | 0 0 0").lossApart());
  }

  @ParameterizedTest
  @CsvSource({"3, ''", "4, I", "5, II", "6, III IV", "11, III IV"})
  void deepestSiteCountsWhereverItLies(int depth, String stages) throws Exception {
    Sign sign = sign(signs("16 none | 2 " + depth + " 2 | 2 2 2"), Criterion.DEPTH);
    assertEquals(depth, sign.value());
    assertEquals(
        stages, String.join(" ", sign.stages().stream().sorted().map(Stage::name).toList()));
  }

  @Test
  void furcationFromTwoAndMobilityFromTwo() throws Exception {
    ChartSigns one = signs("16 none f1 m1 | 3 3 3 | 3 3 3");
    assertEquals(Set.of(), sign(one, Criterion.FURCATION).stages());
    assertEquals(Set.of(), sign(one, Criterion.MOBILITY).stages());
    ChartSigns two = signs("16 none f2 m2 | 3 3 3 | 3 3 3", "26 none f2 | 3 3 3 | 3 3 3");
    assertEquals(Set.of(Stage.III, Stage.IV), sign(two, Criterion.FURCATION).stages());
    assertEquals(teeth(16, 26), sign(two, Criterion.FURCATION).teeth());
    assertEquals(Set.of(Stage.IV), sign(two, Criterion.MOBILITY).stages());
    assertEquals(teeth(16), sign(two, Criterion.MOBILITY).teeth());
  }

  /** Implants are no natural teeth, and a tooth that will be taken out does not stay. */
  @Test
  void nineteenNaturalTeethAreFewAndTwentyAreNot() throws Exception {
    String[] twenty =
        java.util.stream.IntStream.of(
                11, 12, 13, 14, 15, 21, 22, 23, 24, 25, 31, 32, 33, 34, 35, 41, 42, 43, 44, 45)
            .mapToObj(iso -> iso + " none | 2 2 2 | 2 2 2")
            .toArray(String[]::new);
    assertEquals(Set.of(), sign(signs(twenty), Criterion.TEETH).stages());
    twenty[0] = "11 implant none | 2 2 2 | 2 2 2";
    assertEquals(19, sign(signs(twenty), Criterion.TEETH).value());
    assertEquals(Set.of(Stage.IV), sign(signs(twenty), Criterion.TEETH).stages());
    twenty[0] = "11 planned-extraction none | 2 2 2 | 2 2 2";
    assertEquals(19, sign(signs(twenty), Criterion.TEETH).value());
  }

  /** Unprobed is unknown, never healthy. */
  @Test
  void siteThatWasNotProbedIsSaidAndCountsForNothing() throws Exception {
    ChartSigns signs = signs("16 heavy | - - - | 3 3 3", "17 none | 4 4 4 | 4 4 4");
    assertEquals(teeth(16), signs.unprobedTeeth());
    assertEquals(4, sign(signs, Criterion.DEPTH).value());
    assertEquals(teeth(17), sign(signs, Criterion.DEPTH).teeth());
  }

  @Test
  void mouthThatNobodyProbedHasNoDepthToSpeakOf() throws Exception {
    ChartSigns signs = signs("16 heavy | - - - | - - -", "46 implant none | - 3 3 | 3 3 3");
    assertEquals(
        List.of(Criterion.FURCATION, Criterion.MOBILITY, Criterion.TEETH),
        signs.stage().stream().map(ChartSigns.Sign::criterion).toList());
    assertEquals(teeth(46), signs.unprobedImplants());
  }

  /** Peri-implantitis without an earlier record: 6 mm or more that bleeds (Berglundh 2018). */
  @Test
  void implantThatIsDeepAndBleedsIsLookedInto() throws Exception {
    assertEquals(
        List.of(new DeepImplant(Tooth.ofIso(46), 7)),
        signs("46 implant none | 8 2 7b | 3 3 3").implants());
    assertEquals(List.of(), signs("46 implant none | 8 2 5b | 3 3 3").implants());
    assertEquals(List.of(), signs("46 none | 8b 8b 8b | 3 3 3").implants());
    assertEquals(List.of(), signs("46 implant none | 7b 2 2 | 3 3 3").stage());
  }

  @Test
  void sitesOfSixAndMoreAreCountedForReferral() throws Exception {
    ChartSigns signs =
        signs(
            "16 none | 6 5 7 | 3 3 6",
            "36 none | 5 5 5 | 5 5 5",
            "46 implant none | 9 9 9 | 3 3 3");
    assertEquals(3, signs.deepSites());
    assertEquals(teeth(16), signs.deepTeeth());
  }

  @Test
  void extractionIsNamedWhereItsSideIsWorkedOn() throws Exception {
    assertEquals(
        teeth(18), signs("18 planned-extraction", "46 none | 3 3 3 | 3 3 3").extractions());
    assertEquals(
        List.of(), signs("18 planned-extraction", "36 none | 3 3 3 | 3 3 3").extractions());
  }

  @Test
  void mouthWithoutANaturalToothHasNoStage() throws Exception {
    assertTrue(signs("46 implant none | 3 3 3 | 3 3 3").stage().isEmpty());
  }
}
