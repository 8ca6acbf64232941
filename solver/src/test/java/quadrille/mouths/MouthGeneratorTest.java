package quadrille.mouths;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Predicate;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/** Holds the random mouths against the surveys they are drawn from. */
final class MouthGeneratorTest {

  private static final int MOUTHS = 2000;
  private static final List<Chart> POPULATION = mouths(Profile.POPULATION);
  private static final List<Chart> TREATMENT = mouths(Profile.TREATMENT);

  /** Eke et al. 2018, JADA 149:576: probing depth 4 mm or more at 3.3 % of sites of US adults. */
  @Test
  void populationHasTheSurveyedShareOfDeepSites() {
    assertEquals(3.3, percentOfSites(POPULATION, site -> depth(site) >= 4), 0.4);
  }

  /** The same survey: 9.1 % of teeth have such a site. */
  @Test
  void populationHasTheSurveyedShareOfTeethWithADeepSite() {
    assertEquals(9.1, percentOfTeeth(POPULATION, 4), 0.8);
  }

  /** Billings et al. 2018: mean probing depth 1.5 mm. */
  @Test
  void populationHasTheSurveyedMeanDepth() {
    assertEquals(
        1.5,
        sites(POPULATION).stream().mapToInt(MouthGeneratorTest::depth).average().orElse(0),
        0.05);
  }

  /** Albandar et al. 1999, J Periodontol 70: calculus on 91.8 % of persons. */
  @Test
  void populationHasTheSurveyedShareOfPersonsWithCalculus() {
    assertEquals(91.8, percentOfPersons(chart -> worst(chart).compareTo(Deposit.LIGHT) >= 0), 2);
  }

  /**
   * The same survey: calculus below the margin on 55.1 %. Moderate is the first grade that may lie
   * below the margin (calculus index of the OHI, WHO database copy).
   */
  @Test
  void populationHasTheSurveyedShareOfPersonsWithCalculusBelowTheMargin() {
    assertEquals(55.1, percentOfPersons(chart -> worst(chart).compareTo(Deposit.MODERATE) >= 0), 3);
  }

  /** The same survey: bleeding on 50.3 % of persons. */
  @Test
  void populationHasTheSurveyedShareOfPersonsWhoBleed() {
    assertEquals(
        50.3,
        percentOfPersons(chart -> sites(List.of(chart)).stream().anyMatch(Site::bleeding)),
        3);
  }

  /** PMC9298904: before treatment, 28.2 % of sites are 5 mm or deeper. */
  @Test
  void patientsUnderTreatmentHaveThePublishedShareOfDeepSites() {
    assertEquals(28.2, percentOfSites(TREATMENT, site -> depth(site) >= 5), 1);
  }

