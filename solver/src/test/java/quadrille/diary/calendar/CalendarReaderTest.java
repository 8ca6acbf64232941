package quadrille.diary.calendar;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * What becomes of what in a calendar file: docs/calendars.md, line by line. Rome is UTC+1, then +2.
 */
final class CalendarReaderTest {

  private static String at(String start, String end) {
    return "2026-" + start + ":00Z/2026-" + end + ":00Z";
  }

  private static List<String> notes(String... components) {
    return Ics.read(Ics.calendar(components)).notes();
  }

  @Test
  void aTimeInUtc() {
    assertEquals(
        List.of(at("03-02T09:00", "03-02T10:30")),
        Ics.times(Ics.event("UID:1", "DTSTART:20260302T090000Z", "DTEND:20260302T103000Z")));
  }

  @Test
  void aTimeInAZoneOfTheDatabase() {
    String event =
        Ics.event("UID:1", "DTSTART;TZID=America/New_York:20260309T090000", "DURATION:PT1H");
    // New York has changed its clocks by then, Rome has not.
    assertEquals(List.of(at("03-09T13:00", "03-09T14:00")), Ics.times(event));
    assertEquals(
        List.of("Not defined in the file, taken from the time zone database: America/New_York."),
        notes(event));
  }

  @Test
  void aLongNameThatEndsInOneOfTheDatabase() {
    assertEquals(
        List.of(at("03-09T13:00", "03-09T14:00")),
        Ics.times(
            Ics.event(
                "UID:1",
                "DTSTART;TZID=\"/example.org/20260101_1/America/New_York\":20260309T090000",
                "DURATION:PT1H")));
  }

  /** As mail programs export it: a name of their own, with its definition. */
  private static final String OWN_ZONE =
      """
      BEGIN:VTIMEZONE\r
      TZID:W. Europe Standard Time\r
      BEGIN:STANDARD\r
      DTSTART:16010101T030000\r
      TZOFFSETFROM:+0200\r
      TZOFFSETTO:+0100\r
      RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10\r
      END:STANDARD\r
      BEGIN:DAYLIGHT\r
      DTSTART:16010101T020000\r
      TZOFFSETFROM:+0100\r
      TZOFFSETTO:+0200\r
      RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=3\r
      END:DAYLIGHT\r
      END:VTIMEZONE\r
      """;

  @Test
  void aZoneThatTheFileDefinesItself() {
    String event =
        Ics.event(
            "UID:1",
            "DTSTART;TZID=W. Europe Standard Time:20260327T090000",
            "DTEND;TZID=W. Europe Standard Time:20260327T100000",
            "RRULE:FREQ=DAILY;COUNT=4");
    assertEquals(
        List.of(
            at("03-27T08:00", "03-27T09:00"),
            at("03-28T08:00", "03-28T09:00"),
            at("03-29T07:00", "03-29T08:00"),
            at("03-30T07:00", "03-30T08:00")),
        Ics.times(OWN_ZONE, event));
    assertEquals(List.of(), notes(OWN_ZONE, event));
  }

  /**
   * RFC 5545, section 3.6.5, the first two of its examples: New York since the last change of law.
   */
  @Test
  void theStandardsOwnExampleOfADefinition() {
    String zone =
        """
        BEGIN:VTIMEZONE\r
        TZID:Invented\r
        LAST-MODIFIED:20050809T050000Z\r
        BEGIN:STANDARD\r
        DTSTART:20071104T020000\r
        TZOFFSETFROM:-0400\r
        TZOFFSETTO:-0500\r
        TZNAME:EST\r
        RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU\r
        END:STANDARD\r
        BEGIN:DAYLIGHT\r
        DTSTART:20070311T020000\r
        TZOFFSETFROM:-0500\r
        TZOFFSETTO:-0400\r
        TZNAME:EDT\r
        RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU\r
        END:DAYLIGHT\r
        END:VTIMEZONE\r
        """;
    for (String rule : List.of("RRULE:FREQ=DAILY;COUNT=365", "RRULE:FREQ=HOURLY;COUNT=8000")) {
      String own =
          Ics.event("UID:1", "DTSTART;TZID=Invented:20260101T013000", "DURATION:PT1M", rule);
      String database = own.replace("Invented", "America/New_York");
      assertEquals(Ics.times(database), Ics.times(zone, own));
    }
  }

