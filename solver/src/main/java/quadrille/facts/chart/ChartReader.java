package quadrille.facts.chart;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;
import quadrille.document.TextFiles;

/**
 * Reads a chart from JSON, YAML, CSV or tooth lines. Either it is valid as a whole, or every fault
 * is reported: nothing is guessed about a patient, and nothing that was written is passed over.
 *
 * <p>The JSON shape is published as {@code docs/chart.schema.json}. For CSV see {@link #csv}, for
 * tooth lines {@link #lines}.
 */
public final class ChartReader {

  /** What the document's {@code schema} must say. */
  public static final String SCHEMA = "quadrille/chart/1";

  static final List<String> TOOTH_FACTS =
      List.of("status", "deposit", "furcation", "mobility", "features");
  static final List<String> PATIENT_FACTS =
      List.of(
          "ageYears",
          "weightKg",
          "longestVisitMinutes",
          "alerts",
          "startWith",
          "wishesNumbness",
          "notes");

  /** The sites of an aspect, as they are called. */
  static final List<String> SITES = List.of("distal", "middle", "mesial");

  private static final List<String> TOP =
      List.of("schema", "case", "charted", "numbering", "patient", "wishes", "teeth");
  private static final List<String> TOOTH =
      List.of(
          "tooth", "status", "deposit", "furcation", "mobility", "features", "facial", "lingual");
  private static final String NO_PRIMARY = "work on primary teeth is not planned";
  private static final int DEEPEST_MM = 20;
  private static final int MOST_NOTES = 2000;

  private final Faults faults;
  private final Map<String, Node> seen = new LinkedHashMap<>();
  private @Nullable Numbering numbering;

  private ChartReader(Faults faults) {
    this.faults = faults;
  }

  /**
   * Reads a chart file in UTF-8.
   *
   * @param file read by the ending of its name; without a known ending, as {@link #read(String,
   *     String)} says
   * @throws InvalidDocumentException with every fault
   * @throws IOException where the file cannot be read
   */
  public static Chart read(Path file) throws IOException, InvalidDocumentException {
    Path name = file.getFileName();
    return read(name == null ? file.toString() : name.toString(), TextFiles.read(file));
  }

  /**
   * Reads a chart.
   *
   * @param source the document's name, for faults; where it ends in {@code .csv}, {@code .json},
   *     {@code .yaml}, {@code .yml} or {@code .teeth}, the text is read so; otherwise as JSON if it
   *     starts with a brace, as tooth lines if its first line starts as theirs do, as CSV if not
   * @param text the whole document
   * @throws InvalidDocumentException with every fault
   */
  public static Chart read(String source, String text) throws InvalidDocumentException {
    String name = source.toLowerCase(Locale.ROOT);
    if (name.endsWith(".csv")) {
      return csv(source, text);
    }
    if (name.endsWith(".teeth")) {
      return lines(source, text);
    }
    if (name.endsWith(".json") || name.endsWith(".yaml") || name.endsWith(".yml")) {
      return json(source, text);
    }
    String start = text.startsWith("\uFEFF") ? text.substring(1) : text;
    if (start.isBlank() || start.stripLeading().startsWith("{")) {
      return json(source, text);
    }
    return ToothLines.looksLike(start) ? lines(source, text) : csv(source, text);
  }

  /**
   * Reads a chart from JSON, or from YAML where the source's name ends so.
   *
   * @param source the document's name, for faults
   * @throws InvalidDocumentException with every fault
   */
  public static Chart json(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    return new ChartReader(faults).chart(JsonDocument.read(source, text, faults));
  }

  /**
   * Reads a chart that stands within another document.
   *
   * @param faults the document's
   * @throws InvalidDocumentException with every fault of the document so far, where there is one
   */
  public static Chart read(Node node, Faults faults) throws InvalidDocumentException {
    return new ChartReader(faults).chart(node);
  }

