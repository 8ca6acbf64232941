package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.calendar.Interval;
import quadrille.diary.file.DiaryFile;
import quadrille.document.InvalidDocumentException;

/** The patient's own calendar, as times at which they cannot come. */
final class PatientCalendarTest extends AtTheDesk {

  private static final Path BROKEN =
      Path.of("../solver/src/test/resources/quadrille/diary/calendar/broken-calendars.txt");

  private String calendar(String name, String... events) throws IOException {
    String text =
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Invented//EN\r\n"
            + String.join("", events)
            + "END:VCALENDAR\r\n";
    return Files.writeString(folder.resolve(name), text).toString();
  }

  private static String event(String... lines) {
    return "BEGIN:VEVENT\r\nUID:"
        + String.join("/", lines).hashCode()
        + "\r\nDTSTAMP:20260216T080000Z\r\nSUMMARY:Something private\r\n"
        + String.join("\r\n", lines)
        + "\r\nEND:VEVENT\r\n";
  }

  private static List<Interval> offered(Run run) throws IOException {
    List<Interval> times = new ArrayList<>();
    for (JsonNode offer : new ObjectMapper().readTree(run.out()).path("offers")) {
      for (JsonNode visit : offer.path("visits")) {
        times.add(
            new Interval(
                OffsetDateTime.parse(visit.path("start").asText()).toInstant(),
                OffsetDateTime.parse(visit.path("end").asText()).toInstant()));
      }
    }
    assertFalse(times.isEmpty());
    return times;
  }

  private CourseRequest course() throws IOException, InvalidDocumentException {
    return DiaryFile.read(diary).diary().course("K-1042").orElseThrow();
  }

  @Test
  void noOfferLiesWhereTheCalendarHasSomething() throws IOException {
    // Offers without it: 2 and 5 March at noon and in the morning, as the golden file has them.
    String weekdays =
        calendar(
            "patient.ics",
            event(
                "DTSTART;TZID=Europe/Rome:20260302T080000",
                "DTEND;TZID=Europe/Rome:20260302T150000",
                "RRULE:FREQ=WEEKLY;BYDAY=MO,TU,TH,FR;COUNT=40"),
            event("DTSTART;VALUE=DATE:20260305", "DTEND;VALUE=DATE:20260310"));
    for (Interval time : offered(book("--patient-ics", weekdays, "--format", "json"))) {
      var start = time.start().atZone(java.time.ZoneId.of("Europe/Rome"));
      boolean wednesday = start.getDayOfWeek() == java.time.DayOfWeek.WEDNESDAY;
      assertTrue(wednesday || start.getHour() >= 15, start.toString());
      assertFalse(
          !start.toLocalDate().isBefore(java.time.LocalDate.of(2026, 3, 5))
              && start.toLocalDate().isBefore(java.time.LocalDate.of(2026, 3, 10)),
          start.toString());
    }
  }

  @Test
  void severalCalendarsAddUpAndACancelledEventTakesNoTime() throws IOException {
    String one = calendar("a.ics", event("DTSTART:20260302T080000Z", "DURATION:PT10H"));
    String other =
        calendar(
            "b.ics",
            event("DTSTART:20260309T080000Z", "DURATION:PT10H"),
            event("DTSTART:20260310T000000Z", "DURATION:P20D", "STATUS:CANCELLED"));
    List<Interval> times =
        offered(book("--patient-ics", one, "--patient-ics", other, "--format", "json"));
    for (String day : List.of("2026-03-02", "2026-03-09")) {
      Interval taken = Interval.of(Instant.parse(day + "T08:00:00Z"), 600);
      assertTrue(times.stream().noneMatch(taken::overlaps), times.toString());
    }
    Instant march = Instant.parse("2026-03-20T00:00:00Z");
    assertTrue(times.stream().anyMatch(time -> time.start().isBefore(march)), times.toString());
  }

