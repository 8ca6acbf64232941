package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.WatchSite;
import quadrille.plan.work.StepAspect;

/** What of a tooth is watched: sites from 7 mm on or not probed, grades from 2 on, and features. */
final class WatchCheckTest {
  private static final Site DEEP = new Site(7, 0, false);
  private static final Site LESS = new Site(6, 0, false);
  private static final Site UNPROBED = new Site(null, 0, false);

  private static List<WatchSite> watched(
      AspectReading facial, int furcation, int mobility, Set<Feature> features) {
    Chart chart = new SmallChart().build();
    ToothChart tooth =
        new ToothChart(
            Tooth.ofIso(36),
            ToothStatus.NATURAL,
            Deposit.LIGHT,
            furcation,
            mobility,
            features,
            facial,
            AspectReading.even(3));
    Chart with =
        new Chart(chart.caseName(), null, chart.numbering(), chart.patient(), List.of(tooth));
    SmallPractice practice = new SmallPractice();
    PlanBuilder plan = new PlanBuilder(with, practice.build());
    plan.visit().step("LL posterior", Pass.FINE, StepAspect.FACIAL);
    return WatchCheck.due(plan.course().visits().get(0), new Facts(with, practice.build()));
  }

  private static WatchSite of(
      List<WatchSite.Probed> sites, int furcation, int mobility, List<Feature> features) {
    return new WatchSite.OfTooth(Tooth.ofIso(36), false, sites, furcation, mobility, features);
  }

  @Test
  void sitesFromTheFinishingDepthOnAreWatchedWhereTheyLie() {
    assertEquals(
        List.of(
            of(
                List.of(
                    new WatchSite.Probed(Aspect.FACIAL, 1, 7),
                    new WatchSite.Probed(Aspect.FACIAL, 2, null)),
                0,
                0,
                List.of())),
        watched(new AspectReading(LESS, DEEP, UNPROBED), 1, 1, Set.of()));
  }

  @Test
  void gradesFromTwoOnAreWatched() {
    AspectReading even = AspectReading.even(4);
    assertEquals(List.of(), watched(even, 1, 1, Set.of()));
    assertEquals(List.of(of(List.of(), 2, 0, List.of())), watched(even, 2, 1, Set.of()));
    assertEquals(List.of(of(List.of(), 0, 2, List.of())), watched(even, 1, 2, Set.of()));
    assertEquals(List.of(of(List.of(), 3, 3, List.of())), watched(even, 3, 3, Set.of()));
  }

  @Test
  void featuresThatOnlyTakeTimeAreNotWatched() {
    AspectReading even = AspectReading.even(4);
    assertEquals(List.of(), watched(even, 0, 0, EnumSet.of(Feature.CROWDED, Feature.HEAVY_STAIN)));
    assertEquals(
        List.of(of(List.of(), 0, 0, List.of(Feature.SENSITIVE))),
        watched(even, 0, 0, EnumSet.of(Feature.CROWDED, Feature.SENSITIVE)));
  }
}
