package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.diary.calendar.CalendarReader;
import quadrille.diary.calendar.Interval;
import quadrille.facts.chart.Alert;
import quadrille.facts.practice.Contact;
import quadrille.plan.course.StopQuestion;

/**
 * What is written is read back by parsers written apart: vobject and icalendar, both from Debian
 * (python3-vobject, python3-icalendar), with Debian's own time zone database.
 */
final class BookingCalendarsTest {

  private static final Path PYTHON = Path.of("/usr/bin/python3");
  private static final Instant STAMP = Instant.parse("2026-02-20T10:00:00Z");
  private static final List<String> ZONES =
      List.of("Europe/Rome", "America/New_York", "Australia/Lord_Howe");
  private static final DateTimeFormatter WALL =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssxxx", Locale.ROOT);
  private static final Contact CONTACT =
      new Contact("1, Invented Street; Nowhere", "000-1", "desk@invented.example", null, null);

  /** Names that need escapes, folds within letters of several bytes, and other scripts. */
  private static final List<String> NAMES =
      List.of(
          "A",
          "back\\slash; semi, comma: colon \"quote\"",
          "\u00e9\u00e8\u4e2d\u6587 \u05d0\u05d1 \ud83e\uddb7".repeat(12),
          "BEGIN:VEVENT END:VEVENT");

  /** What is asked before the first visit of each course; with all that needs escapes. */
  private static final List<StopQuestion> STOPS =
      List.of(
          new StopQuestion.OfAlert(Alert.PACEMAKER, "Which device; shielded, or not\\?"),
          StopQuestion.Known.TAKE_THE_HISTORY);

  private static final Function<StopQuestion, String> ASKED =
      question ->
          question instanceof StopQuestion.OfAlert one ? one.question() : "Take the history.";

  @TempDir private Path folder;

  /** Every half hour of the days around both changes of clock in each of the zones. */
  private static List<Booking> bookings() {
    List<Booking> bookings = new ArrayList<>();
    for (String day :
        List.of(
            "2026-03-08", "2026-03-29", "2026-04-05", "2026-10-04", "2026-10-25", "2026-11-01")) {
      Instant first = Instant.parse(day + "T00:00:00Z").minusSeconds(12 * 3600);
      for (int i = 0; i < 72; i++) {
        String name = NAMES.get(i % NAMES.size());
        bookings.add(
            new Booking(
                day + "/" + i,
                name,
                1,
                first.plusSeconds(1800L * i),
                30 + i,
                "ada",
                "one",
                List.of("kit"),
                List.of(Capability.INJECT),
                i % 9 == 0
                    ? BookingStatus.CANCELLED
                    : i % 9 == 4 ? BookingStatus.HELD : BookingStatus.PROMISED));
      }
    }
    return bookings;
  }

  private static Diary diary() {
    return Diaries.small()
        .withCourses(NAMES.stream().map(Diaries::course).map(BookingCalendarsTest::asked).toList());
  }

  private static CourseRequest asked(CourseRequest course) {
    List<VisitRequest> visits = new ArrayList<>(course.visits());
    visits.set(0, visits.get(0).withStopQuestions(STOPS));
    return course.withVisits(visits);
  }

