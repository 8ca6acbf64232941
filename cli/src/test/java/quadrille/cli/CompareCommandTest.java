package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class CompareCommandTest {

  private static final String MILD = Golden.demo("mild-one-visit.json");
  private static final String TOO_FEW = Golden.demo("too-few-visits.json");

  @TempDir private Path folder;

  @Test
  void wholeAnswer() {
    String text = Run.of("compare", MILD, "--visits", "1-3").done();
    Golden.check("compare-mild-one-visit.txt", text);
    Golden.checkWidth(text);
  }

  @Test
  void wholeAnswerAsJson() {
    String json =
        Run.of("compare", MILD, "--visits", "1-2", "--one-day", "--format", "json").done();
    Golden.check("compare-mild-one-visit.json", json);
  }

  @Test
  void comparisonAsAPage() {
    String page = Run.of("compare", MILD, "--visits=1-2", "--effort=quick", "--format=html").done();
    assertTrue(page.startsWith("<!DOCTYPE html>"), page);
    assertTrue(page.contains("Visits compared"), page);
  }

  @Test
  void whereNothingIsPossibleTheTableSaysWhy() {
    Run run = Run.of("compare", TOO_FEW, "--visits", "1", "--longest", "50");
    assertEquals(Status.REFUSED, run.status());
    assertEquals("", run.err());
    Golden.check("compare-not-possible.txt", run.out());
    Golden.checkWidth(run.out());
  }

  @Test
  void figuresAreThoseOfThePlanOfThatManyVisits() throws IOException {
    JsonNode row =
        new ObjectMapper()
            .readTree(
                Run.of("compare", MILD, "--visits=2-3", "--effort=quick", "--format=json").done())
            .at("/groups/0/choices/1");
    JsonNode plan =
        new ObjectMapper()
            .readTree(Run.of("plan", MILD, "--visits=3", "--effort=quick", "--format=json").done());
    assertEquals(3, row.get("visits").asInt());
    for (String total : new String[] {"bookedMinutes", "tipChanges", "injections", "cartridges"}) {
      assertEquals(plan.get("totals").get(total), row.get(total), total);
    }
    assertEquals(
        plan.at("/totals/chairMinutes").asDouble(), row.get("chairMinutes").asDouble(), 1e-9);
    assertEquals(plan.at("/cost/seconds"), row.get("costSeconds"));
  }

  @Test
  void theUsualSettingsAreChangedOneAtATimeInOneTable() throws IOException {
    String[] asked = {"compare", MILD, "--visits=1-2", "--effort=quick", "--settings"};
    String text = Run.of(asked).done();
    Golden.checkWidth(text);
    String table = text.substring(text.indexOf("What if, one thing changed"));
    for (String setting :
        new String[] {
          "at most 60 min", "front across", "gross pass", "90 of 100", "needle-averse"
        }) {
      assertTrue(table.contains(setting), setting);
    }
    // The practice books 90 minutes at most as it is: no row says so again.
    assertFalse(table.contains("at most 90 min"), table);

    Path saved = folder.resolve("settings.json");
    String[] toFile = Arrays.copyOf(asked, asked.length + 2);
    toFile[asked.length] = "-o";
    toFile[asked.length + 1] = saved.toString();
    assertEquals(Status.DONE, Run.of(toFile).status());
    JsonNode groups = new ObjectMapper().readTree(Files.readString(saved)).get("groups");
    assertEquals(10, groups.size());
    assertTrue(groups.get(9).at("/conditions/needleAverse").asBoolean());
    String page = Run.of("page", saved.toString(), "--chart", MILD).done();
    assertTrue(page.contains("What if, one thing changed at a time"), page);
  }

  @Test
  void everyWhatIfCombinesToOneMoreTable() {
    String text =
        Run.of(
                "compare",
                MILD,
                "--visits=2",
                "--effort=quick",
                "--longest=60",
                "--without-insert",
                "broad flat",
                "--agent",
                "mepivacaine-3",
                "--certainty",
                "0.9",
                "--gross-first",
                "--one-day")
            .done();
    assertTrue(
        text.replaceAll("\\s+", " ")
            .contains(
                "What if: visits of at most 60 min; without broad flat; mepivacaine-3 first; 90 of"
                    + " 100 visits end in time; gross pass of the whole mouth first; all within"
                    + " 24 h"),
        text);
    Golden.checkWidth(text);
  }

  @Test
  void everyFaultOfAWhatIfIsNamedAtOnce() {
    Run run =
        Run.of(
            "compare",
            MILD,
            "--longest=5",
            "--without-insert=spoon",
            "--agent=cocoa",
            "--certainty=2");
    assertEquals(Status.USAGE, run.status());
    assertEquals("", run.out());
    assertTrue(run.err().startsWith("longest visit 5: must be 10 to 480 minutes\n"), run.err());
    assertTrue(run.err().contains("\ninsert \"spoon\": the practice has none"), run.err());
    assertTrue(run.err().contains("\nagent \"cocoa\": is not in the"), run.err());
    assertTrue(run.err().contains("\ncertainty 2.0: must be 0.001 to 0.999\n"), run.err());
  }

  @Test
  void workThatNoInsertMayDoIsSaidInItsTable() {
    Run run =
        Run.of(
            "compare",
            Golden.demo("implants-both-sides.json"),
            "--visits=2",
            "--effort=quick",
            "--without-insert=sleeved for implants");
    assertEquals(Status.DONE, run.status());
    assertTrue(run.out().contains("not possible: "), run.out());
    assertTrue(run.out().contains("implant-care"), run.out());
  }

  @Test
  void mouthWithNothingDueIsSaid() throws IOException {
    String chart =
        Files.writeString(
                folder.resolve("healthy.json"),
                """
                {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "iso3950",
                 "patient": {"ageYears": 30, "weightKg": 70, "alerts": []},
                 "teeth": [{"tooth": "11", "deposit": "none", "facial": {"depthMm": [2, 2, 2]},
                            "lingual": {"depthMm": [2, 2, 2]}}]}
                """)
            .toString();
    String text = Run.of("compare", chart).done();
    assertTrue(text.contains("- Nothing is due, so there is nothing to compare.\n"), text);
    assertFalse(text.contains("Chair"), text);
  }
}