  @ParameterizedTest
  @EnumSource
  void theSameSeedGivesTheSameMouth(Profile profile) {
    for (long seed = 0; seed < 50; seed++) {
      assertEquals(MouthGenerator.mouth(seed, profile), MouthGenerator.mouth(seed, profile));
      assertNotEquals(MouthGenerator.mouth(seed, profile), MouthGenerator.mouth(seed + 1, profile));
    }
  }

  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "HOSTILE")
  void randomMouthsKeepToTheAnatomy(Profile profile) {
    for (Chart chart : mouths(profile).subList(0, 300)) {
      assertTrue(chart.worked().size() > 0, chart.caseName());
      assertEquals(
          chart.teeth().stream().map(ToothChart::tooth).distinct().count(), chart.teeth().size());
      for (ToothChart tooth : chart.teeth()) {
        assertTrue(tooth.furcation() == 0 || tooth.tooth().molar(), chart.caseName());
        assertTrue(tooth.furcation() <= 3 && tooth.mobility() <= 3, chart.caseName());
      }
    }
  }

  @Test
  void profilesAreWhatTheyAreCalled() {
    for (Chart chart : mouths(Profile.IMPLANTS)) {
      assertTrue(chart.worked().stream().anyMatch(ToothChart::implant), chart.caseName());
    }
    for (Chart chart : mouths(Profile.CAPPED)) {
      assertTrue(chart.patient().has(Alert.HEART_DISEASE), chart.caseName());
      Double weight = chart.patient().weightKg();
      assertTrue(weight != null && weight < 50, chart.caseName());
    }
    assertEquals(0, percentOfSites(mouths(Profile.MILD), site -> depth(site) >= 5), 0);
    List<Chart> severe = mouths(Profile.SEVERE);
    assertTrue(percentOfSites(severe, site -> depth(site) >= 5) > 45);
    assertTrue(
        severe.stream()
            .flatMap(chart -> chart.worked().stream())
            .flatMap(tooth -> tooth.sites().stream())
            .anyMatch(site -> site.depthMm() == null));
  }

  @Test
  void hostileMouthsHaveNamesOfTheirOwnAndAllTurnUp() {
    List<Chart> hostile = MouthGenerator.hostile();
    assertEquals(hostile.size(), hostile.stream().map(Chart::caseName).distinct().count());
    assertEquals(
        hostile,
        LongStream.range(0, hostile.size())
            .mapToObj(seed -> MouthGenerator.mouth(seed, Profile.HOSTILE))
            .toList());
    Chart first = hostile.get(0);
    assertEquals(Tooth.values(), first.worked().stream().map(ToothChart::tooth).toList());
    assertTrue(sites(List.of(first)).stream().allMatch(site -> depth(site) == 12));
  }

  /** So every mouth here is one that a document can hold, and writing loses nothing of it. */
  @ParameterizedTest
  @EnumSource
  void everyMouthIsAValidDocument(Profile profile) throws Exception {
    int mouths = profile == Profile.HOSTILE ? MouthGenerator.hostile().size() : 60;
    for (long seed = 0; seed < mouths; seed++) {
      Chart chart = MouthGenerator.mouth(seed, profile);
      assertEquals(chart, ChartReader.json("mouth.json", ChartWriter.json(chart)));
    }
  }

  @Test
  void thinningTakesTeethAwayOneByOne() {
    Chart chart = MouthGenerator.mouth(7, Profile.TREATMENT);
    List<Tooth> more = List.of();
    for (int most = 1; most <= chart.worked().size(); most++) {
      List<Tooth> kept =
          Mouths.thinned(chart, 7, most).teeth().stream().map(ToothChart::tooth).toList();
      assertEquals(most, kept.size());
      assertTrue(kept.containsAll(more));
      more = kept;
    }
    assertEquals(chart.worked(), Mouths.thinned(chart, 7, 32).teeth());
  }

  private static List<Chart> mouths(Profile profile) {
    return LongStream.range(0, MOUTHS)
        .mapToObj(seed -> MouthGenerator.mouth(seed, profile))
        .toList();
  }

  private static List<Site> sites(List<Chart> charts) {
    return charts.stream()
        .flatMap(chart -> chart.teeth().stream())
        .filter(tooth -> tooth.status() == ToothStatus.NATURAL)
        .flatMap(tooth -> tooth.sites().stream())
        .toList();
  }

  /** Unprobed sites count as 0; the two surveyed profiles have none. */
  private static int depth(Site site) {
    Integer depth = site.depthMm();
    return depth == null ? 0 : depth;
  }

  private static double percentOfSites(List<Chart> charts, Predicate<Site> which) {
    List<Site> sites = sites(charts);
    return 100.0 * sites.stream().filter(which).count() / sites.size();
  }

  private static double percentOfTeeth(List<Chart> charts, int depthMm) {
    List<ToothChart> teeth = charts.stream().flatMap(chart -> chart.worked().stream()).toList();
    return 100.0
        * teeth.stream()
            .filter(tooth -> tooth.sites().stream().anyMatch(site -> depth(site) >= depthMm))
            .count()
        / teeth.size();
  }

  private static double percentOfPersons(Predicate<Chart> which) {
    return 100.0 * POPULATION.stream().filter(which).count() / POPULATION.size();
  }

  private static Deposit worst(Chart chart) {
    return chart.worked().stream()
        .map(ToothChart::deposit)
        .max(Deposit::compareTo)
        .orElse(Deposit.NONE);
  }
}
