package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.render.SamplePlan;

final class KitCommandTest {

  @TempDir private Path folder;

  private String plan = "";

  @BeforeEach
  void writeAPlan() throws IOException {
    plan = file("plan.json", SamplePlan.text());
  }

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  @Test
  void wholeAnswer() {
    String text = Run.of("kit", plan).done();
    Golden.check("kit.txt", text);
    Golden.checkWidth(text);
  }

  @Test
  void wholeAnswerAsJson() {
    Golden.check("kit.json", Run.of("kit", plan, "--format", "json").done());
  }

  @Test
  void dayNamesOneVisitOfEachPlan() throws IOException {
    String other = file("other.json", SamplePlan.text().replace("K-1042", "K-2000"));
    String text = Run.of("kit", plan, other, "--visit", "2,1").done();
    assertTrue(text.startsWith("K-1042, visit 2: "), text);
    assertTrue(text.contains("\nK-2000, visit 1: "), text);
    assertTrue(text.contains("\nTogether, 2 visits\n"), text);
    String both = Run.of("kit", plan, other, "--visit", "1").done();
    assertTrue(both.startsWith("K-1042, visit 1: "), both);
    assertTrue(both.contains("\nK-2000, visit 1: "), both);
  }

  @Test
  void practiceSaysWhatIsShort() throws IOException {
    String practice =
        file(
            "practice.json",
            """
            {"schema": "quadrille/practice/1",
             "inserts": {"slim curved right": {"sterileSets": 1}}}
            """);
    String text = Run.of("kit", plan, plan, plan, "--visit=1", "--practice", practice).done();
    assertTrue(
        text.lines()
            .anyMatch(line -> line.endsWith(" 3  Insert slim curved right, 1 ready, short by 2")),
        text);
  }

  @Test
  void insertThatTheTrayLacksIsListedAndSaid() throws IOException {
    String lacking =
        file(
            "lacking.json",
            SamplePlan.text()
                .replaceFirst("\"tray\": \\[[^\\]]*\\]", "\"tray\": [\"slim curved right\"]"));
    Run run = Run.of("kit", lacking, "--visit=1");
    assertEquals(Status.DONE, run.status());
    assertEquals(
        lacking + ": visit 1 uses standard bent, which its tray lacks; it is listed here.\n",
        run.err());
    assertTrue(run.out().contains("slim curved right; standard bent"), run.out());
  }

  @Test
  void visitThatThePlanLacksIsWrongUsage() {
    Run run = Run.of("kit", plan, "--visit=7");
    assertEquals(Status.USAGE, run.status());
    assertEquals("--visit: " + plan + " has no visit 7; it has 1, 2.\n", run.err());
    Run many = Run.of("kit", plan, "--visit=1,2");
    assertEquals(Status.USAGE, many.status());
    assertEquals(
        "--visit: names 2 visits for 1 plan; give one number, or one for each plan.\n", many.err());
  }

  @Test
  void everyBrokenPlanIsReportedAtOnce() throws IOException {
    String one = file("one.json", "{}");
    String two = file("two.json", "[");
    Run run = Run.of("kit", one, two);
    assertEquals(Status.FILE, run.status());
    assertEquals("", run.out());
    assertTrue(run.err().contains(one), run.err());
    assertTrue(run.err().contains(two), run.err());
  }
}