  @Test
  void aTimeWithoutZoneIsThePracticesTime() {
    String event = Ics.event("UID:1", "DTSTART:20260702T090000", "DTEND:20260702T100000");
    assertEquals(List.of(at("07-02T07:00", "07-02T08:00")), Ics.times(event));
    assertEquals(
        List.of("1 event has times without a time zone; taken as times in Europe/Rome."),
        notes(event));
  }

  @Test
  void aWholeDayIsThePracticesDay() {
    assertEquals(
        List.of(at("03-01T23:00", "03-02T23:00")),
        Ics.times(Ics.event("UID:1", "DTSTART;VALUE=DATE:20260302")));
    assertEquals(
        List.of(at("03-01T23:00", "03-04T23:00")),
        Ics.times(Ics.event("UID:1", "DTSTART;VALUE=DATE:20260302", "DTEND;VALUE=DATE:20260305")));
    // The day of the change has 23 hours.
    assertEquals(
        List.of(at("03-28T23:00", "03-29T22:00")),
        Ics.times(Ics.event("UID:1", "DTSTART:20260329")));
  }

  @Test
  void aWholeDayThatReturns() {
    assertEquals(
        List.of(
            at("03-27T23:00", "03-28T23:00"),
            at("03-28T23:00", "03-29T22:00"),
            at("03-29T22:00", "03-30T22:00")),
        Ics.times(
            Ics.event(
                "UID:1",
                "DTSTART;VALUE=DATE:20260328",
                "RRULE:FREQ=DAILY;UNTIL=20260330;BYHOUR=9")));
  }

  @Test
  void whatIsCancelledOrTransparentTakesNoTime() {
    String time = "DTSTART:20260302T090000Z";
    assertEquals(
        List.of(),
        Ics.times(
            Ics.event("UID:1", time, "DURATION:PT1H", "STATUS:CANCELLED"),
            Ics.event("UID:2", time, "DURATION:PT1H", "TRANSP:TRANSPARENT"),
            // Without an end an event with a time takes none (section 3.6.1).
            Ics.event("UID:3", time)));
    assertEquals(
        List.of(at("03-02T09:00", "03-02T10:00")),
        Ics.times(Ics.event("UID:1", time, "DURATION:PT1H", "STATUS:TENTATIVE")));
    assertEquals(
        List.of(),
        Ics.read(
                Ics.calendar(Ics.event("UID:1", time, "DURATION:PT1H"))
                    .replace("VERSION:2.0", "VERSION:2.0\r\nMETHOD:CANCEL"))
            .occurrences());
  }

  @Test
  void furtherDatesAndDatesLeftOut() {
    assertEquals(
        List.of(
            at("03-02T08:00", "03-02T09:00"),
            at("03-05T08:00", "03-05T09:00"),
            at("03-06T12:00", "03-06T12:30"),
            at("03-16T08:00", "03-16T09:00")),
        Ics.times(
            Ics.event(
                "UID:1",
                "DTSTART;TZID=Europe/Rome:20260302T090000",
                "DTEND;TZID=Europe/Rome:20260302T100000",
                "RRULE:FREQ=WEEKLY;COUNT=3",
                "EXDATE;TZID=Europe/Rome:20260309T090000",
                "RDATE;TZID=Europe/Rome:20260305T090000",
                "RDATE;VALUE=PERIOD:20260306T120000Z/PT30M")));
  }

  @Test
  void aDayLeftOutOfAnEventWithATime() {
    assertEquals(
        List.of(at("03-02T08:00", "03-02T09:00")),
        Ics.times(
            Ics.event(
                "UID:1",
                "DTSTART;TZID=Europe/Rome:20260302T090000",
                "DURATION:PT1H",
                "RRULE:FREQ=WEEKLY;COUNT=2",
                "EXDATE;VALUE=DATE:20260309")));
  }

  private static final String WEEKLY =
      Ics.event(
          "UID:1",
          "DTSTART;TZID=Europe/Rome:20260302T090000",
          "DURATION:PT1H",
          "RRULE:FREQ=WEEKLY;COUNT=4");

