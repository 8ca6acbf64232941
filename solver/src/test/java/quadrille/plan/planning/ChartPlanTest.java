package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.plan.staging.Effort;

final class ChartPlanTest {

  @TempDir private Path folder;

  @Test
  void plansAChart() throws IOException {
    Path file = DemoMouths.file("mild-one-visit.json");
    ChartPlan.Planned planned = assertInstanceOf(ChartPlan.Planned.class, quick(file, 1));
    assertEquals(1, planned.course().visits().size());
    assertEquals(planned.chart().caseName(), planned.course().caseName());
  }

  @Test
  void saysWhyThereIsNoPlan() throws IOException {
    ChartPlan answer = quick(DemoMouths.file("typical.json"), 1);
    assertFalse(assertInstanceOf(ChartPlan.NoPlan.class, answer).why().clashes().isEmpty());
  }

  @Test
  void saysWhatNoInsertMayDo() throws Exception {
    ChartPlan answer =
        ChartPlan.of(
            DemoMouths.file("typical.json"),
            PracticeReader.defaults().withInserts(Map.of()),
            VisitRange.USUAL,
            Effort.QUICK);
    assertFalse(assertInstanceOf(ChartPlan.Unworkable.class, answer).work().isEmpty());
  }

  @Test
  void tellsEveryFaultOfAFile() throws IOException {
    Path file = folder.resolve("chart.json");
    Files.writeString(file, "{ \"schema\": \"quadrille/chart/1\", \"teeth\": 5 }");
    ChartPlan answer = ChartPlan.of(file);
    assertTrue(assertInstanceOf(ChartPlan.Invalid.class, answer).faults().size() > 1);
  }

  @Test
  void theReadmesExampleRunsAsItStands() throws Exception {
    String readme = Files.readString(Path.of("../README.md"));
    Path example = folder.resolve("Example.java");
    Files.writeString(example, readme.split("```java\n")[1].split("```")[0]);
    Path errors = folder.resolve("errors.txt");
    Process run =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                classPath(),
                example.toString())
            .directory(Path.of("..").toFile())
            .redirectError(errors.toFile())
            .start();
    String said = new String(run.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, run.waitFor(), () -> read(errors));
    assertTrue(said.matches("(?s)(Visit [1-6]: [0-9]+ min\\R)+"), said);
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException unreadable) {
      return unreadable.toString();
    }
  }

  /** What this test itself runs with, from wherever its runner has it. */
  private static String classPath() throws URISyntaxException {
    List<Path> path = new ArrayList<>();
    if (ChartPlan.class.getClassLoader() instanceof URLClassLoader loader) {
      for (URL one : loader.getURLs()) {
        path.add(Path.of(one.toURI()));
      }
    } else {
      for (String one : System.getProperty("java.class.path").split(File.pathSeparator)) {
        path.add(Path.of(one));
      }
    }
    return path.stream()
        .map(one -> one.toAbsolutePath().toString())
        .collect(Collectors.joining(File.pathSeparator));
  }

  private static ChartPlan quick(Path file, int visits) throws IOException {
    return ChartPlan.of(file, PracticeReader.defaults(), VisitRange.exactly(visits), Effort.QUICK);
  }
}
