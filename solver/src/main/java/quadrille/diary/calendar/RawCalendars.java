package quadrille.diary.calendar;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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

  private static final int MOST_LINES = 2_000_000;

  private final List<ContentLines.Line> lines;
  private final List<RawComponent> calendars = new ArrayList<>();
  private final Deque<RawComponent> open = new ArrayDeque<>();
  private Map<String, String> parameters = new LinkedHashMap<>();
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
    if (lines.size() > MOST_LINES) {
      throw invalid(source, 1, lines.size() + " lines", "at most " + MOST_LINES);
    }
    for (ContentLines.Line line : lines) {
      if (!line.text().matches("(?s)[A-Za-z0-9-]+[;:].*")) {
        throw invalid(
            source, line.number(), FaultWords.quote(line.text()), "a line NAME:value (RFC 5545)");
      }
    }
    if (!lines.get(0).text().strip().equalsIgnoreCase("BEGIN:VCALENDAR")) {
      throw invalid(
          source, lines.get(0).number(), FaultWords.quote(lines.get(0).text()), "BEGIN:VCALENDAR");
    }
    RawCalendars handler = new RawCalendars(lines);
    StringBuilder text = new StringBuilder();
    lines.forEach(line -> text.append(line.text().stripTrailing()).append("\r\n"));
    try {
      new CalendarParserImpl().parse(new StringReader(text.toString()), handler);
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
    parameters = new LinkedHashMap<>();
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
    parameters.putIfAbsent(name.toUpperCase(Locale.ROOT), bare);
  }

  @Override
  public void endProperty(String name) {
    open.element()
        .properties()
        .add(new RawComponent.Property(name.toUpperCase(Locale.ROOT), next(), parameters, value));
  }
}
