package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.Journal;
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
    assertTrue(said.startsWith("Change 1, "), said);
    assertTrue(
        said.replaceAll("\\s+", " ").contains("Ines: called off (the patient is ill: has a cold)"),
        said);
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
  void theJournalTellsOtherProgramsWhoWasToInject() throws IOException, InvalidDocumentException {
    Diary read = read();
    List<Booking> bookings = new ArrayList<>(read.bookings());
    bookings.replaceAll(
        one ->
            one.id().equals("DEMO-201/3")
                ? one.at(
                    one.start(),
                    one.clinician(),
                    one.chair(),
                    List.of(new InjectorCall("hanna", 10, 20)))
                : one);
    Files.writeString(diary, DiaryWriter.write(read.withBookings(bookings)));
    verb("call-off", "DEMO-201/3", "--because=patient-ill").done();
    String journal = verb("diary", "--journal", "--format=json").done();
    assertTrue(journal.contains("\"injections\""), journal);
  }

  @Test
  void bookedAndRebookedStandInTheJournal() throws IOException, InvalidDocumentException {
    String before = DiaryWriter.writeWithoutJournal(read());
    assertEquals(Status.DONE, book("--take=1", "--by=Hanna").status());
    assertEquals(Status.DONE, rebook("--cancelled=DEMO-201/3", "--write", "--by=Hanna").status());
    assertEquals(
        List.of(Deed.BOOK, Deed.REBOOK), read().journal().stream().map(JournalEntry::did).toList());
    assertTrue(verb("diary", "--journal", "--case=K-1041").err().contains("nor journal"));
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
    // What the file could not hold.
    for (String to :
        List.of("2026-03-12T14:00:30", "2026-03-12T14:00+01:00:30", "+12026-03-12T14:00")) {
      assertEquals(Status.USAGE, verb("move", "DEMO-201/3", "--to=" + to).status(), to);
      assertEquals(Status.USAGE, verb("hold", "DEMO-201/3", "--until=" + to).status(), to);
    }
    assertEquals(Status.USAGE, verb("done", "DEMO-201/3", "--by=\u00a0").status());
    assertEquals(before, Files.readString(diary));
  }

  /** A note that stands on no command line. */
  @Test
  void aNoteIsReadFromStandardInput() throws Exception {
    Run run =
        Run.withInput(
            "has a cold\n",
            "call-off",
            diary.toString(),
            "DEMO-201/3",
            "--because=patient-ill",
            "--note=-");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals("has a cold", Journal.last(read()).orElseThrow().note());
    assertEquals(
        "--note: a text of 1 to 200 characters on one line is allowed.\n",
        Run.withInput("a\nb\n", "undo", diary.toString(), "--note=-").err());
    assertEquals(
        "Only one file can be read from standard input (-).\n",
        Run.withInput(
                Files.readString(Path.of(plan)),
                "book",
                "-",
                "--diary=" + diary,
                "--from=2026-03-02",
                "--take=1",
                "--note=-")
            .err());
  }

  /** By a diary of before there was a key: made once, kept, and the same names ever after. */
  @Test
  void theNamesOfWhatIsExportedStayTheSame() throws Exception {
    assertEquals(null, read().exportKey());
    String first = folder.resolve("first").toString();
    String second = folder.resolve("second").toString();
    verb("diary", "--export=" + first);
    String key = read().exportKey();
    assertTrue(key != null && key.length() == 32, key);
    verb("call-off", "DEMO-201/3", "--because=patient-ill");
    verb("undo").done();
    assertEquals(key, read().exportKey());
    verb("diary", "--export=" + second);
    try (Stream<Path> events = Files.list(folder.resolve("first/events"));
        Stream<Path> again = Files.list(folder.resolve("second/events"))) {
      assertEquals(
          events.map(Path::getFileName).sorted().toList(),
          again.map(Path::getFileName).sorted().toList());
    }
  }

  @Test
  void whoCouldComeSoonerIsToldOnlyWhereItIsAsked() {
    assertEquals(
        """
        Could come in the time that is free now; ask first:
        DEMO-203, visit 1: has no time yet, and will have waited 20 days; could come Thu 19 Mar 2026 09:00.
        """,
        verb("call-off", "DEMO-201/3", "--because=patient-ill", "--sooner")
            .err()
            .replace('\u00a0', ' '));
  }

  @Test
  void everythingIsExportedAtAnyTime() throws IOException {
    String export = folder.resolve("export").toString();
    Run run = verb("diary", "--export=" + export);
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(
        diary
            + ": has a key now, by which what is exported is named.\nWrote 15 files to "
            + export
            + ".\n",
        run.err());
    Path card = folder.resolve("export/courses/DEMO-201/card.txt");
    String text = Files.readString(card);
    assertTrue(text.contains("Thursday 5 March 2026, 14:00\n"), text);
    // A part is missing, as after a kill: it is made again, and nothing else is touched.
    Files.delete(card);
    assertEquals("Wrote 1 file to " + export + ".\n", verb("diary", "--export=" + export).err());
    assertEquals(text, Files.readString(card));
    verb("call-off", "DEMO-201/3", "--because=patient-ill").done();
    assertEquals(Status.USAGE, verb("diary", "--export=" + export).status());
    assertEquals(Status.DONE, verb("diary", "--export=" + export, "--force").status());
    String practice = Files.readString(folder.resolve("export/practice.ics"));
    assertEquals(1, practice.split("STATUS:CANCELLED", -1).length - 1, practice);
    try (Stream<Path> events = Files.list(folder.resolve("export/events"))) {
      for (Path event : events.toList()) {
        String one = Files.readString(event);
        assertEquals(2, one.split("BEGIN:VEVENT", -1).length, one);
        assertTrue(!one.contains("METHOD:"), one);
      }
    }
  }

  @Test
  void whatWasTakenBackIsToldAsCalledOff() throws IOException {
    assertEquals(Status.DONE, book("--take=1").status());
    verb("undo").done();
    String export = folder.resolve("export").toString();
    assertEquals(Status.DONE, verb("diary", "--export=" + export).status());
    String practice = Files.readString(folder.resolve("export/practice.ics"));
    String gone = practice.substring(practice.indexOf("STATUS:CANCELLED"));
    assertTrue(gone.contains("SUMMARY:K-1042 visit 1"), practice);
    assertTrue(practice.contains("SEQUENCE:3"), practice);
    // The patient is told too, though their course was taken back with its visits.
    String patient = Files.readString(folder.resolve("export/courses/K-1042/appointments.ics"));
    assertTrue(patient.contains("STATUS:CANCELLED"), patient);
    // Booked again, it is another event: a calendar keeps the one that it was told is off.
    assertEquals(Status.DONE, book("--take=1").status());
    assertTrue(Files.readString(diary).contains("\"id\": \"K-1042/1/2\""));
  }

  @Test
  void whomToCallAndWhen() {
    String calls = verb("diary", "--calls=14").done();
    assertTrue(calls.startsWith("Friday 27 February 2026\n"), calls);
    assertTrue(calls.contains("DEMO-203, visit 1: has no time yet."), calls);
    Golden.checkWidth(calls);
    assertTrue(
        verb("diary", "--calls", "--format=json").done().contains("\"purpose\": \"remind\""));
    assertEquals(Status.USAGE, verb("diary", "--calls=0").status());
    assertEquals(Status.USAGE, verb("diary", "--calls", "--journal").status());
    assertEquals(Status.USAGE, verb("diary", "--case=X").status());
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
    Run coming = verb("forget", "DEMO-201", "--file=" + log);
    assertEquals(Status.USAGE, coming.status());
    assertTrue(coming.err().contains("DEMO-201/2, DEMO-201/3 are still to come"), coming.err());
    verb("end", "DEMO-201", "--because=patient-asked").done();
    // Neither the diary nor its calendar is a patient's file.
    for (String file : List.of("diary.json", "hanna.ics")) {
      Run kept = verb("forget", "DEMO-201", "--file=" + folder.resolve(file));
      assertEquals(Status.USAGE, kept.status(), kept.err());
      assertTrue(Files.exists(folder.resolve(file)));
    }
    Run run = verb("forget", "DEMO-201", "--file=" + log);
    assertEquals(Status.DONE, run.status(), run.err());
    assertTrue(!Files.exists(log));
    assertTrue(!Files.readString(diary).contains("DEMO-201"));
  }
}