  @Test
  void oneOccurrenceMoved() {
    assertEquals(
        List.of(
            at("03-02T08:00", "03-02T09:00"),
            at("03-10T14:00", "03-10T14:15"),
            at("03-16T08:00", "03-16T09:00"),
            at("03-23T08:00", "03-23T09:00")),
        Ics.times(
            Ics.event(
                "UID:1",
                "RECURRENCE-ID;TZID=Europe/Rome:20260309T090000",
                "DTSTART;TZID=Europe/Rome:20260310T150000",
                "DURATION:PT15M"),
            WEEKLY));
  }

  @Test
  void oneOccurrenceCancelledByItsMomentInUtc() {
    assertEquals(
        3,
        Ics.times(
                WEEKLY,
                Ics.event(
                    "UID:1",
                    "RECURRENCE-ID:20260309T080000Z",
                    "DTSTART;TZID=Europe/Rome:20260309T090000",
                    "DURATION:PT1H",
                    "STATUS:CANCELLED"))
            .size());
  }

  @Test
  void thisAndAllLaterOnesMoved() {
    assertEquals(
        List.of(
            at("03-02T08:00", "03-02T09:00"),
            at("03-09T08:00", "03-09T09:00"),
            at("03-17T09:00", "03-17T11:00"),
            at("03-24T09:00", "03-24T11:00")),
        Ics.times(
            WEEKLY,
            Ics.event(
                "UID:1",
                "RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/Rome:20260316T090000",
                "DTSTART;TZID=Europe/Rome:20260317T100000",
                "DURATION:PT2H")));
  }

  @Test
  void movedOnceAndAgain() {
    assertEquals(
        List.of(
            at("03-02T08:00", "03-02T09:00"),
            at("03-09T09:00", "03-09T10:00"),
            at("03-16T09:00", "03-16T10:00"),
            at("03-23T13:00", "03-23T14:00")),
        Ics.times(
            WEEKLY,
            Ics.event(
                "UID:1",
                "RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/Rome:20260309T090000",
                "DTSTART;TZID=Europe/Rome:20260309T100000",
                "DURATION:PT1H"),
            Ics.event(
                "UID:1",
                "RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/Rome:20260323T090000",
                "DTSTART;TZID=Europe/Rome:20260323T140000",
                "DURATION:PT1H")));
  }

  @Test
  void aWholeDayThatEndsOnItsOwnDayTakesThatDay() {
    assertEquals(
        List.of(at("03-02T23:00", "03-03T23:00")),
        Ics.times(Ics.event("UID:1", "DTSTART;VALUE=DATE:20260303", "DTEND;VALUE=DATE:20260303")));
  }

  @Test
  void ofTwoVersionsTheHigherSequenceCounts() {
    String old = Ics.event("UID:1", "SEQUENCE:1", "DTSTART:20260302T090000Z", "DURATION:PT1H");
    String changed = Ics.event("UID:1", "SEQUENCE:2", "DTSTART:20260303T090000Z", "DURATION:PT1H");
    assertEquals(List.of(at("03-03T09:00", "03-03T10:00")), Ics.times(old, changed));
    assertEquals(List.of(at("03-03T09:00", "03-03T10:00")), Ics.times(changed, old));
  }

  @Test
  void anOccurrenceWithoutItsEventStandsAlone() {
    assertEquals(
        List.of(at("03-10T14:00", "03-10T15:00")),
        Ics.times(
            Ics.event(
                "UID:1",
                "RECURRENCE-ID:20260309T080000Z",
                "DTSTART:20260310T140000Z",
                "DURATION:PT1H")));
  }

  /** RFC 5545, section 3.3.5: a time that is skipped is reckoned from before the change. */
  @Test
  void aTimeThatTheClockSkipsOrShowsTwice() {
    assertEquals(
        List.of(at("03-28T01:30", "03-28T02:30"), at("03-29T01:30", "03-29T02:30")),
        Ics.times(
            Ics.event(
                "UID:1",
                "DTSTART;TZID=Europe/Rome:20260328T023000",
                "DURATION:PT1H",
                "RRULE:FREQ=DAILY;COUNT=2")));
    assertEquals(
        List.of(at("10-25T00:30", "10-25T01:30")),
        Ics.times(Ics.event("UID:1", "DTSTART;TZID=Europe/Rome:20261025T023000", "DURATION:PT1H")));
  }

