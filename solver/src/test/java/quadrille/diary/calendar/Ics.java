package quadrille.diary.calendar;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import quadrille.document.InvalidDocumentException;

/** Calendars in tests. */
final class Ics {

  static final ZoneId ROME = ZoneId.of("Europe/Rome");
  static final Interval YEAR_2026 = span("2026-01-01T00:00:00Z", "2027-01-01T00:00:00Z");

  private Ics() {}

  static Interval span(String start, String end) {
    return new Interval(Instant.parse(start), Instant.parse(end));
  }

  /** A calendar of these components. */
  static String calendar(String... components) {
    return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Invented//Test//EN\r\n"
        + String.join("", components)
        + "END:VCALENDAR\r\n";
  }

  static String event(String... lines) {
    return "BEGIN:VEVENT\r\n" + String.join("\r\n", lines) + "\r\nEND:VEVENT\r\n";
  }

  static CalendarReader.Reading read(String text) {
    return read(text, YEAR_2026);
  }

  static CalendarReader.Reading read(String text, Interval within) {
    try {
      return CalendarReader.read("test.ics", text.getBytes(StandardCharsets.UTF_8), ROME, within);
    } catch (InvalidDocumentException invalid) {
      throw new AssertionError(invalid.getMessage(), invalid);
    }
  }

  /** The occurrences of events in 2026, as {@code start/end} in UTC. */
  static List<String> times(String... events) {
    return read(calendar(events)).occurrences().stream()
        .map(span -> span.start() + "/" + span.end())
        .toList();
  }
}
