package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.course.PlanReader;

final class PlanCommandTest {

  private static final String MILD = Golden.demo("mild-one-visit.json");
  private static final String TOO_FEW = Golden.demo("too-few-visits.json");

  @TempDir private Path folder;

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  @ParameterizedTest
  @ValueSource(strings = {"typical", "mild-one-visit", "weight-missing", "universal-numbering"})
  void wholeAnswer(String name) {
    String text = Run.kept("plan", Golden.demo(name + ".json")).done();
    Golden.check("plan-" + name + ".txt", text);
    Golden.checkWidth(text);
  }

  @Test
  void wholeAnswerAsJson() throws InvalidDocumentException {
    String json = Run.kept("plan", "--format", "json", MILD).done();
    Golden.check("plan-mild-one-visit.json", json);
    assertEquals(1, PlanReader.read("plan", json).course().visits().size());
  }

  @Test
  void explanationFollowsThePlan() {
    String plain = Run.of("plan", MILD, "--visits", "2").done();
    String explained = Run.of("plan", MILD, "--visits", "2", "--explain").done();
    Golden.check("plan-mild-one-visit-explained.txt", explained);
    Golden.checkWidth(explained);
    assertTrue(explained.startsWith(plain.substring(0, plain.indexOf("What the numbers"))));
    assertTrue(explained.contains("\nCost in minutes of chair time\n"), explained);
    assertTrue(explained.contains("\nUR posterior\n- in visit "), explained);
  }

  @Test
  void explanationOfAJsonPlanIsAMessage() {
    String json = Run.kept("plan", "--format", "json", MILD).done();
    Run run = Run.of("plan", "--format", "json", "--explain", MILD);
    assertEquals(json, run.out());
    assertTrue(run.err().startsWith("Cost in minutes of chair time\n"), run.err());
  }

  @Test
  void planFileIsJsonAndPassesItsAudit() throws IOException {
    Run run = Run.of("plan", MILD, "-o", path("plan.json"));
    assertEquals(Status.DONE, run.status());
    assertEquals("", run.out());
    assertEquals("Wrote " + path("plan.json") + ": 1 visit, 50 min booked.\n", run.err());
    assertEquals(
        Run.kept("plan", "--format", "json", MILD).done(),
        Files.readString(folder.resolve("plan.json")));
    String audited = Run.of("audit", path("plan.json"), "--chart", MILD).done();
    assertTrue(audited.startsWith(path("plan.json") + ": nothing found."), audited);
  }

  /** As it was asked for: it passes its audit, which says so, and each sheet names open areas. */
  @Test
  void takesTheGrossPassOfTheWholeMouthFirstWhereThatIsAskedFor() throws IOException {
    String typical = Golden.demo("typical.json");
    Run made = Run.of("plan", typical, "--gross-first", "--effort=quick", "-o", path("first.json"));
    assertEquals(Status.DONE, made.status(), made.err());
    String audited =
        Run.of("audit", path("first.json"), "--chart", typical).done().replaceAll("\\s+", " ");
    assertTrue(audited.contains("takes the gross pass of the whole mouth first"), audited);
    assertTrue(audited.contains("nothing found."), audited);
    String read = Files.readString(folder.resolve("first.json"));
    assertTrue(read.contains("\"grossFirst\": true"), read);
    assertTrue(read.contains("\"caution\": \"left-open\""), read);
    assertFalse(read.contains("finishWithin"), "no limit is set");
  }

  @Test
  void changedPlanFileDoesNotPassItsAudit() throws IOException {
    String json = Run.kept("plan", "--format", "json", MILD).done();
    String changed = json.replace("\"bookedMinutes\": 50", "\"bookedMinutes\": 40");
    assertFalse(changed.equals(json));
    Run run = Run.of("audit", file("changed.json", changed), "--chart", MILD);
    assertEquals(Status.REFUSED, run.status());
    assertTrue(run.out().contains("visit 1: "), run.out());
  }

  @Test
  void textCanGoToAFileToo() throws IOException {
    Run.of("plan", MILD, "-o", path("plan.txt"), "--format", "text");
    assertEquals(Run.kept("plan", MILD).done(), Files.readString(folder.resolve("plan.txt")));
  }

  @Test
  void existingFileIsRefusedBeforeAnyWork() throws IOException {
    file("plan.json", "mine");
    Run run = Run.of("plan", path("no-such-chart.json"), "-o", path("plan.json"));
    assertEquals(Status.USAGE, run.status());
    assertEquals(path("plan.json") + ": exists already; --force overwrites it.\n", run.err());
    assertEquals("mine", Files.readString(folder.resolve("plan.json")));
  }

  @Test
  void chartIsNeverOverwrittenByItsPlan() throws IOException {
    String chart = file("chart.json", Files.readString(Path.of(MILD)));
    Run run = Run.of("plan", chart, "-o", chart, "--force");
    assertEquals(Status.USAGE, run.status());
    assertEquals(chart + ": is read by this command and cannot be its output.\n", run.err());
    assertEquals(Files.readString(Path.of(MILD)), Files.readString(Path.of(chart)));
  }

  @Test
  void brokenChartWritesNothing() throws IOException {
    String chart = file("chart.json", "{\"schema\": \"quadrille/chart/1\"}");
    Run run = Run.of("plan", chart, "-o", path("plan.json"));
    assertEquals(Status.FILE, run.status());
    assertEquals("", run.out());
    assertFalse(Files.exists(folder.resolve("plan.json")));
  }