  /**
   * Reads a chart from CSV: one row a tooth and aspect, under a header with the columns {@code
   * tooth}, {@code aspect}, {@code status}, {@code deposit}, {@code furcation}, {@code mobility},
   * {@code features} (with spaces between), and {@code depth}, {@code recession} and {@code
   * bleeding} each for {@code Distal}, {@code Middle} and {@code Mesial}, in any order. A blank
   * depth was not probed. What concerns the tooth may stand in either of its rows or in both. In
   * front of the header stand lines such as {@code # case: K-1042}, {@code # numbering: iso3950},
   * {@code # ageYears: 54}, {@code # alerts: diabetes anxious}, or {@code # alerts: none} where the
   * history was taken and has none.
   *
   * @param source the document's name, for faults
   * @throws InvalidDocumentException with every fault
   */
  public static Chart csv(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    return new ChartReader(faults).chart(ChartCsv.read(source, text, faults));
  }

  /**
   * Reads a chart from tooth lines, one line a tooth: {@code 16 heavy f2 m1 crowded | 6b/1 4 7b/1 |
   * 5 - 6b} says facial, then lingual, each distal, middle, mesial. A site is its depth in mm or
   * {@code -} where it was not probed, then {@code b} where it bled, then {@code /} and the
   * recession in mm. Lines such as {@code case K-1042} and {@code age 54 weight 70} say what
   * concerns the chart and the patient; {@code #} begins a comment.
   *
   * @param source the document's name, for faults
   * @throws InvalidDocumentException with every fault
   */
  public static Chart lines(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    return new ChartReader(faults).chart(ToothLines.read(source, text, faults));
  }

  private Chart chart(Node root) throws InvalidDocumentException {
    Fields top = root.object(TOP);
    top.required("schema").word(List.of(SCHEMA), Function.identity());
    String caseName = top.required("case").text();
    Optional<LocalDate> charted = top.optional("charted").map(Node::date);
    Node named = top.required("numbering");
    Numbering stated = named.word(List.of(Numbering.values()), Numbering::word);
    // A misspelt numbering is one fault, and no reason to doubt every tooth.
    numbering = named.is(stated.word()) ? stated : null;
    Patient patient = patient(top.required("patient").object(PATIENT_FACTS));
    List<ToothChart> teeth = teeth(top.required("teeth"));
    List<Wish> wishes = top.optional("wishes").map(node -> wishes(node, teeth)).orElse(List.of());
    faults.check();
    return new Chart(caseName, charted.orElse(null), stated, patient.withWishes(wishes), teeth);
  }

  /** A list of objects or, where a document holds texts only, sentences with semicolons between. */
  private List<Wish> wishes(Node node, List<ToothChart> teeth) {
    Numbering by = numbering;
    List<Wish> wishes = new ArrayList<>();
    if (by == null) {
      return wishes;
    }
    Map<Wish, Node> said = new LinkedHashMap<>();
    if (node.isText()) {
      for (String sentence : node.text(MOST_NOTES).split(";", -1)) {
        WishSentences.read(
                sentence,
                by,
                (found, allowed) ->
                    node.fault("in the wish " + FaultWords.quote(sentence) + ": " + found, allowed))
            .ifPresent(wish -> said.put(wish, node));
      }
    } else {
      for (Node item : node.items(0, Wish.MOST)) {
        said.put(WishFields.read(item.object(WishFields.KEYS), by), item);
      }
    }
    said.forEach(
        (wish, item) ->
            WishSentences.nowhere(wish, teeth)
                .ifPresent(
                    region ->
                        item.fault(
                            "a wish for " + region.name(by),
                            "places where a natural tooth or an implant stands")));
    wishes.addAll(said.keySet());
    WishSentences.fault(wishes, by)
        .ifPresent(fault -> node.fault(fault, "wishes that go together"));
    return wishes;
  }

  private static Patient patient(Fields patient) {
    return new Patient(
        patient.optional("ageYears").map(node -> node.whole(0, 120)).orElse(null),
        patient.optional("weightKg").map(node -> node.number(2, 400)).orElse(null),
        patient.optional("longestVisitMinutes").map(node -> node.whole(10, 480)).orElse(null),
        patient.optional("alerts").map(ChartReader::history).orElse(History.UNKNOWN),
        patient
            .optional("startWith")
            .map(node -> node.word(List.of(Quadrant.values()), Quadrant::name))
            .orElse(null),
        patient.optional("wishesNumbness").map(Node::truth).orElse(false),
        List.of(),
        patient.optional("notes").map(node -> node.text(MOST_NOTES)).orElse(null));
  }

