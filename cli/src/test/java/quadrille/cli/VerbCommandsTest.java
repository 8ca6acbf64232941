package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Deed;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.JournalEntry;
import quadrille.document.InvalidDocumentException;

/** The desk's verbs on the demo diary. */
final class VerbCommandsTest extends AtTheDesk {

  private Run verb(String verb, String... more) {
    List<String> all = new ArrayList<>(List.of(verb, diary.toString()));
    all.addAll(List.of(more));
    return Run.of(all.toArray(String[]::new));
  }

  private BookingStatus status(String id) throws IOException, InvalidDocumentException {
    return read().booking(id).orElseThrow().status();
  }

  @Test
  void calledOffAndTakenBack() throws IOException, InvalidDocumentException {
    String before = DiaryWriter.writeWithoutJournal(read());
    String said =
        verb("call-off", "DEMO-201/3", "--because=patient-ill", "--note=has a cold", "--by=Ines")
            .done();
    assertTrue(said.startsWith("1, "), said);
    assertTrue(said.contains("Ines: called off (the patient is ill: has a cold)"), said);
    assertEquals(BookingStatus.CANCELLED, status("DEMO-201/3"));
    verb("undo").done();
    assertEquals(before, DiaryWriter.writeWithoutJournal(read()));
    String journal = verb("diary", "--journal", "--case=DEMO-201").done();
    assertTrue(journal.contains("Desk: took back change 1"), journal);
    Golden.checkWidth(journal);
    assertTrue(verb("diary", "--journal", "--format=json").done().contains("\"undoes\": 1"));
    Run none = verb("undo");
    assertEquals("The journal tells of no change that can be taken back.\n", none.err());
  }

  @Test
  void bookedAndRebookedStandInTheJournal() throws IOException, InvalidDocumentException {
    String before = DiaryWriter.writeWithoutJournal(read());
    assertEquals(Status.DONE, book("--take=1", "--by=Hanna").status());
    assertEquals(Status.DONE, rebook("--cancelled=DEMO-201/3", "--write", "--by=Hanna").status());
    assertEquals(
        List.of(Deed.BOOK, Deed.REBOOK), read().journal().stream().map(JournalEntry::did).toList());
    verb("undo").done();
    verb("undo").done();
    assertEquals(before, DiaryWriter.writeWithoutJournal(read()));
  }

  @Test
  void offerIsHeldUntilATime() throws IOException, InvalidDocumentException {
    Run run = book("--take=1", "--hold-until=2026-03-01T12:00");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(BookingStatus.HELD, status("K-1042/1"));
    verb("promise", "K-1042/1").done();
    assertEquals(BookingStatus.PROMISED, status("K-1042/1"));
  }

  @Test
  void moveIsRefusedWithTheWaysOut() throws IOException {
    String before = Files.readString(diary);
    Run run = verb("move", "DEMO-201/3", "--to=2026-03-06T09:00");
    assertEquals(Status.REFUSED, run.status());
    assertTrue(
        run.err().startsWith("Nothing was written; the change would make this:\nDEMO-201/3: "),
        run.err());
    assertTrue(run.err().contains(" Ways out: move DEMO-201/3"), run.err());
    assertEquals(before, Files.readString(diary));
    assertEquals(Status.USAGE, verb("move", "DEMO-201/3", "--to=2026-03-29T02:30").status());
    assertTrue(
        verb("move", "DEMO-201/3", "--to=2026-10-25T02:30").err().contains("twice"), "twice");
  }

  @Test
  void wrongUsageIsSaid() {
    assertEquals(
        "No booking \"X/1\" is in the diary.\n",
        verb("call-off", "X/1", "--because=medical").err());
    assertEquals("--because: say why.\n", verb("call-off", "DEMO-201/3").err());
    assertTrue(verb("end", "X", "--because=medical").err().contains("it has DEMO-201"));
    assertTrue(verb("hold", "DEMO-201/3", "--because=x").err().startsWith("--because: is \"x\"; "));
    assertEquals(
        "--because other: say what in --note.\n", verb("end", "DEMO-201", "--because=other").err());
  }

  @Test
  void forgottenPatientIsInNoFile() throws IOException {
    Path log = Files.writeString(folder.resolve("log.ndjson"), "DEMO-201");
    Run run = verb("forget", "DEMO-201", "--file=" + log);
    assertEquals(Status.DONE, run.status(), run.err());
    assertTrue(!Files.exists(log));
    assertTrue(!Files.readString(diary).contains("DEMO-201"));
  }
}
