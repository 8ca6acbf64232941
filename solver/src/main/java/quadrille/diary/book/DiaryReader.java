package quadrille.diary.book;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;
import quadrille.facts.practice.FormerNames;

/** Reads a diary file (JSON or YAML, docs/diary.schema.json). */
public final class DiaryReader {

  static final int MOST_MINUTES = 1440;
  static final int MOST_DAYS = 3660;
  private static final int MOST_MARGIN = 60;

  /** What stands for a text that a fault covers. */
  private static final String STAND_IN = "?";

  private static final List<String> KEYS =
      List.of(
          "schema",
          "zone",
          "startEveryMinutes",
          "injectorMarginMinutes",
          "clinicians",
          "chairs",
          "closed",
          "stock",
          "courses",
          "bookings",
          "busy",
          "calendars",
          "exportKey",
          "journal");

  private DiaryReader() {}

  /**
   * Reads a diary. The calendars that it names are not read.
   *
   * @param source the document's name, for faults
   * @throws InvalidDocumentException with every fault
   */
  public static Diary read(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    Fields root = JsonDocument.read(source, text, faults).object(KEYS);
    schema(root.required("schema"));
    @Nullable ZoneId zone = zone(root.required("zone"));
    int grid = grid(root.required("startEveryMinutes"));
    @Nullable Integer margin =
        root.optional("injectorMarginMinutes").map(node -> node.whole(0, MOST_MARGIN)).orElse(null);
    List<Clinician> clinicians =
        named(
            root.required("clinicians").items(1, 200),
            DiaryReader::clinician,
            Clinician::id,
            "clinician");
    List<Chair> chairs =
        named(root.required("chairs").items(1, 200), DiaryReader::chair, Chair::id, "chair");
    List<TimeOff> closed = each(root, "closed", HoursReading::off);
    SterileStock stock = stock(root.required("stock"));
    Known known =
        new Known(
            zone,
            clinicians.stream().map(Clinician::id).toList(),
            chairs.stream().map(Chair::id).toList(),
            stock.sets().stream().map(SterileStock.SterileSet::name).toList());
    List<CourseRequest> courses =
        named(
            root.optional("courses").map(Node::items).orElse(List.of()),
            node -> new CourseReading(known).course(node),
            CourseRequest::caseName,
            "case");
    Map<String, CourseRequest> byCase = new LinkedHashMap<>();
    courses.forEach(course -> byCase.putIfAbsent(course.caseName(), course));
    List<Booking> bookings =
        named(
            root.optional("bookings").map(Node::items).orElse(List.of()),
            node -> booking(node, known, byCase),
            Booking::id,
            "booking");
    List<BusyTime> busy = each(root, "busy", node -> busy(node, known));
    List<CalendarLink> calendars = each(root, "calendars", node -> calendar(node, known));
    @Nullable String exportKey = root.optional("exportKey").map(DiaryReader::key).orElse(null);
    List<JournalEntry> journal = new JournalReading(known).entries(root);
    faults.check();
    return new Diary(
        zone == null ? ZoneOffset.UTC : zone,
        grid,
        clinicians,
        chairs,
        closed,
        stock,
        courses,
        bookings,
        busy,
        calendars,
        journal,
        margin,
        exportKey);
  }

  /** What other parts of the diary may name; no zone where a fault says so. */
  record Known(
      @Nullable ZoneId zone, List<String> clinicians, List<String> chairs, List<String> sets) {

    /** Whatever is named: of what was there once, not all is there still. */
    Known whatever() {
      List<String> any = List.of(STAND_IN);
      return new Known(zone, any, any, any);
    }

    String clinician(Node node) {
      return one(clinicians, node);
    }

    String chair(Node node) {
      return one(chairs, node);
    }

    /** Where a name itself is at fault, what names it is not. */
    private static String one(List<String> names, Node node) {
      return names.contains(STAND_IN) ? node.text() : node.word(names, Function.identity());
    }

    List<String> sets(Fields fields) {
      List<String> read = new ArrayList<>();
      for (Node item : fields.optional("sets").map(Node::items).orElse(List.of())) {
        if (sets.isEmpty()) {
          item.fault("no set, since the stock has none");
        } else {
          read.add(one(sets, item.reworded(FormerNames::insert)));
        }
      }
      return List.copyOf(read);
    }

    /** A span between the moments {@code start} and {@code end}. */
    Interval span(Fields fields, int mostMinutes) {
      Node end = fields.required("end");
      Instant from = fields.required("start").moment(zone);
      Instant to = end.moment(zone);
      if (to.equals(Instant.EPOCH) || from.equals(Instant.EPOCH)) {
        return Interval.of(from, 1);
      }
      if (!to.isAfter(from) || to.isAfter(from.plusSeconds(60L * mostMinutes))) {
        end.fault("a moment after the start, at most " + mostMinutes + " minutes later");
        return Interval.of(from, 1);
      }
      return new Interval(from, to);
    }
  }

