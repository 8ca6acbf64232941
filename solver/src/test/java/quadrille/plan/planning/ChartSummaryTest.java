package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.planning.ChartSummary.DepthBand;
import quadrille.plan.planning.UsedFigure.What;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkPlanner;

final class ChartSummaryTest {

  private final Practice practice = PracticeReader.defaults();
  private final List<ToothChart> teeth = new ArrayList<>();

  @Test
  void everyPositionIsInOneListOnly() throws UnworkableException {
    teeth.add(natural(16, 3));
    teeth.add(tooth(26, ToothStatus.IMPLANT, 3));
    teeth.add(tooth(38, ToothStatus.PLANNED_EXTRACTION, 9));
    teeth.add(
        new ToothChart(iso(48), ToothStatus.MISSING, Deposit.NONE, 0, 0, Set.of(), null, null));
    ChartSummary summary = summary();
    assertEquals(List.of(iso(16)), summary.natural());
    assertEquals(List.of(iso(26)), summary.implants());
    assertEquals(List.of(iso(38)), summary.extractions());
    assertEquals(List.of(iso(48)), summary.missing());
    assertEquals(28, summary.unlisted().size());
    assertEquals(12, summary.sites(), "a tooth planned for extraction is not counted");
    assertEquals(3, summary.deepestMm());
  }

  @Test
  void depthsFallIntoTheirBands() throws UnworkableException {
    Site four = new Site(4, 0, true);
    AspectReading facial = new AspectReading(Site.ofDepth(3), four, Site.ofDepth(5));
    AspectReading lingual =
        new AspectReading(Site.ofDepth(6), Site.ofDepth(7), new Site(null, 0, true));
    teeth.add(
        new ToothChart(
            iso(16), ToothStatus.NATURAL, Deposit.HEAVY, 2, 1, Set.of(), facial, lingual));
    ChartSummary summary = summary();
    assertEquals(
        List.of(
            new DepthBand(0, 3, 1),
            new DepthBand(4, 4, 1),
            new DepthBand(5, 6, 2),
            new DepthBand(7, 20, 1)),
        summary.depths());
    assertEquals(1, summary.unprobed());
    assertEquals(2, summary.bleeding());
    assertEquals(7, summary.deepestMm());
    assertEquals(Map.of(2, List.of(iso(16))), summary.furcations());
    assertEquals(Map.of(1, List.of(iso(16))), summary.mobilities());
    assertEquals(1, summary.deposits().get(Deposit.HEAVY));
  }

  /** The limit of 30 % of teeth: Tonetti, Greenwell, Kornman 2018, doi 10.1111/jcpe.12945. */
  @Test
  void extentIsGeneralisedFromThirtyPercentOfNaturalTeeth() throws UnworkableException {
    for (int position = 1; position <= 8; position++) {
      teeth.add(natural(10 + position, position <= 3 ? 4 : 3));
    }
    teeth.add(natural(21, 3));
    teeth.add(natural(22, 3));
    teeth.add(tooth(36, ToothStatus.IMPLANT, 6));
    assertEquals(new ChartSummary.Extent(4, 3, 0, 10), summary().extent());
    assertEquals(ChartSummary.Spread.GENERALISED, summary().extent().spread());
    teeth.add(natural(23, 3));
    assertEquals(ChartSummary.Spread.LOCALISED, summary().extent().spread());
    teeth.removeIf(tooth -> tooth.sites().get(0).equals(Site.ofDepth(4)));
    assertEquals(ChartSummary.Spread.NONE, summary().extent().spread());
  }

  /** A tooth that was not probed at every site may have a pocket: unknown, never healthy. */
  @Test
  void extentIsNotKnownWhereItHangsOnSitesNotProbed() throws UnworkableException {
    for (int position = 1; position <= 8; position++) {
      teeth.add(natural(10 + position, position <= 2 ? 4 : 3));
    }
    AspectReading half =
        new AspectReading(Site.ofDepth(3), new Site(null, 0, false), Site.ofDepth(3));
    teeth.add(natural(21, 3));
    teeth.add(
        new ToothChart(iso(22), ToothStatus.NATURAL, Deposit.HEAVY, 0, 0, Set.of(), half, half));
    assertEquals(new ChartSummary.Extent(4, 2, 1, 10), summary().extent());
    assertEquals(ChartSummary.Spread.UNKNOWN, summary().extent().spread());
    assertEquals(60 - 2, summary().bleedingOf());
    teeth.add(natural(23, 3));
    assertEquals(ChartSummary.Spread.LOCALISED, summary().extent().spread(), "3 of 11 at the most");
    teeth.removeIf(tooth -> tooth.sites().get(0).equals(Site.ofDepth(4)));
    assertEquals(ChartSummary.Spread.UNKNOWN, summary().extent().spread());
  }

