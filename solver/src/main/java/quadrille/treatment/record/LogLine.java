package quadrille.treatment.record;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.CRC32C;
import org.jspecify.annotations.Nullable;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.JsonLayout;
import quadrille.document.Node;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.PracticeWriter;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.PlanWriter;

/**
 * An entry as a line of the log, and back. The line ends with a check (CRC-32C, RFC 3720, over the
 * bytes before it), so that a line that was cut off or changed is known for one.
 */
final class LogLine {

  /** The value of a log's {@code schema}, in its first line. */
  static final String SCHEMA = "quadrille/course/2";

  /** The first format, whose entries did not say how they name teeth. */
  static final String FIRST_SCHEMA = "quadrille/course/1";

  private static final Pattern CHECKED = Pattern.compile("(.*),\"check\":\"([0-9a-f]{8})\"\\}");

  private enum Kind {
    PLANNED("planned"),
    VISIT_DONE("visit-done"),
    CORRECTED("corrected"),
    BOOKED("booked"),
    TEETH_CONFIRMED("teeth-confirmed"),
    REPLANNED("replanned");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }

    List<String> keys() {
      List<String> keys = new ArrayList<>(List.of("schema", "entry", "at", "kind", "numbering"));
      keys.addAll(
          switch (this) {
            case PLANNED -> List.of("plan", "chart", "practice");
            case VISIT_DONE -> List.of("record");
            case CORRECTED -> List.of("corrects", "record", "why");
            case BOOKED -> List.of("visits");
            case TEETH_CONFIRMED -> List.of("teeth", "by");
            case REPLANNED -> List.of("plan", "chart", "changes", "practice");
          });
      return keys;
    }
  }

  private LogLine() {}

  /** The line, without a line end. */
  static String of(LogEntry entry) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (entry.number() == 1) {
      fields.put("schema", entry.numbering() == null ? FIRST_SCHEMA : SCHEMA);
    }
    fields.put("entry", entry.number());
    fields.put("at", DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(entry.at()));
    fields.put("kind", entry.event().word());
    if (entry.numbering() != null) {
      fields.put("numbering", entry.numbering().word());
    }
    put(fields, entry.event(), named(entry.numbering()));
    String body = JsonLayout.line(fields);
    body = body.substring(0, body.length() - 1);
    return body + ",\"check\":\"" + check(body) + "\"}";
  }

  private static Numbering named(@Nullable Numbering numbering) {
    return numbering == null ? Numbering.ISO3950 : numbering;
  }

  private static void put(Map<String, Object> fields, Event event, Numbering numbering) {
    VisitDoneJson records = new VisitDoneJson(numbering);
    if (event instanceof Event.Planned planned) {
      put(fields, planned.course(), planned.chart());
      fields.put("practice", new JsonLayout.Document(PracticeWriter.text(planned.practice())));
    } else if (event instanceof VisitDone done) {
      fields.put("record", records.tree(done));
    } else if (event instanceof Corrected corrected) {
      fields.put("corrects", corrected.entry());
      fields.put("record", records.tree(corrected.instead()));
      if (!corrected.why().isEmpty()) {
        fields.put("why", corrected.why());
      }
    } else if (event instanceof Event.Booked booked) {
      fields.put("visits", booked.visits().stream().map(LogLine::appointment).toList());
    } else if (event instanceof Event.TeethConfirmed confirmed) {
      fields.put("teeth", confirmed.teeth().stream().map(numbering::name).toList());
      fields.put("by", confirmed.by());
    } else if (event instanceof Event.Replanned replanned) {
      put(fields, replanned.course(), replanned.chart());
      fields.put("changes", PlanWriter.changes(replanned.changes(), replanned.chart().numbering()));
      Practice practice = replanned.practice();
      if (practice != null) {
        fields.put("practice", new JsonLayout.Document(PracticeWriter.text(practice)));
      }
    }
  }

  private static void put(Map<String, Object> fields, Course course, Chart chart) {
    String plan = PlanWriter.writeFacts(course, chart.numbering());
    fields.put("plan", new JsonLayout.Document(plan));
    fields.put("chart", new JsonLayout.Document(ChartWriter.json(chart)));
  }

  private static Map<String, Object> appointment(Event.Appointment visit) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visit", visit.visit());
    fields.put("start", visit.start().toString());
    fields.put("minutes", visit.minutes());
    if (visit.clinician() != null) {
      fields.put("clinician", visit.clinician());
    }
    return fields;
  }

  private static String check(String body) {
    CRC32C crc = new CRC32C();
    crc.update(body.getBytes(UTF_8));
    return String.format(Locale.ROOT, "%08x", crc.getValue());
  }

  /** What stands between the line's start and its check. */
  enum State {
    WHOLE,
    /** It has no check: its writing was cut off. */
    CUT,
    /** Its check does not fit it. */
    CHANGED
  }

  static State state(String line) {
    Matcher matcher = CHECKED.matcher(line);
    if (!matcher.matches()) {
      return State.CUT;
    }
    return check(matcher.group(1)).equals(matcher.group(2)) ? State.WHOLE : State.CHANGED;
  }

  /**
   * Reads a whole line.
   *
   * @param number the line's, which is the entry's too
   * @throws InvalidDocumentException with every fault
   */
  static LogEntry read(String source, int number, String line) throws InvalidDocumentException {
    Matcher matcher = CHECKED.matcher(line);
    if (!matcher.matches()) {
      throw new IllegalArgumentException("The line must be whole.");
    }
    Faults faults = new Faults();
    // Blank lines in front, so that faults name the line of the log.
    Node node = JsonDocument.read(source, "\n".repeat(number - 1) + matcher.group(1) + "}", faults);
    Kind kind = node.map().required("kind").word(List.of(Kind.values()), Kind::word);
    Fields fields = node.object(kind.keys());
    if (number == 1) {
      Node schema = fields.required("schema");
      schema.word(List.of(FIRST_SCHEMA, SCHEMA), word -> word);
      if (schema.is(SCHEMA) && !fields.has("numbering")) {
        fields.required("numbering").text();
      }
    }
    fields.required("entry").whole(number, number);
    OffsetDateTime at = time(fields.required("at"));
    @Nullable Numbering numbering =
        fields
            .optional("numbering")
            .map(said -> said.word(List.of(Numbering.values()), Numbering::word))
            .orElse(null);
    Event event = event(kind, fields, named(numbering), faults);
    faults.check();
    return new LogEntry(number, at, event, numbering);
  }

  private static OffsetDateTime time(Node node) {
    String text = node.text();
    try {
      OffsetDateTime time = OffsetDateTime.parse(text);
      if (time.getYear() >= 1900 && time.getYear() <= 9999) {
        return time;
      }
    } catch (DateTimeParseException e) {
      // Said below, with the years that are none of ours.
    }
    node.fault("a time with its offset, such as 2026-03-02T09:00:00+01:00");
    return OffsetDateTime.MIN;
  }

  private static Event event(Kind kind, Fields fields, Numbering numbering, Faults faults)
      throws InvalidDocumentException {
    VisitDoneJson records = new VisitDoneJson(numbering);
    return switch (kind) {
      case PLANNED ->
          new Event.Planned(
              PlanReader.read(fields.required("plan")).course(),
              ChartReader.read(fields.required("chart"), faults),
              PracticeReader.read(fields.required("practice"), faults));
      case VISIT_DONE -> records.read(fields.required("record"));
      case CORRECTED ->
          new Corrected(
              fields.required("corrects").whole(1, Integer.MAX_VALUE),
              records.read(fields.required("record")),
              fields.optional("why").map(n -> n.text(VisitDoneJson.NOTE)).orElse(""));
      case BOOKED -> {
        List<Event.Appointment> visits = new ArrayList<>();
        for (Node one : fields.required("visits").items(1, VisitDoneJson.MOST_VISIT)) {
          visits.add(appointment(one));
        }
        yield new Event.Booked(visits);
      }
      case TEETH_CONFIRMED -> {
        List<Tooth> teeth = new ArrayList<>();
        for (Node one : fields.required("teeth").items(1, Tooth.values().size())) {
          @Nullable Tooth tooth = records.tooth(one);
          if (tooth != null) {
            teeth.add(tooth);
          }
        }
        yield new Event.TeethConfirmed(teeth, fields.required("by").text());
      }
      case REPLANNED -> {
        @Nullable Practice practice = null;
        if (fields.has("practice")) {
          practice = PracticeReader.read(fields.required("practice"), faults);
        }
        Course course = PlanReader.read(fields.required("plan")).course();
        Chart chart = ChartReader.read(fields.required("chart"), faults);
        yield new Event.Replanned(
            course,
            chart,
            PlanReader.changes(fields.required("changes"), chart.numbering()),
            practice);
      }
    };
  }

  private static Event.Appointment appointment(Node node) {
    Fields fields = node.object("visit", "start", "minutes", "clinician");
    return new Event.Appointment(
        fields.required("visit").whole(1, VisitDoneJson.MOST_VISIT),
        AppointmentTime.read(fields.required("start")),
        fields.required("minutes").whole(1, VisitDoneJson.DAY_MINUTES),
        fields.optional("clinician").map(Node::text).orElse(null));
  }
}
