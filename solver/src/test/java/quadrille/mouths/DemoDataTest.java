package quadrille.mouths;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.work.Step;
import quadrille.plan.work.WorkPlanner;

/** Holds that the demo data can be read, and shows what it says it shows. */
final class DemoDataTest {

  private static final Path DEMO = Path.of("..", "demo-data");

  @Test
  void smallClinicDiffersFromTheDefaultWhereItSays() throws Exception {
    Practice defaults = PracticeReader.defaults();
    Practice clinic = smallClinic();
    assertTrue(clinic.name().startsWith("DEMO"), clinic.name());
    assertEquals(15, clinic.appointments().unitMinutes().asInt());
    assertEquals(90, clinic.minutes().tipChangeSeconds().asInt());
    assertEquals("articaine-4-200", clinic.preferredAgents().get(0));
    assertTrue(clinic.gel().owned());
    assertFalse(defaults.gel().owned());
    assertEquals(defaults.inserts().size() - 1, clinic.inserts().size());
    assertFalse(clinic.inserts().containsKey("standard bent for line angles"));
    assertEquals(defaults.weights(), clinic.weights());
    assertEquals(defaults.selection(), clinic.selection());
  }

  @ParameterizedTest
  @MethodSource("charts")
  void everyChartReadsAndSaysThatItIsADemo(Path file) throws Exception {
    assertTrue(ChartReader.read(file).caseName().startsWith("DEMO"), file.toString());
  }

  @ParameterizedTest
  @MethodSource("charts")
  void everyChartCanBeWorkedOnByBothPractices(Path file) throws Exception {
    Chart chart = ChartReader.read(file);
    for (Practice practice : List.of(PracticeReader.defaults(), smallClinic())) {
      assertFalse(WorkPlanner.plan(chart, practice, Area.of(chart)).steps().isEmpty());
    }
  }

  @Test
  void readmeDescribesEveryFile() throws Exception {
    String readme = Files.readString(DEMO.resolve("README.md"));
    try (Stream<Path> files = Files.list(DEMO)) {
      for (Path file : files.sorted().toList()) {
        String name = file.getFileName().toString();
        assertTrue(name.equals("README.md") || readme.contains("| `" + name + "` |"), name);
      }
    }
  }

  @Test
  void bothFormatsOfTheModerateMouthReadAlike() throws Exception {
    assertEquals(DemoMouths.chart("moderate.json"), DemoMouths.chart("moderate.csv"));
  }

  @Test
  void chartsShowWhatTheyAreCalled() throws Exception {
    assertTrue(DemoMouths.chart("typical.json").patient().has(Alert.ASTHMA));
    // Generalised from 30 % of teeth: Tonetti, Greenwell and Kornman 2018, doi 10.1111/jcpe.12945.
    List<ToothChart> typical = DemoMouths.chart("typical.json").worked();
    long deep = typical.stream().filter(DemoDataTest::deep).count();
    assertTrue(deep > 0.3 * typical.size(), "generalised");
    assertTrue(shareOfSites(DemoMouths.chart("moderate.json"), 5) < 0.2, "moderate");
    Chart bridge = DemoMouths.chart("lower-anterior-bridge.json");
    List<Integer> bridged =
        bridge.worked().stream()
            .filter(tooth -> tooth.has(Feature.CALCULUS_BRIDGE))
            .map(tooth -> tooth.tooth().iso())
            .toList();
    assertEquals(List.of(31, 32, 33, 41, 42, 43), bridged);
    Set<Side> implantSides = EnumSet.noneOf(Side.class);
    for (ToothChart tooth : DemoMouths.chart("implants-both-sides.json").worked()) {
      if (tooth.implant()) {
        implantSides.add(tooth.tooth().quadrant().side());
      }
    }
    assertEquals(EnumSet.allOf(Side.class), implantSides);
    assertTrue(DemoMouths.chart("heart-disease.json").patient().has(Alert.HEART_DISEASE));
    assertTrue(DemoMouths.chart("pregnancy.json").patient().has(Alert.PREGNANCY));
    assertTrue(
        DemoMouths.chart("edentulous-upper.json").worked().stream()
            .allMatch(tooth -> tooth.tooth().quadrant().jaw() == Jaw.LOWER));
    assertEquals(0, shareOfSites(DemoMouths.chart("mild-one-visit.json"), 5));
    assertNull(DemoMouths.chart("weight-missing.json").patient().weightKg());
    assertTrue(
        DemoMouths.chart("unprobed.json").worked().stream()
            .flatMap(tooth -> tooth.sites().stream())
            .anyMatch(site -> site.depthMm() == null));
    assertEquals(Numbering.UNIVERSAL, DemoMouths.chart("universal-numbering.json").numbering());
  }

  /** Two visits of at most 60 minutes: too short even without injections and changes of tip. */
  @Test
  void tooFewVisitsIsTooMuchForTwo() throws Exception {
    Chart chart = DemoMouths.chart("too-few-visits.json");
    Practice practice = PracticeReader.defaults();
    assertEquals(60, chart.patient().longestVisitMinutes());
    double work =
        WorkPlanner.plan(chart, practice, Area.of(chart)).steps().stream()
                .mapToInt(Step::seconds)
                .sum()
            / 60.0;
    double around =
        practice.minutes().setUpMinutes().value() + practice.minutes().closeMinutes().value();
    assertTrue(work + 2 * around > 2 * 60, work + " minutes of work");
  }

  private static List<Path> charts() throws IOException {
    return DemoMouths.files();
  }

  private static boolean deep(ToothChart tooth) {
    return tooth.sites().stream()
        .anyMatch(
            site -> {
              Integer depth = site.depthMm();
              return depth != null && depth >= 5;
            });
  }

  private static double shareOfSites(Chart chart, int depthMm) {
    return chart.worked().stream()
        .flatMap(tooth -> tooth.sites().stream())
        .mapToInt(
            site -> {
              Integer depth = site.depthMm();
              return depth != null && depth >= depthMm ? 1 : 0;
            })
        .average()
        .orElse(0);
  }

  private static Practice smallClinic() throws Exception {
    Path file = DEMO.resolve("small-clinic.practice.json");
    return PracticeReader.read(file.toString(), Files.readString(file));
  }
}
