package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.JsonLayout;
import quadrille.document.Node;
import quadrille.facts.chart.Numbering;
import quadrille.facts.exchange.Meaning.What;

/**
 * What the columns and the codes of another program mean; a file of the practice, proposed from
 * what the program wrote and confirmed by a person.
 *
 * @param confirmed whether a person has looked at each line; nothing is read by one that is not
 * @param numbering how a table names teeth; null where nobody has said
 * @param columns of a table; a meaning is null where nobody has said
 * @param words what stands in cells, by what they are about, and the chart's word for it; null
 *     where nobody has said
 * @param codes of Observations
 * @param toothSystems code systems of teeth beside ISO 3950
 */
public record Mapping(
    boolean confirmed,
    @Nullable Numbering numbering,
    Map<String, @Nullable Meaning> columns,
    Map<What, Map<String, @Nullable String>> words,
    Map<Code, @Nullable Meaning> codes,
    Map<String, Numbering> toothSystems) {

  /** What the document's {@code schema} must say. */
  public static final String SCHEMA = "quadrille/mapping/1";

  /** What a person has to say yet. */
  public static final String OPEN = "?";

  /** What may have words of its own in cells. */
  static final List<What> WORDED =
      List.of(
          What.ASPECT,
          What.SITE,
          What.PLACE,
          What.DEPTH,
          What.RECESSION,
          What.BLEEDING,
          What.STATUS,
          What.DEPOSIT,
          What.FURCATION,
          What.MOBILITY,
          What.FEATURES,
          What.ALERTS);

  private static final List<String> TOP =
      List.of("schema", "confirmed", "numbering", "columns", "words", "codes", "toothSystems");
  private static final int MOST = 2000;

  /** Nothing means anything yet. */
  public static final Mapping NOTHING =
      new Mapping(false, null, Map.of(), Map.of(), Map.of(), Map.of());

  /** A code of a system. */
  public record Code(String system, String code) {}

  public Mapping {
    columns = Collections.unmodifiableMap(new LinkedHashMap<>(columns));
    words = Collections.unmodifiableMap(new LinkedHashMap<>(words));
    codes = Collections.unmodifiableMap(new LinkedHashMap<>(codes));
    toothSystems = Collections.unmodifiableMap(new LinkedHashMap<>(toothSystems));
  }

  /** The same, confirmed. */
  public Mapping asConfirmed() {
    return new Mapping(true, numbering, columns, words, codes, toothSystems);
  }

  /** The same by another numbering; null where a person has to say it. */
  public Mapping numbered(@Nullable Numbering other) {
    return new Mapping(confirmed, other, columns, words, codes, toothSystems);
  }

  /** Whether it says what each of some columns means. */
  public boolean knows(Iterable<String> header) {
    for (String column : header) {
      if (columns.get(column) == null) {
        return false;
      }
    }
    return true;
  }

  /**
   * Reads a mapping that a person has confirmed.
   *
   * @param source the document's name, for faults
   * @throws InvalidDocumentException with every fault
   */
  public static Mapping read(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    Fields top = JsonDocument.read(source, text, faults).object(TOP);
    top.required("schema").word(List.of(SCHEMA), Function.identity());
    Node confirmed = top.required("confirmed");
    if (!confirmed.truth()) {
      confirmed.fault("true, once each line has been looked at");
    }
    @Nullable Numbering numbering =
        top.optional("numbering")
            .map(node -> node.word(List.of(Numbering.values()), Numbering::word))
            .orElse(null);
    Map<String, @Nullable Meaning> columns = new LinkedHashMap<>();
    top.optional("columns").ifPresent(node -> meanings(node, columns));
    Map<What, Map<String, @Nullable String>> words = new LinkedHashMap<>();
    top.optional("words").ifPresent(node -> words(node, words));
    Map<Code, @Nullable Meaning> codes = new LinkedHashMap<>();
    top.optional("codes").ifPresent(node -> codes(node, codes));
    Map<String, Numbering> systems = new LinkedHashMap<>();
    top.optional("toothSystems")
        .map(Node::map)
        .ifPresent(
            fields -> {
              for (String system : fields.keys()) {
                systems.put(
                    system,
                    fields.required(system).word(List.of(Numbering.values()), Numbering::word));
              }
            });
    faults.check();
    return new Mapping(true, numbering, columns, words, codes, systems);
  }

  private static void meanings(Node node, Map<String, @Nullable Meaning> columns) {
    Fields fields = node.map();
    for (String column : fields.keys()) {
      meaning(fields.required(column)).ifPresent(meaning -> columns.put(column, meaning));
    }
  }

  private static Optional<Meaning> meaning(Node node) {
    String text = node.text();
    Optional<Meaning> meaning = Meaning.of(text);
    if (meaning.isEmpty() && node.isText()) {
      node.fault(
          text.equals(OPEN) ? "\"?\", which nobody has said yet" : FaultWords.quote(text),
          Meaning.ALLOWED);
    }
    return meaning;
  }

  private static void words(Node node, Map<What, Map<String, @Nullable String>> words) {
    Fields fields = node.object(WORDED.stream().map(What::word).toList());
    for (What what : WORDED) {
      fields
          .optional(what.word())
          .map(Node::map)
          .ifPresent(
              said -> {
                Map<String, @Nullable String> known = new LinkedHashMap<>();
                for (String word : said.keys()) {
                  Node value = said.required(word);
                  String text = value.text(MOST);
                  if (text.equals(OPEN) && value.isText()) {
                    value.fault("\"?\", which nobody has said yet", "the chart's word for it");
                  }
                  known.put(word, text);
                }
                words.put(what, known);
              });
    }
  }

  private static void codes(Node node, Map<Code, @Nullable Meaning> codes) {
    for (Node item : node.items(0, MOST)) {
      Fields fields = item.object("system", "code", "display", "means");
      Code code =
          new Code(fields.required("system").text(MOST), fields.required("code").text(MOST));
      Node means = fields.required("means");
      if (codes.containsKey(code)) {
        item.fault("a code a second time", "each code once");
      }
      meaning(means).ifPresent(meaning -> codes.put(code, meaning));
    }
  }

  /** The document. */
  public String text() {
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", SCHEMA);
    root.put("confirmed", confirmed);
    if (!columns.isEmpty()) {
      root.put("numbering", numbering == null ? OPEN : numbering.word());
      Map<String, Object> said = new LinkedHashMap<>();
      columns.forEach((column, meaning) -> said.put(column, text(meaning)));
      root.put("columns", said);
    }
    if (!words.isEmpty()) {
      Map<String, Object> said = new LinkedHashMap<>();
      words.forEach(
          (what, known) -> {
            Map<String, Object> of = new LinkedHashMap<>();
            known.forEach((word, now) -> of.put(word, now == null ? OPEN : now));
            said.put(what.word(), of);
          });
      root.put("words", said);
    }
    if (!codes.isEmpty()) {
      List<Object> list = new ArrayList<>();
      codes.forEach(
          (code, meaning) -> {
            Map<String, Object> one = new LinkedHashMap<>();
            one.put("system", code.system());
            one.put("code", code.code());
            one.put("means", text(meaning));
            list.add(one);
          });
      root.put("codes", list);
    }
    if (!toothSystems.isEmpty()) {
      Map<String, Object> said = new LinkedHashMap<>();
      toothSystems.forEach((system, by) -> said.put(system, by.word()));
      root.put("toothSystems", said);
    }
    return JsonLayout.text(root);
  }

  private static String text(@Nullable Meaning meaning) {
    return meaning == null ? OPEN : meaning.text();
  }

  /** A chart's word for what stands in a cell: as the mapping has it, else the cell itself. */
  String word(What what, String cell) {
    @Nullable String said = words.getOrDefault(what, Map.of()).get(cell);
    return said == null ? cell : said;
  }

  /** The first code that means just this. */
  Optional<Code> code(Meaning meaning) {
    return codes.entrySet().stream()
        .filter(entry -> meaning.equals(entry.getValue()))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  /** Words that a person chooses among for a meaning. */
  public static List<String> choices() {
    List<String> sites =
        Stream.of("facial", "lingual")
            .flatMap(
                aspect ->
                    Stream.of(Meaning.Place.values()).map(place -> aspect + " " + place.word()))
            .toList();
    List<String> choices = new ArrayList<>();
    for (What what : What.values()) {
      choices.add(what.word());
      if (what.ofSite()) {
        Stream.of(Meaning.Place.values())
            .forEach(place -> choices.add(what.word() + " " + place.word()));
        sites.forEach(site -> choices.add(what.word() + " " + site));
      }
    }
    return choices;
  }
}