  /** An empty list says that somebody asked, and found nothing. */
  private static History history(Node node) {
    return History.of(Set.copyOf(node.words(List.of(Alert.values()), Alert::word)));
  }

  private List<ToothChart> teeth(Node node) {
    List<ToothChart> teeth = new ArrayList<>();
    List<Node> items = node.items(1, Integer.MAX_VALUE);
    boolean worked = false;
    for (Node item : items) {
      name(item);
      Fields fields = item.object(TOOTH);
      Optional<ToothStatus> status = status(fields);
      worked |= status.map(ChartReader::worked).orElse(true);
      tooth(fields, status).ifPresent(teeth::add);
    }
    if (!worked && node.isArray() && node.items().size() > 0) {
      node.fault("no natural tooth and no implant", "at least one to work on");
    }
    return teeth;
  }

  /** Lets each fault of a tooth say of which. */
  private void name(Node item) {
    Numbering by = numbering;
    if (by != null && item.isObject()) {
      item.map()
          .optional("tooth")
          .flatMap(code -> tooth(code, by))
          .ifPresent(tooth -> item.call("tooth " + by.name(tooth)));
    }
  }

  private static Optional<Tooth> tooth(Node code, Numbering by) {
    return Tooth.values().stream().filter(one -> code.is(by.name(one))).findFirst();
  }

  private static boolean worked(ToothStatus status) {
    return status == ToothStatus.NATURAL || status == ToothStatus.IMPLANT;
  }

  /** Empty where a fault leaves open what it is, so that no other rule need hold. */
  private static Optional<ToothStatus> status(Fields fields) {
    if (!fields.node().isObject()) {
      return Optional.empty();
    }
    Optional<Node> node = fields.optional("status");
    if (node.isEmpty()) {
      return Optional.of(ToothStatus.NATURAL);
    }
    ToothStatus status = node.get().word(List.of(ToothStatus.values()), ToothStatus::word);
    return Optional.of(status).filter(read -> node.get().is(read.word()));
  }

  private Optional<ToothChart> tooth(Fields fields, Optional<ToothStatus> status) {
    Optional<Tooth> tooth = code(fields.required("tooth"), fields.node());
    boolean worked = status.map(ChartReader::worked).orElse(false);
    Optional<Node> depositNode =
        worked ? Optional.of(fields.required("deposit")) : fields.optional("deposit");
    Deposit deposit =
        depositNode
            .map(node -> node.word(List.of(Deposit.values()), Deposit::word))
            .orElse(Deposit.NONE);
    int furcation = grade(fields, "furcation");
    int mobility = grade(fields, "mobility");
    List<Feature> features =
        fields
            .optional("features")
            .map(node -> node.words(List.of(Feature.values()), Feature::word))
            .orElse(List.of());
    AspectReading facial = aspect(fields, "facial");
    AspectReading lingual = aspect(fields, "lingual");
    for (String aspect : List.of("facial", "lingual")) {
      if (worked && !fields.has(aspect)) {
        fields
            .node()
            .fault("no \"" + aspect + "\"", "both aspects of a natural tooth or an implant");
      }
    }
    if (status.equals(Optional.of(ToothStatus.MISSING))) {
      nothingOf(fields, deposit, furcation, mobility, features);
    } else if (furcation > 0) {
      furcation(fields.required("furcation"), tooth, status);
    }
    if (tooth.isEmpty() || status.isEmpty() || (worked && (facial == null || lingual == null))) {
      return Optional.empty();
    }
    return Optional.of(
        new ToothChart(
            tooth.get(),
            status.get(),
            deposit,
            furcation,
            mobility,
            features.isEmpty() ? Set.of() : EnumSet.copyOf(features),
            facial,
            lingual));
  }

