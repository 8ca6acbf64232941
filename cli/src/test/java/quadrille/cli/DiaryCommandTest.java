package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class DiaryCommandTest {

  private static final String NOTHING_YET =
      """
      {"schema": "quadrille/diary/1", "zone": "Europe/Rome", "startEveryMinutes": 10,
       "clinicians": [{"id": "ada", "name": "Invented Ada",
         "hours": [{"days": ["monday"], "from": "09:00", "to": "12:00"}]}],
       "chairs": [{"id": "one", "name": "Chair one"}],
       "stock": {"reprocessingMinutes": 60, "sets": []}}
      """;

  @TempDir private Path folder;

  private String file(String text) throws IOException {
    return Files.writeString(folder.resolve("diary.json"), text).toString();
  }

  @Test
  void wholeAnswer() {
    String text = Run.of("diary", Golden.demo("diary.json"), "--week", "2026-03-05").done();
    Golden.check("diary.txt", text);
    Golden.checkWidth(text);
    assertEquals(text, Run.of("diary", Golden.demo("diary.json")).done());
  }

  @Test
  void wholeAnswerAsJson() {
    Golden.check(
        "diary.json", Run.of("diary", Golden.demo("diary.json"), "--format", "json").done());
  }

  @Test
  void weekWithAChangeOfClocksAClosedDayAndAnExtraOne() {
    String text = Run.of("diary", Golden.demo("diary.json"), "--week=2026-04-11").done();
    assertTrue(!text.contains("Monday 6 April 2026\n   "), text);
    assertTrue(text.contains("\nSaturday 11 April 2026\n"), text);
    Golden.checkWidth(text);
  }

  @Test
  void weekIsNeededWhereNothingIsThere() throws IOException {
    String file = file(NOTHING_YET);
    Run run = Run.of("diary", file);
    assertEquals(Status.USAGE, run.status());
    assertEquals("--week: is needed, since nothing is in the diary yet.\n", run.err());
    String text = Run.of("diary", file, "--week", "2026-03-02").done();
    assertTrue(text.contains("\nInvented Ada    __________________\n"), text);
    assertTrue(text.endsWith("\nWhat each course needs next\nNothing.\n"), text);
  }

  @Test
  void findingsOfTheAuditGoToStandardError() throws IOException {
    String text = Files.readString(Path.of(Golden.demo("diary.json")));
    Files.copy(Path.of("../demo-data/hanna.ics"), folder.resolve("hanna.ics"));
    String narrow =
        text.replaceFirst(
            "(\"visit\": 2,\\s+\"minutes\": 90,[^{]*\\{ \"min\": 7, \"max\": )14", "$1" + 11);
    Run run = Run.of("diary", file(narrow), "--week", "2026-03-16");
    assertEquals(Status.REFUSED, run.status());
    assertTrue(
        run.err()
            .contains(
                "DEMO-202/2: 12 days after visit 1; allowed: 7 to 11 (gap). Ways out: move"
                    + " DEMO-202/2, or ask the clinician.\n"),
        run.err());
    assertTrue(run.out().startsWith("Week of Monday 16 March 2026, Europe/Rome\n"), run.out());
  }

  @Test
  void faultsOfDiaryAndCalendarsAreTold() throws IOException {
    Run broken = Run.of("diary", file("{}"));
    assertEquals(Status.FILE, broken.status());
    assertTrue(broken.err().contains("diary.json:1: found no \"zone\""), broken.err());
    String linked =
        NOTHING_YET.strip().replaceFirst("}$", ", \"calendars\": [{\"file\": \"ada.ics\"}]}");
    Run missing = Run.of("diary", file(linked), "--week", "2026-03-02");
    assertEquals(Status.FILE, missing.status());
    assertTrue(
        missing.err().contains("the calendar \"ada.ics\", which cannot be read"), missing.err());
    Files.writeString(folder.resolve("ada.ics"), "BEGIN:VCALENDAR\n");
    Run cut = Run.of("diary", file(linked), "--week", "2026-03-02");
    assertEquals(Status.FILE, cut.status());
    assertTrue(cut.err().contains("ada.ics:1: found the end of the file"), cut.err());
  }

  @Test
  void aFileThatIsNotThere() {
    Run run = Run.of("diary", folder.resolve("none.json").toString());
    assertEquals(Status.FILE, run.status());
    assertTrue(
        run.err().endsWith("none.json: cannot be read: there is no such file.\n"), run.err());
    assertEquals(Status.USAGE, Run.of("diary", "-").status());
    assertEquals(Status.FILE, Run.of("diary", folder.toString()).status());
    assertEquals(Status.USAGE, Run.of("diary", "x", "--week", "tomorrow").status());
  }

  @Test
  void pageHoldsHostileNamesAsText() throws IOException {
    String hostile = NOTHING_YET.replace("Invented Ada", "<script>alert(1)</script>");
    String html = Run.of("diary", file(hostile), "--week=2026-03-02", "--format", "html").done();
    assertTrue(
        html.contains("&lt;script>alert(1)") || html.contains("&lt;script&gt;alert(1)"), html);
    assertTrue(!html.contains("<script"), html);
  }
}
