package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

final class CheckCommandTest {

  @TempDir private Path folder;

  static List<String> charts() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("../demo-data"))) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.endsWith(".csv") || name.endsWith(".json"))
          .filter(name -> !name.contains("practice") && !name.equals("diary.json"))
          .sorted()
          .toList();
    }
  }

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "typical",
        "implants-both-sides",
        "unprobed",
        "universal-numbering",
        "weight-missing",
        "edentulous-upper"
      })
  void wholeAnswer(String name) {
    Golden.check("check-" + name + ".txt", Run.of("check", Golden.demo(name + ".json")).done());
  }

  @Test
  void wholeAnswerAsJson() {
    Golden.check(
        "check-typical.json",
        Run.of("check", "--format", "json", Golden.demo("typical.json")).done());
  }

  @ParameterizedTest
  @MethodSource("charts")
  void everyDemoChartFitsThePage(String name) {
    Golden.checkWidth(Run.of("check", Golden.demo(name)).done());
  }

  @Test
  void csvSaysWhatItsTwinInJsonSays() {
    String[] sides = {"moderate.csv", "moderate.json"};
    for (int i = 0; i < sides.length; i++) {
      sides[i] = Run.of("check", Golden.demo(sides[i])).done();
    }
    assertEquals(sides[1], sides[0]);
  }

  @Test
  void standardInputIsRead() throws IOException {
    String chart = Files.readString(Path.of(Golden.demo("typical.json")));
    assertEquals(
        Run.of("check", Golden.demo("typical.json")).done(),
        Run.withInput(chart, "check", "-").done());
  }

  @Test
  void practiceChangesTheMinutes() throws IOException {
    String slow =
        file(
            "slow.json",
            """
            {"schema": "quadrille/practice/1", "minutes": {"finishingSeconds": 600}}
            """);
    String text = Run.of("check", Golden.demo("typical.json"), "--practice", slow).done();
    assertTrue(text.contains("- finishing pass: 600 s a tooth: the practice's own\n"), text);
  }

  @Test
  void teethThatAreNotListedAreSaid() throws IOException {
    String chart =
        file(
            "one.json",
            """
            {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "iso3950",
             "patient": {"weightKg": 70, "alerts": []},
             "teeth": [{"tooth": "16", "deposit": "light",
                        "facial": {"depthMm": [3, 2, 3]},
                        "lingual": {"depthMm": [3, 2, 3]}}]}
            """);
    String text = Run.of("check", chart).done();
    assertTrue(text.contains("Not listed  31: 11 12 13"), text);
    assertTrue(text.contains("TAKEN AS MISSING"), text);
    assertTrue(text.contains("Natural     1: 16\n"), text);
  }

  @Test
  void everyFaultOfEveryFileIsReportedAtOnce() throws IOException {
    String chart =
        file(
            "chart.json",
            """
            {
              "schema": "quadrille/chart/1",
              "case": "K-1",
              "numbering": "iso3950",
              "patient": { "weightKg": -1 },
              "teeth": [
                { "tooth": "19", "deposit": "hevy",
                  "facial": { "depthMm": [3, 2, 31] },
                  "lingual": { "depthMm": [3, 2, 3] } }
              ]
            }
            """);
    String practice =
        file("practice.json", "{\"schema\": \"quadrille/practice/1\", \"mintes\": {}}");
    Run run = Run.of("check", chart, "--practice", practice, "--format", "json");
    assertEquals(Status.FILE, run.status());
    assertEquals("", run.out());
    Golden.check("faults.txt", run.err().replace(folder + "/", ""));
  }

  @Test
  void workThatNoInsertMayDoIsNamed() throws IOException {
    String practice =
        file(
            "bare.json",
            """
            {"schema": "quadrille/practice/1", "inserts": {"sleeved for implants": null}}
            """);
    Run run = Run.of("check", Golden.demo("implants-both-sides.json"), "--practice", practice);
    assertEquals(Status.REFUSED, run.status());
    assertEquals("", run.out());
    assertTrue(
        run.err()
            .startsWith(
                "No insert of the practice may do some of the work.\nUR posterior, implant-care, both (16): "),
        run.err());
    assertFalse(run.err().contains("fine"), run.err());
  }
}
