package quadrille.facts.practice;

import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;

/**
 * Reads practice files. A practice file holds only what differs from the default practice: objects
 * are laid over the default key by key, lists replace the default's list, {@code null} removes an
 * insert, an agent, an injection or an optional key. A number may be bare; it then rests on {@link
 * Figure#OWN}.
 */
public final class PracticeReader {

  private static final List<String> KEYS =
      List.of(
          "schema",
          "name",
          "contact",
          "appointments",
          "inserts",
          "passes",
          "selection",
          "minutes",
          "frame",
          "numbing",
          "agents",
          "preferredAgents",
          "ruleSet",
          "epinephrineCapMg",
          "injections",
          "gel",
          "alerts",
          "weights",
          "codeHint",
          "changes");

  private PracticeReader() {}

  /** The default practice. */
  public static Practice defaults() {
    return Defaults.PRACTICE;
  }

  /** The default practice of a release, in the keys of today. */
  public static Practice defaults(RuleVersion rules) {
    return rules == RuleVersion.PRESENT ? Defaults.PRACTICE : Defaults.FIRST;
  }

  /**
   * The default practice with a practice file laid over it.
   *
   * @param source the document's name, for faults
   * @param text JSON
   * @throws InvalidDocumentException with every fault
   */
  public static Practice read(String source, String text) throws InvalidDocumentException {
    return read(source, text, RuleVersion.PRESENT);
  }

  /** The same over the default practice of a release. */
  public static Practice read(String source, String text, RuleVersion rules)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    return read(JsonDocument.read(source, text, faults), faults, rules);
  }

  /**
   * The default practice with one laid over it that stands within another document.
   *
   * @param faults the document's
   * @throws InvalidDocumentException with every fault of the document so far, where there is one
   */
  public static Practice read(Node own, Faults faults) throws InvalidDocumentException {
    return read(own, faults, RuleVersion.PRESENT);
  }

  /** The same over the default practice of a release. */
  public static Practice read(Node own, Faults faults, RuleVersion rules)
      throws InvalidDocumentException {
    Fields fields = own.object(KEYS);
    if (own.isObject()) {
      fields.required("schema").word(List.of(PracticeWords.SCHEMA), word -> word);
    }
    Node defaults = defaults(rules, faults);
    // Without an object there is nothing to lay over, and its fault says all.
    Node both =
        own.isObject()
            ? defaults.overlaidBy(own.renamed("inserts", FormerNames::insert))
            : defaults;
    Practice practice = practice(both.object(KEYS), Defaults.PRACTICE);
    fields.optional("changes").ifPresent(SettingChange::list);
    faults.check();
    return fields.has("name") ? practice : renamed(practice);
  }

  private static Node defaults(RuleVersion rules, Faults faults) throws InvalidDocumentException {
    Node present = JsonDocument.read(FigureReading.DEFAULTS, PracticeWriter.defaultText(), faults);
    return rules == RuleVersion.PRESENT
        ? present
        : present.overlaidBy(
            JsonDocument.read(FigureReading.DEFAULTS, PracticeWriter.firstText(), faults));
  }

  /** The default, read once; a fault in it is the program's own. */
  private static final class Defaults {
    static final Practice PRACTICE = read(RuleVersion.PRESENT, null);
    static final Practice FIRST = read(RuleVersion.FIRST, PRACTICE);

    private static Practice read(RuleVersion rules, @Nullable Practice known) {
      Faults faults = new Faults();
      try {
        Practice practice = practice(PracticeReader.defaults(rules, faults).object(KEYS), known);
        faults.check();
        return practice;
      } catch (InvalidDocumentException e) {
        throw new IllegalStateException("The default practice is invalid.", e);
      }
    }
  }

  /**
   * @param defaults null while the default practice itself is read
   */
  private static Practice practice(Fields fields, @Nullable Practice defaults) {
    Map<String, Insert> knownInserts = defaults == null ? Map.of() : defaults.inserts();
    Map<String, Insert> inserts =
        InsertReading.inserts(
            fields.required("inserts"), knownNames(fields, "inserts", defaults, knownInserts));
    Map<String, Agent> knownAgents = defaults == null ? Map.of() : defaults.agents();
    Map<String, Agent> agents =
        AnaesthesiaReading.agents(
            fields.required("agents"), knownNames(fields, "agents", defaults, knownAgents));
    Map<String, Injection> knownInjections = defaults == null ? Map.of() : defaults.injections();
    Gel gel = AnaesthesiaReading.gel(fields.required("gel"));
    Node appointmentsNode = fields.required("appointments");
    Appointments appointments = SettingsReading.appointments(appointmentsNode);
    Frame frame = SettingsReading.frame(fields.required("frame"));
    return new Practice(
        fields.required("name").text(80),
        fields.optional("contact").map(PracticeReader::contact).orElse(Contact.NONE),
        appointments,
        inserts,
        InsertReading.passes(fields.required("passes")),
        InsertReading.selection(fields.required("selection"), inserts, knownInserts),
        SettingsReading.minutes(
            fields.required("minutes"),
            appointments,
            appointmentsNode.map().required("longestVisitMinutes"),
            frame),
        frame,
        AnaesthesiaReading.numbing(fields.required("numbing")),
        agents,
        AnaesthesiaReading.preferred(
            fields.required("preferredAgents"), agents, fields.required("agents")),
        fields.required("ruleSet").word(List.of(RuleSet.values()), RuleSet::word),
        FigureReading.number(
            fields.required("epinephrineCapMg"), 0, AnaesthesiaReading.MOST_EPINEPHRINE_MG),
        AnaesthesiaReading.injections(
            fields.required("injections"),
            knownNames(fields, "injections", defaults, knownInjections)),
        gel,
        SettingsReading.alerts(fields.required("alerts"), forbiddable(knownAgents, agents, gel)),
        SettingsReading.weights(fields.required("weights")),
        SettingsReading.codeHint(fields.required("codeHint")));
  }

  private static Contact contact(Node node) {
    Fields fields = node.object(Contact.KEYS);
    return new Contact(
        line(fields, "address"),
        line(fields, "phone"),
        line(fields, "email"),
        line(fields, "hours"),
        line(fields, "outOfHours"));
  }

  private static @Nullable String line(Fields fields, String key) {
    return fields.optional(key).map(Node::text).orElse(null);
  }

  /** The names of the default's entries; the default itself has no new ones. */
  private static List<String> knownNames(
      Fields fields, String key, @Nullable Practice defaults, Map<String, ?> known) {
    return defaults == null ? fields.required(key).map().keys() : List.copyOf(known.keySet());
  }

  private static List<String> forbiddable(
      Map<String, Agent> known, Map<String, Agent> agents, Gel gel) {
    TreeSet<String> words = new TreeSet<>(gel.drugs());
    words.addAll(AnaesthesiaReading.TOPICAL);
    Stream.concat(known.values().stream(), agents.values().stream())
        .forEach(
            agent -> {
              words.add(agent.drug());
              words.add(agent.vasoconstrictor());
            });
    words.remove("none");
    return List.copyOf(words);
  }

  /** A changed practice must not pass for the default. */
  private static Practice renamed(Practice practice) {
    return practice.withName(practice.name() + ", changed");
  }
}