  @Test
  void anEmptyMouthHasNoExtentAndNoWork() throws UnworkableException {
    ChartSummary summary = summary();
    assertEquals(ChartSummary.Spread.NONE, summary.extent().spread());
    assertEquals(List.of(), summary.areas());
    assertEquals(List.of(), summary.sources());
    assertEquals(32, summary.unlisted().size());
  }

  /** 194 s for a single-rooted tooth of 5 to 12 mm: Yukna et al. 1997, J Periodontol 68:436. */
  @Test
  void areasAddUpTheirStepsAndSayWhatMustBeNumb() throws UnworkableException {
    for (int position = 1; position <= 3; position++) {
      teeth.add(natural(10 + position, 6));
    }
    ChartSummary.AreaWork work = summary().areas().get(0);
    assertEquals("UR anterior", work.area().ref().toString());
    assertEquals(Set.of(Pass.FINE), work.seconds().keySet());
    // Root areas 204, 179 and 273 over the mean 222 of the five single-rooted teeth of that jaw.
    assertEquals(194 * (204 + 179 + 273) / 222.0, work.seconds().get(Pass.FINE), 2);
    SortedSet<Tooth> all = new TreeSet<>(List.of(iso(11), iso(12), iso(13)));
    assertEquals(all, work.pulp());
    assertEquals(all, work.facial());
    assertEquals(all, work.lingual());
    assertTrue(work.needsInjection());
  }

  @Test
  void shallowSitesNeedNoNumbing() throws UnworkableException {
    teeth.add(natural(11, 4));
    assertFalse(summary().areas().get(0).needsInjection());
  }

  @Test
  void onlyFiguresThatEnterTheMouthAreNamed() throws UnworkableException {
    teeth.add(natural(11, 4));
    assertEquals(
        List.of(
            new What.WhichPass(),
            new What.PassFrom(Pass.FINE, 4),
            new What.FineTime(4, 4, 16),
            new What.ByPosition(Pass.FINE, new TreeSet<>(Set.of(1)))),
        what(summary()));
    teeth.add(
        new ToothChart(
            iso(16),
            ToothStatus.NATURAL,
            Deposit.HEAVY,
            2,
            0,
            Set.of(Feature.CROWDED),
            AspectReading.even(6),
            AspectReading.even(6)));
    teeth.add(tooth(26, ToothStatus.IMPLANT, 6));
    List<What> deep = what(summary());
    for (What used :
        List.of(
            new What.FurcationFactor(2, 1.3),
            new What.FlatTime(Pass.IMPLANT_CARE, 120),
            new What.GrossTime(Deposit.HEAVY, 90),
            new What.FlatTime(Pass.FINISHING, 30),
            new What.ByPosition(Pass.FINE, new TreeSet<>(Set.of(1, 6))))) {
      assertTrue(deep.contains(used), deep.toString());
    }
    assertTrue(
        deep.stream()
            .anyMatch(
                what ->
                    what instanceof What.FineTime fine
                        && fine.fromMm() == 5
                        && fine.toMm() == null
                        && Math.abs(fine.seconds() - 32.33) < 0.005),
        deep.toString());
    summary()
        .sources()
        .forEach(figure -> assertFalse(figure.source().isBlank(), figure.toString()));
  }

  private static List<What> what(ChartSummary summary) {
    return summary.sources().stream().map(UsedFigure::what).toList();
  }

  private ChartSummary summary() throws UnworkableException {
    Patient patient = new Patient(50, 70.0, null, Set.of(), null, false);
    Chart chart = new Chart("K-1", null, Numbering.ISO3950, patient, teeth);
    return ChartSummary.of(chart, practice, WorkPlanner.plan(chart, practice, Area.of(chart)));
  }

  private static ToothChart natural(int code, int depthMm) {
    return tooth(code, ToothStatus.NATURAL, depthMm);
  }

  private static ToothChart tooth(int code, ToothStatus status, int depthMm) {
    return new ToothChart(
        iso(code),
        status,
        Deposit.NONE,
        0,
        0,
        Set.of(),
        AspectReading.even(depthMm),
        AspectReading.even(depthMm));
  }

  private static Tooth iso(int code) {
    return Tooth.ofIso(code);
  }
}