  private List<List<String>> readBy(String parser, String calendar) throws Exception {
    Path file = folder.resolve("bookings.ics");
    Files.writeString(file, calendar);
    Path script = folder.resolve("read.py");
    try (InputStream in = BookingCalendarsTest.class.getResourceAsStream("read-calendar.py")) {
      Files.write(script, Objects.requireNonNull(in).readAllBytes());
    }
    List<String> command = new ArrayList<>(List.of(PYTHON.toString(), script.toString()));
    command.addAll(List.of(parser, file.toString()));
    command.addAll(ZONES);
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), out);
    return out.lines().map(line -> List.of(line.split("\t", -1))).toList();
  }

  private static void assume(String parser) throws Exception {
    boolean there =
        Files.isExecutable(PYTHON)
            && new ProcessBuilder(PYTHON.toString(), "-c", "import " + parser + ", zoneinfo")
                    .redirectErrorStream(true)
                    .start()
                    .waitFor()
                == 0;
    if (!there) {
      System.out.println("Skipped: no python3-" + parser + " to read calendars back with.");
    }
    assumeTrue(there, "python3-" + parser + " is not installed");
  }

  @ParameterizedTest
  @ValueSource(strings = {"vobject", "icalendar"})
  void anotherParserReadsThePracticesFileTheSame(String parser) throws Exception {
    assume(parser);
    List<Booking> bookings = bookings();
    String calendar = BookingCalendars.forPractice(diary(), bookings, ASKED, STAMP);
    List<List<String>> events = readBy(parser, calendar);
    assertEquals(bookings.size(), events.size());
    for (int i = 0; i < bookings.size(); i++) {
      Booking booking = bookings.get(i);
      List<String> expected = new ArrayList<>();
      expected.add(python(booking.caseName() + " visit 1 of 3, Invented ada, Chair one"));
      expected.add("Chair one");
      expected.add(
          python(
              "STOP: Which device; shielded, or not\\?\nSTOP: Take the history.\n"
                  + (booking.status() == BookingStatus.HELD ? "Held, not promised.\n" : "")
                  + booking.minutes()
                  + " minutes with Invented ada.\n"
                  + "Injections: only someone who may inject.\nSterile sets: kit."));
      addStatusAndTimes(booking, expected);
      assertEquals(expected, events.get(i).subList(1, events.get(i).size()));
    }
    assertEquals(bookings.size(), events.stream().map(event -> event.get(0)).distinct().count());
  }

  /** With a name and an address that need escapes, and a fold within letters of several bytes. */
  @ParameterizedTest
  @ValueSource(strings = {"vobject", "icalendar"})
  void anotherParserReadsThePatientsFileTheSame(String parser) throws Exception {
    assume(parser);
    List<Booking> bookings = bookings();
    String name = NAMES.get(1) + " " + NAMES.get(2);
    String calendar = BookingCalendars.forPatient(diary(), bookings, name, CONTACT, STAMP);
    List<List<String>> events = readBy(parser, calendar);
    assertEquals(bookings.size(), events.size());
    for (int i = 0; i < bookings.size(); i++) {
      Booking booking = bookings.get(i);
      List<String> expected = new ArrayList<>();
      expected.add("Appointment");
      expected.add("1, Invented Street; Nowhere");
      expected.add(
          python(
              name
                  + (booking.status() == BookingStatus.HELD ? "\nNot yet confirmed." : "")
                  + "\nWith Invented ada, "
                  + booking.minutes()
                  + " minutes.\n000-1\ndesk@invented.example"));
      addStatusAndTimes(booking, expected);
      assertEquals(expected, events.get(i).subList(1, events.get(i).size()));
    }
    assertEquals(bookings.size(), events.stream().map(event -> event.get(0)).distinct().count());
  }

  private static void addStatusAndTimes(Booking booking, List<String> expected) {
    expected.add(
        switch (booking.status()) {
          case HELD -> "TENTATIVE";
          case PROMISED, DONE -> "CONFIRMED";
          case CANCELLED, MISSED -> "CANCELLED";
        });
    for (String zone : ZONES) {
      for (Instant moment : List.of(booking.start(), booking.end())) {
        expected.add(moment.atZone(ZoneId.of(zone)).format(WALL));
      }
    }
  }

  /** As Python's {@code ascii} writes a text, without its quotes. */
  private static String python(String text) {
    StringBuilder out = new StringBuilder();
    text.codePoints()
        .forEach(
            point -> {
              if (point == '\\') {
                out.append("\\\\");
              } else if (point == '\n') {
                out.append("\\n");
              } else if (point < 0x7F) {
                out.appendCodePoint(point);
              } else if (point <= 0xFF) {
                out.append(String.format(Locale.ROOT, "\\x%02x", point));
              } else if (point <= 0xFFFF) {
                out.append(String.format(Locale.ROOT, "\\u%04x", point));
              } else {
                out.append(String.format(Locale.ROOT, "\\U%08x", point));
              }
            });
    return out.toString();
  }

  @Test
  void ourOwnReaderReadsTheSame() throws Exception {
    List<Booking> kept =
        bookings().stream().filter(one -> one.status() != BookingStatus.CANCELLED).toList();
    String calendar = BookingCalendars.forPractice(diary(), bookings(), ASKED, STAMP);
    List<Interval> read =
        CalendarReader.read(
                "bookings.ics",
                calendar.getBytes(StandardCharsets.UTF_8),
                ZoneId.of("Asia/Tokyo"),
                new Interval(
                    Instant.parse("2026-01-01T00:00:00Z"), Instant.parse("2027-01-01T00:00:00Z")))
            .occurrences();
    assertEquals(kept.stream().map(Booking::time).sorted().toList(), read);
  }

  /** The hash that anybody can make of a case and a visit is in no calendar any more. */
  @Test
  void whoKnowsHowCasesAreNumberedCannotGuessAnEvent() throws Exception {
    Diary diary =
        Diaries.with(Diaries.booking("K-1042", 1, "2026-03-03T09:00"))
            .withCourses(List.of(asked(Diaries.course("K-1042"))));
    Set<String> names = names(diary);
    assertEquals(2, names.size());
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    for (String use : List.of("practice", "patient")) {
      for (String id : List.of("K-1042/1", "K-1042", "K-1042/2")) {
        byte[] hash = digest.digest((use + "\n" + id).getBytes(StandardCharsets.UTF_8));
        assertFalse(names.contains(HexFormat.of().formatHex(hash, 0, 16)), id);
      }
    }
    assertEquals(names, names(diary));
    assertTrue(
        Collections.disjoint(names, names(diary.withExportKey("f".repeat(32)))),
        "another practice's diary names them otherwise");
    assertThrows(IllegalArgumentException.class, () -> names(diary.withExportKey(null)));
  }

  private static Set<String> names(Diary diary) {
    Set<String> names = new TreeSet<>();
    for (String file :
        BookingCalendars.eventsForPractice(diary, diary.bookings(), ASKED, STAMP).keySet()) {
      names.add(file.replace(".ics", ""));
    }
    String patient = BookingCalendars.forPatient(diary, diary.bookings(), null, CONTACT, STAMP);
    names.add(patient.replaceFirst("(?s).*UID:([0-9a-f]{32})@quadrille.*", "$1"));
    return names;
  }

  @Test
  void aNameThatTurnsTheWritingEndsWhereItEnds() {
    Diary diary = Diaries.with(Diaries.booking("\u202eK-7", 1, "2026-03-03T09:00"));
    String folded = BookingCalendars.forPractice(diary, diary.bookings(), ASKED, STAMP);
    String calendar = folded.replace("\r\n ", "");
    assertTrue(calendar.contains("SUMMARY:\u2068\u202eK-7\u2069 visit 1\\, "), calendar);
  }

  @Test
  void aKeyIsMadeOnceAndOfChance() {
    Diary without = Diaries.small().withExportKey(null);
    Diary with = ExportNames.keyed(without, new Random(1));
    assertTrue(ExportNames.isKey(String.valueOf(with.exportKey())), with.exportKey());
    assertEquals(with, ExportNames.keyed(with, new Random(2)));
    assertFalse(with.equals(ExportNames.keyed(without, new Random(2))));
  }

  @Test
  void noLineIsLongerThanTheStandardAllows() {
    String calendar = BookingCalendars.forPractice(diary(), bookings(), ASKED, STAMP);
    for (String line : calendar.split("\r\n", -1)) {
      assertTrue(line.getBytes(StandardCharsets.UTF_8).length <= 75, line);
      assertFalse(line.contains("\n") || line.contains("\r"), line);
    }
  }

  @Test
  void thePatientsFileTellsNothingOfTheirHealth() throws Exception {
    Diary diary =
        Diaries.with(Diaries.booking("K-1042", 1, "2026-03-03T09:00"))
            .withCourses(List.of(asked(Diaries.course("K-1042"))));
    String calendar =
        BookingCalendars.forPatient(diary, diary.bookings(), "Invented Practice", CONTACT, STAMP);
    assertEquals(
        """
        BEGIN:VCALENDAR
        VERSION:2.0
        PRODID:-//Quadrille//Quadrille 1//EN
        CALSCALE:GREGORIAN
        METHOD:PUBLISH
        BEGIN:VEVENT
        UID:UID
        DTSTAMP:20260220T100000Z
        DTSTART:20260303T080000Z
        DTEND:20260303T090000Z
        SEQUENCE:0
        STATUS:CONFIRMED
        SUMMARY:Appointment
        DESCRIPTION:Invented Practice\\nWith Invented ada\\, 60 minutes.\\n000-1\\ndesk
         @invented.example
        LOCATION:1\\, Invented Street\\; Nowhere
        TRANSP:OPAQUE
        END:VEVENT
        END:VCALENDAR
        """,
        calendar.replace("\r\n", "\n").replaceFirst("UID:[0-9a-f]{32}@quadrille", "UID:UID"));
    String practice = BookingCalendars.forPractice(diary, diary.bookings(), ASKED, STAMP);
    assertTrue(practice.contains("SUMMARY:K-1042 visit 1"), practice);
    assertTrue(practice.contains("DESCRIPTION:STOP: Which device\\; shielded\\, or not"), practice);
    assertFalse(calendar.contains("K-1042"), calendar);
  }
}
