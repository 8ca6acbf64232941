package quadrille.diary.calendar;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import net.fortuna.ical4j.data.CalendarParserImpl;
import net.fortuna.ical4j.data.ContentHandler;
import net.fortuna.ical4j.data.ParserException;
import quadrille.document.Fault;
import quadrille.document.FaultWords;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Place;

/**
 * Takes an iCalendar stream apart with the library's parser. The values stay text: the library
 * would stop at the first one that is wrong, and look zones up in places of its own.
 */
final class RawCalendars implements ContentHandler {

  /** Components within one another; the standard has three. */
  private static final int DEEPEST = 20;

  private static final Pattern LINE = Pattern.compile("[A-Za-z0-9-]+[;:]");

  /** What is kept: nothing else says anything of time. */
  private static final Set<String> KEPT =
      Set.of(
          "CALSCALE",
          "DTEND",
          "DTSTART",
          "DURATION",
          "EXDATE",
          "EXRULE",
          "FREEBUSY",
          "METHOD",
          "RDATE",
          "RECURRENCE-ID",
          "RRULE",
          "SEQUENCE",
          "STATUS",
          "TRANSP",
          "TZID",
          "TZOFFSETFROM",
          "TZOFFSETTO",
          "UID",
          "VERSION");

  private static final Set<String> KEPT_PARAMETERS = Set.of("FBTYPE", "RANGE", "TZID");

  private final List<ContentLines.Line> lines;
  private final List<RawComponent> calendars = new ArrayList<>();
  private final Deque<RawComponent> open = new ArrayDeque<>();
  private Map<String, String> parameters = Map.of();
  private String value = "";
  private int at = -1;

  private RawCalendars(List<ContentLines.Line> lines) {
    this.lines = lines;
  }

  /**
   * The calendars of a stream.
   *
   * @throws InvalidDocumentException where it is no iCalendar stream, at the first such line
   */
  static List<RawComponent> read(String source, byte[] bytes) throws InvalidDocumentException {
    List<ContentLines.Line> lines = ContentLines.of(source, bytes).lines();
    if (lines.isEmpty()) {
      throw invalid(source, 1, "an empty document", "a calendar: BEGIN:VCALENDAR");
    }
    int depth = 0;
    for (ContentLines.Line line : lines) {
      if (!LINE.matcher(line.text()).lookingAt()) {
        throw invalid(
            source, line.number(), FaultWords.quote(line.text()), "a line NAME:value (RFC 5545)");
      }
      depth += starts(line, "BEGIN:") ? 1 : starts(line, "END:") ? -1 : 0;
      if (depth > DEEPEST) {
        throw invalid(
            source,
            line.number(),
            "a component within " + DEEPEST + " others",
            "components at most " + DEEPEST + " deep");
      }
    }
    if (!lines.get(0).text().strip().equalsIgnoreCase("BEGIN:VCALENDAR")) {
      throw invalid(
          source, lines.get(0).number(), FaultWords.quote(lines.get(0).text()), "BEGIN:VCALENDAR");
    }
    RawCalendars handler = new RawCalendars(lines);
    try {
      new CalendarParserImpl().parse(new Lines(lines), handler);
    } catch (ParserException wrong) {
      // The parser counts the lines that it was given.
      int index = Math.min(Math.max(wrong.getLineNo(), 1), lines.size()) - 1;
      throw invalid(source, lines.get(index).number(), reason(wrong), "iCalendar (RFC 5545)");
    } catch (IOException impossible) {
      // The text is in memory.
      throw new UncheckedIOException(impossible);
    }
    return handler.calendars;
  }

  private static boolean starts(ContentLines.Line line, String word) {
    return line.text().regionMatches(true, 0, word, 0, word.length());
  }

  /** The lines as the library wants them, without a second copy of them all. */
  private static final class Lines extends Reader {
    private final Iterator<ContentLines.Line> lines;
    private String line = "";
    private int at;

    Lines(List<ContentLines.Line> lines) {
      this.lines = lines.iterator();
    }

    @Override
    public int read() {
      if (at == line.length()) {
        if (!lines.hasNext()) {
          return -1;
        }
        line = lines.next().text().stripTrailing() + "\r\n";
        at = 0;
      }
      return line.charAt(at++);
    }

    @Override
    public int read(char[] into, int from, int length) {
      int first = length == 0 ? -1 : read();
      if (first < 0) {
        return length == 0 ? 0 : -1;
      }
      into[from] = (char) first;
      int more = Math.min(length - 1, line.length() - at);
      line.getChars(at, at + more, into, from + 1);
      at += more;
      return 1 + more;
    }

    @Override
    public void close() {
      // Nothing is open.
    }
  }

  private static String reason(ParserException wrong) {
    String message = String.valueOf(wrong.getMessage()).replaceFirst("Error at line [0-9]+:", "");
    return switch (message) {
      case "Unexpected end of file" -> "the end of the file before END:VCALENDAR";
      default ->
          message.startsWith("Expected [V")
              ? message.replaceFirst(
                  "Expected \\[(V[A-Z]+)\\], read \\[(.*)\\]", "END:$2 before END:$1")
              : "a line that cannot be read";
    };
  }

  private static InvalidDocumentException invalid(
      String source, int line, String found, String allowed) {
    return new InvalidDocumentException(
        List.of(new Fault(new Place(source, line, 1, "").toString(), found, allowed)));
  }

  private int next() {
    at++;
    return lines.get(Math.min(at, lines.size() - 1)).number();
  }

  private void begin(String name) {
    open.push(
        new RawComponent(
            name.toUpperCase(Locale.ROOT), next(), new ArrayList<>(), new ArrayList<>()));
  }

  @Override
  public void startCalendar() {
    begin("VCALENDAR");
  }

  @Override
  public void endCalendar() {
    next();
    calendars.add(open.pop());
  }

  @Override
  public void startComponent(String name) {
    begin(name);
  }

  @Override
  public void endComponent(String name) {
    next();
    RawComponent ended = open.pop();
    open.element().components().add(ended);
  }

  @Override
  public void startProperty(String name) {
    parameters = Map.of();
    value = "";
  }

  @Override
  public void propertyValue(String text) {
    value = text;
  }

  @Override
  public void parameter(String name, String text) {
    String bare =
        text.length() >= 2 && text.startsWith("\"") && text.endsWith("\"")
            ? text.substring(1, text.length() - 1)
            : text;
    String upper = name.toUpperCase(Locale.ROOT);
    if (KEPT_PARAMETERS.contains(upper)) {
      parameters = parameters.isEmpty() ? new LinkedHashMap<>() : parameters;
      parameters.putIfAbsent(upper, bare);
    }
  }

  @Override
  public void endProperty(String name) {
    int line = next();
    String upper = name.toUpperCase(Locale.ROOT);
    if (KEPT.contains(upper)) {
      open.element().properties().add(new RawComponent.Property(upper, line, parameters, value));
    }
  }
}