  /** RFC 5545, section 3.3.6: a day is a day of the calendar, 24 hours are 24 hours. */
  @Test
  void aDayIsNotAlwaysTwentyFourHours() {
    String start = "DTSTART;TZID=Europe/Rome:20260328T120000";
    assertEquals(
        List.of(at("03-28T11:00", "03-29T10:00")),
        Ics.times(Ics.event("UID:1", start, "DURATION:P1D")));
    assertEquals(
        List.of(at("03-28T11:00", "03-29T11:00")),
        Ics.times(Ics.event("UID:1", start, "DURATION:PT24H")));
  }

  @Test
  void busyTimesOfAFreeBusyComponent() {
    assertEquals(
        List.of(at("03-02T16:00", "03-02T19:00"), at("03-02T20:00", "03-02T21:00")),
        Ics.times(
            """
            BEGIN:VFREEBUSY\r
            FREEBUSY;FBTYPE=BUSY-TENTATIVE:20260302T160000Z/PT3H,20260302T200000Z/2026\r
             0302T210000Z\r
            FREEBUSY;FBTYPE=FREE:20260302T060000Z/PT3H\r
            END:VFREEBUSY\r
            """));
  }

  @Test
  void whatIsNoEventIsNoted() {
    assertEquals(
        List.of("1 entry is no event (to-do, journal or availability) and take no time here."),
        notes("BEGIN:VTODO\r\nUID:1\r\nDTSTART:20260302T090000Z\r\nEND:VTODO\r\n"));
  }

  @Test
  void anyLineEndsBlankLinesAndAMarkInFront() {
    String text = Ics.calendar(Ics.event("UID:1", "DTSTART:20260302T090000Z", "DURATION:PT1H"));
    assertEquals(1, Ics.read(text.replace("\r\n", "\n")).occurrences().size());
    assertEquals(1, Ics.read(text.replace("\r\n", "\r")).occurrences().size());
    assertEquals(1, Ics.read("\uFEFF" + text.replace("\r\n", "\r\n\r\n")).occurrences().size());
  }

  /** Folds fall anywhere, even within the two bytes of one letter (section 3.1). */
  @Test
  void aFoldAfterEveryByte() throws Exception {
    byte[] text =
        Ics.calendar(
                Ics.event(
                    "UID:\u00e9", "DTSTART;TZID=Europe/Rome:20260302T090000", "DURATION:PT1H"))
            .getBytes(StandardCharsets.UTF_8);
    ByteArrayOutputStream folded = new ByteArrayOutputStream();
    for (int i = 0; i < text.length; i++) {
      folded.write(text[i]);
      boolean within =
          text[i] != '\r' && text[i] != '\n' && i + 1 < text.length && text[i + 1] != '\r';
      if (within) {
        folded.writeBytes(new byte[] {'\r', '\n', i % 2 == 0 ? (byte) ' ' : (byte) '\t'});
      }
    }
    assertEquals(
        1,
        CalendarReader.read("test.ics", folded.toByteArray(), Ics.ROME, Ics.YEAR_2026)
            .occurrences()
            .size());
  }

  @Test
  void severalCalendarsInOneFile() {
    String one = Ics.calendar(Ics.event("UID:1", "DTSTART:20260302T090000Z", "DURATION:PT1H"));
    String two = Ics.calendar(Ics.event("UID:1", "DTSTART:20260303T090000Z", "DURATION:PT1H"));
    assertEquals(2, Ics.read(one + two).occurrences().size());
  }

  @Test
  void anEmptyCalendarTakesNoTime() {
    assertEquals(List.of(), Ics.read(Ics.calendar()).occurrences());
  }

  @Test
  void whatBeginsBeforeAndWhatOverlaps() {
    Interval day = Ics.span("2026-03-03T00:00:00Z", "2026-03-04T00:00:00Z");
    CalendarReader.Reading reading =
        Ics.read(
            Ics.calendar(
                Ics.event("UID:1", "DTSTART:20260301T090000Z", "DURATION:P2DT1H"),
                Ics.event("UID:2", "DTSTART:20260303T093000Z", "DURATION:PT1H"),
                Ics.event("UID:3", "DTSTART:20260302T220000Z", "DURATION:PT2H")),
            day);
    assertEquals(2, reading.occurrences().size());
    assertEquals(List.of(Ics.span("2026-03-01T09:00:00Z", "2026-03-03T10:30:00Z")), reading.busy());
  }
}