  private static void schema(Node node) {
    if (!node.is(Diary.SCHEMA)) {
      node.fault(FaultWords.quote(Diary.SCHEMA));
    }
  }

  /** Null where a fault says that there is none. */
  private static @Nullable ZoneId zone(Node node) {
    if (!node.isText()) {
      node.fault("a time zone as \"Europe/Paris\"");
      return null;
    }
    String name = node.text();
    // Short forms such as EST mean different things to different people.
    Optional<ZoneId> zone =
        name.contains("/") || name.equals("UTC") ? known(name) : Optional.empty();
    if (zone.isEmpty()) {
      List<String> all =
          ZoneId.getAvailableZoneIds().stream().filter(id -> id.contains("/")).sorted().toList();
      node.fault(
          "a time zone of the IANA database, as \"Europe/Paris\", or \"UTC\""
              + FaultWords.suggestion(all, name));
    }
    return zone.orElse(null);
  }

  private static Optional<ZoneId> known(String name) {
    try {
      return Optional.of(ZoneId.of(name)).filter(id -> ZoneId.getAvailableZoneIds().contains(name));
    } catch (DateTimeException unknown) {
      return Optional.empty();
    }
  }

  private static int grid(Node node) {
    int minutes = node.whole(5, 60);
    if (!Diary.GRIDS.contains(minutes)) {
      node.fault(FaultWords.either(Diary.GRIDS.stream().map(String::valueOf).toList()));
      return 10;
    }
    return minutes;
  }

  /** Entries whose names must differ. */
  private static <T> List<T> named(
      List<Node> items, Function<Node, T> reader, Function<T, String> name, String what) {
    Set<String> met = new LinkedHashSet<>();
    List<T> read = new ArrayList<>();
    for (Node item : items) {
      T one = reader.apply(item);
      if (!name.apply(one).equals(STAND_IN) && !met.add(name.apply(one))) {
        item.fault(
            what + " " + FaultWords.quote(name.apply(one)) + " a second time",
            "each " + what + " once");
      }
      read.add(one);
    }
    return List.copyOf(read);
  }

  static <T> List<T> each(Fields fields, String key, Function<Node, T> reader) {
    return fields.optional(key).map(Node::items).orElse(List.of()).stream().map(reader).toList();
  }

  private static String key(Node node) {
    String key = node.text();
    if (node.is(key) && !ExportNames.isKey(key)) {
      node.fault(ExportNames.KEY_LENGTH + " digits 0 to 9 and a to f, as the program makes them");
    }
    return key;
  }

  private static Clinician clinician(Node node) {
    Fields fields = node.object("id", "name", "may", "hours", "extra", "off");
    return new Clinician(
        fields.required("id").text(40),
        fields.required("name").text(),
        capabilities(fields, "may"),
        each(fields, "hours", HoursReading::weekly),
        each(fields, "extra", HoursReading::extra),
        each(fields, "off", HoursReading::off));
  }

  static List<Capability> capabilities(Fields fields, String key) {
    return fields
        .optional(key)
        .map(node -> node.words(Capability.ALL, Capability::word))
        .orElse(List.of());
  }

  private static Chair chair(Node node) {
    Fields fields = node.object("id", "name", "off");
    return new Chair(
        fields.required("id").text(40),
        fields.required("name").text(),
        each(fields, "off", HoursReading::off));
  }

  private static SterileStock stock(Node node) {
    Fields fields = node.object("reprocessingMinutes", "sets");
    int minutes = fields.required("reprocessingMinutes").whole(0, MOST_MINUTES);
    List<SterileStock.SterileSet> sets =
        named(
            fields.required("sets").items(),
            item -> {
              Fields set = item.object("name", "count", "everyVisit");
              return new SterileStock.SterileSet(
                  FormerNames.insert(set.required("name").text()),
                  set.required("count").whole(0, 1000),
                  set.optional("everyVisit").map(Node::truth).orElse(false));
            },
            SterileStock.SterileSet::name,
            "set");
    return new SterileStock(minutes, sets);
  }