  @Test
  void oddTimesAreSaidAsForThePracticesCalendars() throws IOException {
    String floating =
        calendar("patient.ics", event("DTSTART:20260302T080000", "DTEND:20260302T180000"));
    Run run = book("--patient-ics", floating);
    assertEquals(Status.DONE, run.status());
    assertEquals(
        floating + ": 1 event has times without a time zone; taken as times in Europe/Rome.\n",
        run.err());
  }

  @Test
  void onlyTimesAreKeptInTheDiaryAndANewerCalendarTakesTheirPlace()
      throws IOException, InvalidDocumentException {
    String old = calendar("old.ics", event("DTSTART:20260303T080030Z", "DTEND:20260303T100010Z"));
    book("--patient-ics", old, "--take", "3");
    Interval minutes =
        new Interval(Instant.parse("2026-03-03T08:00:00Z"), Instant.parse("2026-03-03T10:01:00Z"));
    assertEquals(List.of(minutes), course().availability().busy());
    assertFalse(Files.readString(diary).contains("private"));
    rebookLast();
    String newer = calendar("new.ics", event("DTSTART:20260304T080000Z", "DURATION:PT1H"));
    book("--patient-ics", newer, "--take", "1");
    assertEquals(
        List.of(Interval.of(Instant.parse("2026-03-04T08:00:00Z"), 60)),
        course().availability().busy());
  }

  /** Takes the last visit out again by hand, so that there is something to book. */
  private void rebookLast() throws IOException, InvalidDocumentException {
    var read = DiaryFile.read(diary).diary();
    Files.writeString(
        diary,
        quadrille.diary.book.DiaryWriter.write(
            read.withBookings(
                read.bookings().stream().filter(one -> !one.id().equals("K-1042/2")).toList())));
  }

  @Test
  void everyBrokenCalendarIsRefusedWithTheSameWords() throws IOException {
    String before = Files.readString(diary);
    Path file = folder.resolve("ada.ics");
    String[] parts = Files.readString(BROKEN).split("(?m)^=== ");
    for (int i = 1; i < parts.length; i++) {
      int end = parts[i].indexOf('\n');
      int faults = parts[i].indexOf("\n--> ", end);
      Files.writeString(file, parts[i].substring(end + 1, faults + 1));
      Run run =
          Run.of(
              "book",
              plan,
              "--diary",
              diary.toString(),
              "--from",
              "2026-01-01",
              "--until",
              "2026-12-31",
              "--take",
              "1",
              "--patient-ics",
              file.toString());
      assertEquals(Status.FILE, run.status(), parts[i]);
      for (String line : parts[i].substring(faults + 1).lines().toList()) {
        if (!line.isEmpty()) {
          String message = line.substring("--> ada.ics".length());
          assertTrue(
              run.err().contains(file + message) || run.err().contains(file + tooOften(message)),
              run.err() + "\nfor " + message);
        }
      }
    }
    assertTrue(parts.length > 30, "cases: " + (parts.length - 1));
    assertEquals(before, Files.readString(diary));
  }

  /** A booking looks further than the cases' year, so that a rule returns more often in it. */
  private static String tooOften(String message) {
    return message.replace(
        "more than can be followed of rules, all together",
        "a rule that returns more than a million times");
  }

  @Test
  void aFileThatIsNotThereOrNoUtf8IsRefused() throws IOException {
    Run gone = book("--patient-ics", folder.resolve("gone.ics").toString());
    assertEquals(Status.FILE, gone.status());
    assertEquals(
        folder.resolve("gone.ics") + ": cannot be read: there is no such file.\n", gone.err());
    Path latin = folder.resolve("latin.ics");
    Files.write(
        latin,
        "BEGIN:VCALENDAR\nX-NAME:\u00e9\nEND:VCALENDAR\n".getBytes(StandardCharsets.ISO_8859_1));
    Run run = book("--patient-ics", latin.toString());
    assertEquals(Status.FILE, run.status());
    assertTrue(run.err().contains(latin + ":2: found a byte that is not UTF-8"), run.err());
  }
}
