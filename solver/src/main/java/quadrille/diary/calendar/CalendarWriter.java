package quadrille.diary.calendar;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

/**
 * Writes events as an iCalendar file (RFC 5545). Times are in UTC, which every calendar program
 * shows on its own clock and which needs no definition of a zone. The same events give the same
 * bytes.
 *
 * <p>Not the library's writer: it folds lines after characters where RFC 5545 section 3.1 counts
 * octets.
 */
public final class CalendarWriter {

  private static final String PRODUCT = "-//Quadrille//Quadrille 1//EN";
  private static final int MOST_OCTETS = 75;
  private static final DateTimeFormatter UTC =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private CalendarWriter() {}

  /**
   * The text of a calendar; lines end as RFC 5545 wants.
   *
   * @param stamp when the events were last changed
   */
  public static String write(List<CalendarEntry> entries, Instant stamp) {
    return write(entries, stamp, true);
  }

  /**
   * The text of a file that is one event, as a calendar server keeps it (RFC 4791 section 4.1): it
   * names no method.
   */
  public static String resource(CalendarEntry entry, Instant stamp) {
    return write(List.of(entry), stamp, false);
  }

  private static String write(List<CalendarEntry> entries, Instant stamp, boolean published) {
    StringBuilder out = new StringBuilder();
    line(out, "BEGIN:VCALENDAR");
    line(out, "VERSION:2.0");
    line(out, "PRODID:" + PRODUCT);
    line(out, "CALSCALE:GREGORIAN");
    if (published) {
      line(out, "METHOD:PUBLISH");
    }
    for (CalendarEntry entry : entries) {
      line(out, "BEGIN:VEVENT");
      line(out, "UID:" + text(entry.uid()));
      line(out, "DTSTAMP:" + UTC.format(stamp));
      line(out, "DTSTART:" + UTC.format(entry.time().start()));
      line(out, "DTEND:" + UTC.format(entry.time().end()));
      line(out, "SEQUENCE:" + entry.sequence());
      line(out, "STATUS:" + entry.status().name());
      line(out, "SUMMARY:" + text(entry.title()));
      String description = entry.description();
      if (description != null) {
        line(out, "DESCRIPTION:" + text(description));
      }
      String location = entry.location();
      if (location != null) {
        line(out, "LOCATION:" + text(location));
      }
      line(
          out,
          "TRANSP:"
              + (entry.status() == CalendarEntry.Status.CANCELLED ? "TRANSPARENT" : "OPAQUE"));
      line(out, "END:VEVENT");
    }
    line(out, "END:VCALENDAR");
    return out.toString();
  }

  /**
   * RFC 5545 section 3.3.11; other control characters have no way to be written and are left out.
   */
  private static String text(String text) {
    StringBuilder out = new StringBuilder();
    String lines = text.replace("\r\n", "\n").replace('\r', '\n');
    for (int at = 0; at < lines.length(); at++) {
      char c = lines.charAt(at);
      switch (c) {
        case '\\' -> out.append("\\\\");
        case ';' -> out.append("\\;");
        case ',' -> out.append("\\,");
        case '\n' -> out.append("\\n");
        default -> {
          if (c >= ' ' && c != 0x7F || c == '\t') {
            out.append(c);
          }
        }
      }
    }
    return out.toString();
  }

  /** A content line, folded so that no line is longer than 75 octets, never within a character. */
  private static void line(StringBuilder out, String line) {
    int octets = 0;
    for (int at = 0; at < line.length(); ) {
      int point = line.codePointAt(at);
      String character = Character.toString(point);
      int more = character.getBytes(StandardCharsets.UTF_8).length;
      if (octets + more > MOST_OCTETS) {
        out.append("\r\n ");
        octets = 1;
      }
      out.append(character);
      octets += more;
      at += character.length();
    }
    out.append("\r\n");
  }
}