  private Optional<Tooth> code(Node code, Node tooth) {
    if (numbering == null) {
      if (!code.isText()) {
        code.fault("a tooth in quotes");
      }
    } else if (code.isNumber()) {
      code.fault(allowed(numbering) + ", in quotes");
      return Optional.empty();
    }
    Optional<Tooth> named = numbering == null ? Optional.empty() : tooth(code, numbering);
    if (numbering != null && named.isEmpty()) {
      code.fault(allowed(numbering) + (isPrimary(code, numbering) ? "; " + NO_PRIMARY : ""));
      return named;
    }
    if (code.isText()) {
      Node first = seen.putIfAbsent(code.quoted(), tooth);
      if (first != null) {
        code.fault(
            "tooth " + code.quoted() + " a second time (first at " + first.place() + ")",
            "each tooth once");
      }
    }
    return named;
  }

  /** Whether it names a primary tooth: 51 to 85 by ISO 3950, A to T beside the numbers 1 to 32. */
  private static boolean isPrimary(Node code, Numbering numbering) {
    return code.isText()
        && code.quoted().matches(numbering == Numbering.ISO3950 ? "\"[5-8][1-5]\"" : "\"[A-T]\"");
  }

  private static String allowed(Numbering numbering) {
    return switch (numbering) {
      case ISO3950 ->
          "the ISO 3950 code of a permanent tooth: 11 to 18, 21 to 28, 31 to 38 or 41 to 48";
      case UNIVERSAL -> "the number of a permanent tooth: 1 to 32";
    };
  }

  private static int grade(Fields fields, String key) {
    return fields.optional(key).map(node -> node.whole(0, 3)).orElse(0);
  }

  private static void furcation(Node node, Optional<Tooth> tooth, Optional<ToothStatus> status) {
    if (status.equals(Optional.of(ToothStatus.IMPLANT))) {
      node.fault("furcation " + node.quoted() + " of an implant", "0 of an implant");
    } else if (tooth.isPresent() && !tooth.get().furcated()) {
      node.fault(
          "furcation " + node.quoted() + " of a tooth whose roots do not part",
          "0 of any tooth but a molar or an upper first premolar");
    }
  }

  /** A missing tooth may say that there is nothing, and nothing else. */
  private static void nothingOf(
      Fields fields, Deposit deposit, int furcation, int mobility, List<Feature> features) {
    String allowed = "nothing charted of a missing tooth";
    for (String aspect : List.of("facial", "lingual")) {
      fields.optional(aspect).ifPresent(node -> node.fault("a reading", allowed));
    }
    if (deposit != Deposit.NONE) {
      fields.required("deposit").fault(allowed);
    }
    if (furcation > 0) {
      fields.required("furcation").fault(allowed);
    }
    if (mobility > 0) {
      fields.required("mobility").fault(allowed);
    }
    if (!features.isEmpty()) {
      fields.required("features").fault(allowed);
    }
  }

  private static @Nullable AspectReading aspect(Fields tooth, String aspect) {
    return tooth.optional(aspect).map(node -> aspect(node.call(aspect))).orElse(null);
  }

  private static AspectReading aspect(Node node) {
    Fields fields = node.object("depthMm", "recessionMm", "bleeding");
    List<Node> depths = sites(fields.required("depthMm"));
    Optional<List<Node>> recessions = fields.optional("recessionMm").map(ChartReader::sites);
    Optional<List<Node>> bleedings = fields.optional("bleeding").map(ChartReader::sites);
    List<Site> sites = new ArrayList<>();
    for (int site = 0; site < 3; site++) {
      int at = site;
      sites.add(
          new Site(
              depths.get(at).wholeOrNull(0, DEEPEST_MM),
              recessions.map(list -> list.get(at).whole(-10, 20)).orElse(0),
              bleedings.map(list -> list.get(at).truth()).orElse(false)));
    }
    return new AspectReading(sites.get(0), sites.get(1), sites.get(2));
  }

  private static List<Node> sites(Node measured) {
    List<Node> sites = measured.items(3, 3);
    for (int site = 0; site < 3; site++) {
      sites.get(site).call(SITES.get(site));
    }
    return sites;
  }
}
