package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import net.fortuna.ical4j.model.component.VEvent;
import org.hl7.fhir.r4.model.Appointment;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.Booking;
import quadrille.document.FileRules;
import quadrille.document.FileSteps;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** Calendars and bundles that are written beside a diary, read back by other programs. */
final class BookingFilesTest extends AtTheDesk {

  private String before = "";

  @BeforeEach
  void keep() throws IOException {
    before = Files.readString(diary);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  /** Start and end of an event, by what ical4j makes of its lines. */
  private static List<Instant> times(VEvent event) {
    return List.of(
        Instant.from(event.getDateTimeStart().getDate()),
        Instant.from(event.getDateTimeEnd().getDate()));
  }

  private static List<List<Instant>> times(List<Booking> bookings) {
    return bookings.stream().map(booking -> List.of(booking.start(), booking.end())).toList();
  }

  @Test
  void aFileThatHasChangedSinceTheCommandBeganStays() throws IOException {
    Files.writeString(folder.resolve("desk.ics"), "old");
    Files.writeString(folder.resolve("patient.ics"), "old");
    FileSteps meanwhile =
        (step, file) -> {
          if (step == FileSteps.Step.CREATE) {
            Files.writeString(folder.resolve("patient.ics"), "newer");
          }
        };
    Run run =
        Run.over(
            new FileStore(FileRules.USUAL, meanwhile),
            "book",
            plan,
            "--diary=" + diary,
            "--from=2026-03-02",
            "--take=1",
            "--ics-practice=" + path("desk.ics"),
            "--ics-patient=" + path("patient.ics"),
            "--force");
    assertEquals(Status.REFUSED, run.status(), run.err());
    assertTrue(
        run.err().contains(path("patient.ics") + ": was not written: it has been changed"),
        run.err());
    nothingIsWritten();
    assertEquals("old", Files.readString(folder.resolve("desk.ics")));
    assertEquals("newer", Files.readString(folder.resolve("patient.ics")));
  }

  private void nothingIsWritten() throws IOException {
    assertEquals(before, Files.readString(diary));
    try (var files = Files.list(folder)) {
      List<String> names = files.map(file -> file.getFileName().toString()).sorted().toList();
      assertTrue(names.stream().noneMatch(name -> name.endsWith(".part")), names.toString());
    }
  }

  @Test
  void everyFileHoldsTheVisitsThatTheDiaryHolds() throws IOException, InvalidDocumentException {
    Path practice =
        Files.writeString(
            folder.resolve("practice.json"),
            """
            {"schema": "quadrille/practice/1", "name": "Invented practice",
             "contact": {"address": "1 Invented Street", "phone": "000-1"}}
            """);
    Instant start = Run.AT_THE_DESK.instant();
    Run run =
        book(
            "--take", "2",
            "--ics-practice", path("desk.ics"),
            "--ics-patient", path("patient.ics"),
            "--fhir", path("course.json"),
            "--practice", practice.toString());
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(
        "Wrote %s.%nWrote %s.%nWrote %s.%n"
            .formatted(path("desk.ics"), path("patient.ics"), path("course.json")),
        run.err());
    List<Booking> booked =
        read().bookings().stream().filter(one -> one.caseName().equals("K-1042")).toList();
    assertEquals(2, booked.size());

    List<VEvent> desk = WrittenFiles.events(folder.resolve("desk.ics"));
    assertEquals(times(booked), desk.stream().map(BookingFilesTest::times).toList());
    assertEquals(
        "K-1042 visit 1 of 2, Ines Example, Chair 2", WrittenFiles.value(desk.get(0), "SUMMARY"));
    Instant stamp = desk.get(0).getDateTimeStamp().getDate();
    assertFalse(stamp.isBefore(start.minusSeconds(1)), stamp.toString());

    List<VEvent> patient = WrittenFiles.events(folder.resolve("patient.ics"));
    assertEquals(times(booked), patient.stream().map(BookingFilesTest::times).toList());
    for (VEvent event : patient) {
      assertEquals("Appointment", WrittenFiles.value(event, "SUMMARY"));
      assertEquals("1 Invented Street", WrittenFiles.value(event, "LOCATION"));
      assertTrue(WrittenFiles.value(event, "DESCRIPTION").startsWith("Invented practice\n"));
      assertEquals("0", WrittenFiles.value(event, "SEQUENCE"));
    }
    String text = Files.readString(folder.resolve("patient.ics")).toLowerCase(Locale.ROOT);
    for (String word : List.of("k-1042", "inject", "debride", "visit", "sterile", "periodont")) {
      assertFalse(text.contains(word), word);
    }

    List<Appointment> appointments = WrittenFiles.appointments(folder.resolve("course.json"));
    assertEquals(
        times(booked),
        appointments.stream()
            .map(one -> List.of(one.getStart().toInstant(), one.getEnd().toInstant()))
            .toList());
  }

  @Test
  void withoutAPracticeFileThePatientsNamesNone() throws IOException {
    book("--take", "1", "--ics-patient", path("patient.ics"));
    String text = Files.readString(folder.resolve("patient.ics"));
    assertFalse(text.contains("default"), text);
    assertFalse(text.contains("LOCATION"), text);
    assertEquals(2, WrittenFiles.events(folder.resolve("patient.ics")).size());
  }

  @Test
  void everybodysBookingsGoIntoThePracticesFile() throws IOException, InvalidDocumentException {
    int standing = read().bookings().size();
    Run run = book("--waiting", "--take", "1", "--ics-practice", path("desk.ics"));
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(
        read().bookings().size() - standing,
        WrittenFiles.events(folder.resolve("desk.ics")).size());
  }

  @Test
  void noFileIsOverwrittenWithoutForce() throws IOException {
    Files.writeString(folder.resolve("patient.ics"), "mine");
    Run run = book("--take", "1", "--fhir", path("x.json"), "--ics-patient", path("patient.ics"));
    assertEquals(Status.USAGE, run.status());
    assertEquals(path("patient.ics") + ": exists already; --force overwrites it.\n", run.err());
    nothingIsWritten();
    assertFalse(Files.exists(folder.resolve("x.json")));
    assertEquals("mine", Files.readString(folder.resolve("patient.ics")));
    assertEquals(
        Status.DONE, book("--take", "1", "--ics-patient", path("patient.ics"), "--force").status());
    assertEquals(2, WrittenFiles.events(folder.resolve("patient.ics")).size());
  }

  @Test
  void whatCannotBeWrittenIsSaidBeforeTheDiaryIs() throws IOException {
    Run run = book("--take", "1", "--ics-practice", path("nowhere/desk.ics"));
    assertEquals(Status.FILE, run.status());
    assertEquals(
        path("nowhere/desk.ics") + ": cannot be written: there is no such folder.\n", run.err());
    nothingIsWritten();
    // A name that is too long for the file system passes every look at it, but not the writing.
    String longName = path("x".repeat(252) + ".ics");
    Run late = book("--take", "1", "--fhir", path("x.json"), "--ics-practice", longName);
    assertEquals(Status.FILE, late.status(), late.err());
    nothingIsWritten();
    assertFalse(Files.exists(folder.resolve("x.json")));
  }

  @Test
  void wrongUsageIsSaid() throws IOException {
    String file = path("x.ics");
    assertWrong(
        "Error: Missing required argument(s): --take=N\nSee quadrille book --help.",
        "--ics-practice",
        file);
    assertWrong(
        "--ics-patient and --fhir: are for one plan at a time; no patient's file tells of another.",
        "--waiting",
        "--take",
        "1",
        "--fhir",
        file);
    assertWrong(
        "Error: Missing required argument(s): --ics-patient=FILE\nSee quadrille book --help.",
        "--take",
        "1",
        "--practice",
        file);
    assertWrong(
        "--force: is for -o, --ics-practice, --ics-patient and --fhir; the diary needs none.",
        "--take",
        "1",
        "--force");
    assertWrong(
        "-: standard output carries the report; name a file.",
        "--take",
        "1",
        "--ics-practice",
        "-");
    assertWrong(
        path("./x.ics") + ": is named for two outputs.",
        "--take",
        "1",
        "--ics-practice",
        file,
        "--ics-patient",
        path("./x.ics"));
    assertWrong(
        diary + ": is read by this command and cannot be its output.",
        "--take",
        "1",
        "--force",
        "--ics-practice",
        diary.toString());
    assertWrong(
        path("hanna.ics") + ": is read by this command and cannot be its output.",
        "--take",
        "1",
        "--force",
        "--ics-practice",
        path("hanna.ics"));
    nothingIsWritten();
  }

  private void assertWrong(String message, String... options) {
    Run run = book(options);
    assertEquals(Status.USAGE, run.status(), run.err());
    assertEquals(message + "\n", run.err());
  }

  private static Map<String, Integer> sequences(Path file) throws IOException {
    Map<String, Integer> sequences = new TreeMap<>();
    for (VEvent event : WrittenFiles.events(file)) {
      sequences.put(
          WrittenFiles.value(event, "UID"),
          Integer.parseInt(WrittenFiles.value(event, "SEQUENCE")));
    }
    return sequences;
  }

  @Test
  void movedVisitsKeepTheirNameAndRiseInSequence() throws IOException, InvalidDocumentException {
    assertEquals(Status.DONE, book("--take", "2", "--ics-patient", path("first.ics")).status());
    Map<String, Integer> first = sequences(folder.resolve("first.ics"));
    assertEquals(List.of(0, 0), List.copyOf(first.values()));
    // Offer 2 has its first visit on Thursday 5 March with Ines.
    Run moved =
        rebook(
            "--away",
            "ines@2026-03-05",
            "--write",
            "--ics-patient",
            "K-1042=" + path("second.ics"),
            "--ics-practice",
            path("desk.ics"),
            "--fhir",
            "K-1042=" + path("course.json"));
    assertTrue(moved.out().contains("K-1042"), moved.out() + moved.err());
    Map<String, Integer> second = sequences(folder.resolve("second.ics"));
    assertFalse(second.isEmpty());
    second.forEach(
        (uid, sequence) -> {
          assertTrue(first.containsKey(uid), uid);
          assertTrue(sequence > first.get(uid), uid);
        });
    List<Booking> now =
        read().bookings().stream()
            .filter(one -> one.caseName().equals("K-1042") && one.changes() > 0)
            .toList();
    assertEquals(
        times(now).stream().sorted((a, b) -> a.get(0).compareTo(b.get(0))).toList(),
        WrittenFiles.events(folder.resolve("second.ics")).stream()
            .map(BookingFilesTest::times)
            .sorted((a, b) -> a.get(0).compareTo(b.get(0)))
            .toList());
    assertEquals(2, WrittenFiles.appointments(folder.resolve("course.json")).size());
  }

  @Test
  void calledOffVisitsAreCancelledInTheCalendarOfWhoeverHasThem()
      throws IOException, InvalidDocumentException {
    book("--take", "2", "--ics-patient", path("first.ics"));
    Map<String, Integer> first = sequences(folder.resolve("first.ics"));
    rebook("--cancelled", "K-1042/2", "--write", "--ics-patient", "K-1042=" + path("second.ics"));
    int cancelled = 0;
    for (VEvent event : WrittenFiles.events(folder.resolve("second.ics"))) {
      String uid = WrittenFiles.value(event, "UID");
      if (first.containsKey(uid)) {
        assertEquals("CANCELLED", WrittenFiles.value(event, "STATUS"));
        assertEquals("TRANSPARENT", WrittenFiles.value(event, "TRANSP"));
        assertTrue(Integer.parseInt(WrittenFiles.value(event, "SEQUENCE")) > first.get(uid));
        cancelled++;
      } else {
        assertEquals("CONFIRMED", WrittenFiles.value(event, "STATUS"));
        assertEquals("0", WrittenFiles.value(event, "SEQUENCE"));
      }
    }
    assertEquals(1, cancelled);
  }

  @Test
  void whomNothingChangesForGetsNoFile() throws IOException {
    Run run =
        rebook(
            "--cancelled", "DEMO-201/3", "--write", "--ics-patient", "DEMO-203=" + path("x.ics"));
    assertEquals(Status.USAGE, run.status());
    assertEquals(
        "--ics-patient: nothing changes for \"DEMO-203\"; something does for DEMO-201.\n",
        run.err());
    nothingIsWritten();
    Run dry = rebook("--cancelled", "DEMO-201/3", "--ics-practice", path("x.ics"));
    assertEquals(
        "Error: Missing required argument(s): --write\nSee quadrille rebook --help.\n", dry.err());
    assertFalse(Files.exists(folder.resolve("x.ics")));
  }
}
