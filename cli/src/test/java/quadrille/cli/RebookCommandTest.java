package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.diary.file.DiaryFile;
import quadrille.document.InvalidDocumentException;

/** Changes of the demo diary. */
final class RebookCommandTest extends AtTheDesk {

  @Test
  void wholeAnswer() throws IOException {
    String before = Files.readString(diary);
    Run run = rebook("--closed", "2026-03-16", "--away", "ines@2026-03-19");
    // One visit of 90 minutes finds no place within its gap.
    assertEquals(Status.REFUSED, run.status());
    String text = run.out();
    Golden.check("rebook.txt", text);
    Golden.checkWidth(text);
    assertEquals(before, Files.readString(diary));
  }

  @Test
  void wholeAnswerAsJson() {
    Golden.check("rebook.json", rebook("--cancelled", "DEMO-201/3", "--format", "json").done());
  }

  @Test
  void writtenDiaryPassesItsAudit() throws IOException, InvalidDocumentException {
    Run run = rebook("--away", "ines@2026-03-05", "--write");
    assertEquals("", run.err());
    assertTrue(run.out().endsWith("it has passed its audit.\n"), run.out());
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(diary)));
  }

  @Test
  void wrongUsageIsSaid() {
    assertWrong("rebook: say what has changed: --cancelled, --missed, --away or --closed.");
    assertWrong("--cancelled: no booking \"X/1\" stands in the diary.", "--cancelled", "X/1");
    assertWrong(
        "--cancelled: no booking \"X/1\" stands in the diary.\n"
            + "--missed: no booking \"X/2\" stands in the diary.",
        "--missed",
        "X/2",
        "--cancelled",
        "X/1");
    assertWrong(
        "--cancelled and --missed: name a booking twice.",
        "--cancelled",
        "DEMO-201/3",
        "--missed",
        "DEMO-201/3");
    assertWrong(
        "--away: is \"x@2026-03-10\"; a clinician and days are allowed, such as"
            + " hanna@2026-03-10/2026-03-12.",
        "--away",
        "x@2026-03-10");
    assertWrong(
        "--closed: is \"now\"; 2026-03-05 or 2026-03-05/2026-03-12 are allowed.",
        "--closed",
        "now");
  }

  private void assertWrong(String message, String... options) {
    Run run = rebook(options);
    assertEquals(Status.USAGE, run.status(), run.err());
    assertEquals(message + "\n", run.err());
  }
}