  /**
   * A booking.
   *
   * @param courses by case, of which its course must be one; null where it may be gone
   */
  static Booking booking(Node node, Known known, @Nullable Map<String, CourseRequest> courses) {
    Fields fields =
        node.object(
            "id",
            "case",
            "visit",
            "start",
            "end",
            "clinician",
            "chair",
            "sets",
            "needs",
            "injections",
            "status",
            "until",
            "changes");
    Node caseNode = fields.required("case");
    Node visitNode = fields.required("visit");
    String caseName = caseNode.text();
    int visit = visitNode.whole(1, 99);
    if (courses != null) {
      ofCourse(caseNode, visitNode, caseName, visit, courses);
    }
    Interval time = known.span(fields, MOST_MINUTES);
    Node statusNode = fields.required("status");
    BookingStatus status = statusNode.word(BookingStatus.ALL, BookingStatus::word);
    Optional<Node> until = fields.optional("until");
    if (status != BookingStatus.HELD) {
      until.ifPresent(end -> end.fault("nothing: only what is held is held until a time"));
    }
    return new Booking(
        fields.required("id").text(80),
        caseName,
        visit,
        time.start(),
        Math.toIntExact(time.minutes()),
        known.clinician(fields.required("clinician")),
        known.chair(fields.required("chair")),
        known.sets(fields),
        capabilities(fields, "needs"),
        status,
        fields.optional("changes").map(changes -> changes.whole(0, Booking.MOST_CHANGES)).orElse(0),
        until.map(end -> end.moment(known.zone())).orElse(null),
        each(fields, "injections", item -> call(item, known, time)));
  }

  /** Someone who comes to inject, within the visit. */
  private static InjectorCall call(Node node, Known known, Interval visit) {
    Fields fields = node.object("clinician", "from", "to");
    String who = known.clinician(fields.required("clinician"));
    Node fromNode = fields.required("from");
    Node toNode = fields.required("to");
    Instant from = fromNode.moment(known.zone());
    Instant to = toNode.moment(known.zone());
    if (from.equals(Instant.EPOCH) || to.equals(Instant.EPOCH)) {
      return new InjectorCall(who, 0, 1);
    }
    if (from.isBefore(visit.start()) || !from.isBefore(visit.end())) {
      fromNode.fault("a moment of the visit");
      return new InjectorCall(who, 0, 1);
    }
    if (!to.isAfter(from) || to.isAfter(visit.end())) {
      toNode.fault("a moment after it begins, at the latest the end of the visit");
      return new InjectorCall(who, 0, 1);
    }
    int begins = Math.toIntExact(Duration.between(visit.start(), from).toMinutes());
    return new InjectorCall(
        who, begins, begins + Math.toIntExact(Duration.between(from, to).toMinutes()));
  }

  private static void ofCourse(
      Node caseNode,
      Node visitNode,
      String caseName,
      int visit,
      Map<String, CourseRequest> courses) {
    Optional<CourseRequest> course = Optional.ofNullable(courses.get(caseName));
    if (course.isEmpty() && caseNode.isText()) {
      caseNode.fault(
          "a case of /courses" + FaultWords.suggestion(List.copyOf(courses.keySet()), caseName));
    }
    course.ifPresent(
        found -> {
          if (found.visit(visit).isEmpty() && visitNode.isNumber()) {
            List<String> numbers =
                found.visits().stream().map(one -> String.valueOf(one.number())).toList();
            visitNode.fault("a visit of its course: " + FaultWords.either(numbers));
          }
        });
  }

  private static BusyTime busy(Node node, Known known) {
    Fields fields = node.object("start", "end", "clinician", "chair", "sets");
    return new BusyTime(
        known.span(fields, MOST_DAYS * MOST_MINUTES),
        orNull(fields, "clinician", known::clinician),
        orNull(fields, "chair", known::chair),
        known.sets(fields),
        null);
  }

  private static CalendarLink calendar(Node node, Known known) {
    Fields fields = node.object("file", "clinician", "chair");
    return new CalendarLink(
        fields.required("file").text(),
        orNull(fields, "clinician", known::clinician),
        orNull(fields, "chair", known::chair));
  }

  static @Nullable String orNull(Fields fields, String key, Function<Node, String> reader) {
    return fields.optional(key).map(reader).orElse(null);
  }
}
