package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class ReassessCommandTest {
  @TempDir private Path folder;

  /** Every site from 4 mm on two shallower, and none bleeding. */
  private String healed() throws IOException {
    String text = Files.readString(Path.of(Golden.demo("moderate.json")));
    String healed =
        text.replaceAll("\"bleeding\": \\[[^\\]]*\\]", "\"bleeding\": [false, false, false]");
    for (int mm = 4; mm <= 12; mm++) {
      // A reading has three sites; each pass changes one of them.
      for (int site = 0; site < 3; site++) {
        healed = healed.replaceAll("(depthMm\": \\[[^\\]]*)\\b" + mm + "\\b", "$1" + (mm - 2));
      }
    }
    Path file = folder.resolve("after.json");
    Files.writeString(file, healed);
    return file.toString();
  }

  /** One ring each; and no page for a patient while the charts are in doubt. */
  @Test
  void pagesForTheClinicianAndThePatientShowBothRings() throws Exception {
    String before = Golden.demo("moderate.json");
    String both = Run.of("reassess", "--format=html", before, healed()).done();
    assertEquals(5, both.split("class=\"depth-ring\"").length);
    assertTrue(both.contains("Your gums, before and after"));
    String german =
        Run.of("reassess", "--format=html", "--page=patient", "--language=de", before, healed())
            .done();
    assertEquals(3, german.split("class=\"depth-ring\"").length);
    assertTrue(german.contains("<html lang=\"de\">") && german.contains("vorher und nachher"));
    Run twice = Run.of("reassess", "--format=html", "--page=patient", before, before);
    assertEquals(Status.REFUSED, twice.status());
    assertTrue(twice.err().contains("is it one chart twice?"), twice.err());
    String clinician = Run.of("reassess", "--format=html", before, before).out();
    assertTrue(
        clinician.indexOf("is it one chart twice?") < clinician.indexOf("class=\"depth-ring\""));
    assertFalse(clinician.contains("id=\"patient\""));
    assertEquals(Status.USAGE, Run.of("reassess", "--page=patient", before, healed()).status());
  }

  @Test
  void wholeOutputsAreKept() throws Exception {
    String text = Run.of("reassess", Golden.demo("moderate.json"), healed()).done();
    Golden.checkWidth(text);
    Golden.check("reassess-moderate.txt", text);
    Golden.check(
        "reassess-moderate.json.txt",
        Run.of("reassess", "--format=json", Golden.demo("moderate.json"), healed()).done());
  }

  @Test
  void chartsThatLookSwappedAreDoubted() throws Exception {
    String moderate = Golden.demo("moderate.json");
    String healed = healed();
    Run swapped = Run.of("reassess", healed, moderate);
    assertEquals(Status.DONE, swapped.status());
    assertTrue(swapped.err().contains("deeper on average afterwards"), swapped.err());
    String shown = swapped.out().replaceAll("\\s+", " ");
    assertTrue(shown.contains("are the two swapped?"), swapped.out());
    Golden.checkWidth(swapped.out());

    Path later = folder.resolve("later.json");
    Files.writeString(
        later, Files.readString(Path.of(healed)).replace("\"2026-03-03\"", "\"2026-06-08\""));
    assertEquals("", Run.of("reassess", moderate, later.toString()).err());
    Run older = Run.of("reassess", "--format=json", later.toString(), moderate);
    assertTrue(
        older
            .out()
            .contains(
                "The chart after (2026-03-03) is older than the chart before (2026-06-08); are the two"
                    + " swapped?"),
        older.out());
    assertTrue(older.out().contains("\"beforeCharted\": \"2026-06-08\""), older.out());
    assertTrue(older.err().contains("are the two swapped?"), older.err());
  }

  @Test
  void theResidualChartCanBePlanned() throws Exception {
    String chart = Golden.demo("moderate.json");
    String residual = folder.resolve("residual.json").toString();
    Run run = Run.of("reassess", chart, chart, "-o", residual);
    assertEquals(Status.DONE, run.status(), run.err());
    assertTrue(run.err().contains("no record of the mouth"), run.err());
    String plan = Run.of("plan", residual, "--visits", "2", "--effort", "quick").done();
    assertTrue(plan.startsWith("Course for DEMO-moderate, residual sites only"), plan);
  }

  @Test
  void noChartIsWrittenWhereNothingIsResidual() throws Exception {
    String healthy =
        """
        {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "iso3950", "patient": {},
         "teeth": [{"tooth": "11", "deposit": "none", "facial": {"depthMm": [2, 2, 2]},
                    "lingual": {"depthMm": [2, 2, 2]}}]}
        """;
    Path file = folder.resolve("healthy.json");
    Files.writeString(file, healthy);
    Path residual = folder.resolve("residual.json");
    Run run = Run.of("reassess", file.toString(), file.toString(), "-o", residual.toString());
    assertEquals(Status.REFUSED, run.status());
    assertFalse(Files.exists(residual));
    Run twice = Run.of("reassess", file.toString(), file.toString());
    assertEquals(
        "Both charts have the same findings at every site; is it one chart twice?\n", twice.err());
    assertEquals(Status.DONE, twice.status());
    String text = twice.out();
    assertTrue(text.contains("Maintenance is usual every 3 to at most 12 months"), text);
  }
}