  @Test
  void whereThereIsNoPlanItSaysWhyAndWhatWouldHelp() {
    Run run = Run.of("plan", TOO_FEW, "--visits", "2", "-o", path("plan.json"));
    assertEquals(Status.REFUSED, run.status());
    assertEquals("", run.out());
    Golden.check("no-plan.txt", run.err());
    Golden.checkWidth(run.err());
    assertFalse(Files.exists(folder.resolve("plan.json")), "nothing that looks like a plan");
  }

  @Test
  void whereAllWorkWaitsForTheHistoryNothingElseIsSaidToHelp() throws IOException {
    String chart =
        file(
            "deep.teeth",
            "case C06\nnumbering iso3950\nage 45 weight 70\n"
                + "46 heavy f1 | 7b 5b 7b | 7b 5b 7b\n");
    Run run = Run.of("plan", chart);
    assertEquals(Status.REFUSED, run.status());
    assertTrue(run.err().contains("Take the history first and plan again"), run.err());
    assertFalse(run.err().contains("No single change"), run.err());
  }

  @Test
  void noPlanAsJson() {
    Run run = Run.of("plan", "--format", "json", TOO_FEW, "--visits", "2", "--effort=quick");
    assertEquals(Status.REFUSED, run.status());
    Golden.check("no-plan.json", run.out());
    assertTrue(run.err().startsWith("No plan keeps every hard rule."), run.err());
  }

  @Test
  void wishesAreKeptPricedAndAudited() throws IOException {
    Run run =
        Run.of(
            "plan", MILD, "--visits", "2", "--format", "json", "--wish", "must UR in visit 2 of 2");
    String plan = run.done();
    assertTrue(plan.contains("\"wish\": \"in-visit\""), plan);
    assertTrue(plan.contains("\"state\": \"kept\""), plan);
    assertTrue(plan.contains("\"priceSeconds\": "), plan);
    String text = Run.of("plan", MILD, "--visits", "2", "--wish", "rather UR in 2").done();
    assertTrue(text.contains("\nWishes\n- Rather UR in visit 2: "), text);
  }

  @Test
  void faultsOfWishesAreToldAllAtOnceInTheirOwnTerms() {
    Run run =
        Run.of(
            "plan",
            MILD,
            "--wish",
            "must UR posteror in 13",
            "--wish",
            "rather not slim stright",
            "--wish",
            "must UR in 1 of 2",
            "--wish",
            "must UL in 1 of 3");
    assertEquals(Status.USAGE, run.status());
    for (String said :
        List.of(
            "found \"posteror\"",
            "Did you mean \"posterior\"?",
            "found \"13\"; allowed: the number of a visit, 1 to 12",
            "Did you mean \"slim straight\"?",
            "another number of visits than")) {
      assertTrue(run.err().contains(said), said + " in " + run.err());
    }
  }

  @Test
  void styleIsForTheTerminalOnly() {
    String plain = Run.kept("plan", MILD).done();
    String styled = Run.onTerminal("plan", MILD).done();
    assertFalse(plain.contains("\u001b"));
    assertTrue(styled.contains("\u001b[1mAt a glance\u001b[0m\n"), styled);
    assertEquals(plain, styled.replaceAll("\u001b\\[[01]m", ""));
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "13", "4-2", "2-", "-1", "two", "1-99", "1,2", "99999999999"})
  void visitsOutOfBoundsAreWrongUsage(String visits) {
    Run run = Run.of("plan", MILD, "--visits=" + visits);
    assertEquals(Status.USAGE, run.status());
    assertEquals(
        "Invalid value for option '--visits': \""
            + visits
            + "\" is neither a number of visits, such as 3, nor a range, such as 2-4,"
            + " within 1 to 12\nSee quadrille plan --help.\n",
        run.err());
  }

  @Test
  void mouthWithNothingDueIsSaid() throws IOException {
    String chart =
        file(
            "healthy.json",
            """
            {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "iso3950",
             "patient": {"ageYears": 30, "weightKg": 70, "alerts": []},
             "teeth": [{"tooth": "11", "deposit": "none", "facial": {"depthMm": [2, 2, 2]},
                        "lingual": {"depthMm": [2, 2, 2]}}]}
            """);
    String text = Run.of("plan", chart).done();
    assertTrue(text.contains("\nNo work is due by the practice's rules"), text);
  }

  @Test
  void pagesAreWrittenForEachReader() throws IOException {
    String all = Run.of("plan", MILD, "--format", "html", "--effort=quick").done();
    assertTrue(all.startsWith("<!DOCTYPE html>"), all);
    String file = path("desk.html");
    Run one =
        Run.of(
            "plan",
            MILD,
            "--effort=quick",
            "--format=html",
            "--page=desk",
            "--language=de",
            "-o",
            file);
    assertEquals(Status.DONE, one.status());
    String desk = Files.readString(Path.of(file));
    assertTrue(desk.contains("id=\"desk\""));
    assertFalse(desk.contains("id=\"chairside\""));
    assertTrue(desk.contains("Bringen Sie eine Liste Ihrer Medikamente mit."));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--page=wall|is neither chairside nor desk nor patient",
        "--language=xx|is none of the languages: en, de",
      })
  void unknownPageOrLanguageIsWrongUsage(String option, String says) {
    Run run = Run.of("plan", MILD, "--format=html", option);
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains(says), run.err());
  }

  @Test
  void pagesAreForHtmlAndHtmlIsForSomeCommands() {
    Run page = Run.of("plan", MILD, "--page=desk");
    assertEquals(Status.USAGE, page.status());
    assertEquals("--page and --language: go with --format html.\n", page.err());
    Run check = Run.of("check", MILD, "--format=html");
    assertEquals(Status.USAGE, check.status());
    assertEquals("--format html: is not for this command; text and json are.\n", check.err());
  }
}
