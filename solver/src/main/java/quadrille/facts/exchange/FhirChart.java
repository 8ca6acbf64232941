package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.JsonLayout;
import quadrille.document.Node;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.exchange.Mapping.Code;
import quadrille.facts.exchange.Meaning.What;

/**
 * Reads a FHIR R4 Bundle of Observations after HL7's profile for dental findings: of the category
 * dental, at a tooth, by ISO 3950 or the standard's example set. What a code means, and which site
 * it is about, the mapping says; several codings of one Observation say it together.
 */
final class FhirChart {

  /** Category of the profile. */
  static final Code DENTAL =
      new Code("http://hl7.org/fhir/us/dental-data-exchange/CodeSystem/dental-category", "dental");

  /** Teeth by ISO 3950. */
  static final String ISO = "urn:iso:std:iso:3950";

  private static final Set<String> BY_ISO =
      Set.of(ISO, "http://terminology.hl7.org/CodeSystem/ex-tooth", "http://hl7.org/fhir/ex-tooth");
  private static final Set<String> SAID = Set.of("final", "amended", "corrected");
  private static final int MOST = 2000;
  private static final double MOST_VALUE = 1e6;
  private static final int DAY = 10;

  private final Mapping mapping;
  private final Gathered gathered;
  private final Map<Code, String> unknown = new LinkedHashMap<>();
  private final Map<String, Integer> passedOver = new TreeMap<>();

  private FhirChart(Mapping mapping) {
    this.mapping = mapping;
    this.gathered = new Gathered(mapping);
  }

  static ForeignChart read(String source, String text, Mapping mapping)
      throws InvalidDocumentException {
    List<Node> findings = findings(source, text);
    FhirChart chart = new FhirChart(mapping);
    String day =
        findings.stream()
            .filter(FhirChart::said)
            .map(FhirChart::day)
            .max(String::compareTo)
            .orElse("");
    Set<String> subjects = new LinkedHashSet<>();
    findings.forEach(one -> subject(one).ifPresent(subjects::add));
    if (subjects.size() > 1) {
      Faults faults = new Faults();
      faults.add(
          findings.get(0).place(), subjects.size() + " patients", "Observations of one patient");
      throw new InvalidDocumentException(faults.list());
    }
    subjects.forEach(subject -> chart.gathered.fact(What.CASE, subject, source));
    chart.gathered.fact(What.CHARTED, day, source);
    for (Node finding : findings) {
      if (!said(finding)) {
        chart.pass("of a status other than final, amended or corrected");
      } else if (!day(finding).equals(day)) {
        chart.pass("of another day than " + day);
      } else {
        chart.finding(finding);
      }
    }
    chart.unknown.forEach(
        (code, display) ->
            chart.gathered.note(
                "Code "
                    + FaultWords.quote(code.code())
                    + " of "
                    + FaultWords.quote(code.system())
                    + (display.isEmpty() ? "" : " (" + display + ")")
                    + " means nothing by the mapping; passed over."));
    chart.passedOver.forEach(
        (why, count) ->
            chart.gathered.note(
                count
                    + (count == 1 ? " Observation" : " Observations")
                    + " passed over: "
                    + why
                    + "."));
    return chart.gathered.chart(Numbering.ISO3950);
  }

  static Mapping proposed(String source, String text) throws InvalidDocumentException {
    Map<Code, @Nullable Meaning> codes = new LinkedHashMap<>();
    for (Node finding : findings(source, text)) {
      List<Node> concepts = new ArrayList<>();
      concepts.addAll(member(finding, "code").stream().toList());
      concepts.addAll(member(finding, "bodySite").stream().toList());
      for (Node component : elements(finding, "component")) {
        concepts.addAll(member(component, "code").stream().toList());
      }
      for (Node concept : concepts) {
        for (Node coding : elements(concept, "coding")) {
          code(coding)
              .filter(code -> !BY_ISO.contains(code.system()))
              .ifPresent(
                  code ->
                      codes.putIfAbsent(
                          code, MappingProposal.meaning(text(coding, "display").orElse(""))));
        }
      }
    }
    return new Mapping(false, null, Map.of(), Map.of(), codes, Map.of());
  }

  /** The Observations of the category dental. */
  private static List<Node> findings(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    Node root = JsonDocument.read(source, text, faults);
    faults.check();
    if (!text(root, "resourceType").equals(Optional.of("Bundle"))) {
      root.fault("no Bundle", "a FHIR R4 Bundle");
      faults.check();
    }
    List<Node> findings = new ArrayList<>();
    for (Node entry : elements(root, "entry")) {
      member(entry, "resource")
          .filter(one -> text(one, "resourceType").equals(Optional.of("Observation")))
          .filter(
              one ->
                  elements(one, "category").stream()
                      .flatMap(category -> elements(category, "coding").stream())
                      .anyMatch(coding -> code(coding).equals(Optional.of(DENTAL))))
          .ifPresent(findings::add);
    }
    if (findings.isEmpty()) {
      root.fault("no Observation of the category dental", "one or more");
      faults.check();
    }
    return findings;
  }

  private static Optional<Node> member(Node node, String key) {
    return node.isObject() ? node.map().optional(key) : Optional.empty();
  }

  private static List<Node> elements(Node node, String key) {
    return member(node, key).filter(Node::isArray).map(Node::items).orElse(List.of());
  }

  private static Optional<String> text(Node node, String key) {
    return member(node, key).filter(Node::isText).map(one -> one.text(MOST));
  }

  private static Optional<Code> code(Node coding) {
    return text(coding, "system")
        .flatMap(system -> text(coding, "code").map(code -> new Code(system, code)));
  }

  private static boolean said(Node finding) {
    return text(finding, "status").filter(SAID::contains).isPresent();
  }

  private static String day(Node finding) {
    String moment = text(finding, "effectiveDateTime").orElse("");
    return moment.length() < DAY ? "" : moment.substring(0, DAY);
  }

  /** The patient's identifier where there is one, else what the reference says; never a name. */
  private static Optional<String> subject(Node finding) {
    Optional<Node> subject = member(finding, "subject");
    Optional<String> identifier =
        subject.flatMap(one -> member(one, "identifier")).flatMap(one -> text(one, "value"));
    return identifier.isPresent()
        ? identifier
        : subject
            .flatMap(one -> text(one, "reference"))
            .map(reference -> reference.substring(reference.lastIndexOf('/') + 1));
  }

  private void pass(String why) {
    passedOver.merge(why, 1, Integer::sum);
  }

  private void finding(Node finding) {
    Meaning meaning = new Meaning(null, null, null);
    List<Node> codings = new ArrayList<>();
    member(finding, "bodySite").ifPresent(site -> codings.addAll(elements(site, "coding")));
    Set<Tooth> teeth = new LinkedHashSet<>();
    for (Node coding : codings) {
      Optional.ofNullable(tooth(coding)).ifPresent(teeth::add);
    }
    if (teeth.size() != 1) {
      pass(teeth.isEmpty() ? "at no tooth of a numbering that is known" : "at more than one tooth");
      return;
    }
    Tooth tooth = teeth.iterator().next();
    gathered.tooth(tooth);
    member(finding, "code").ifPresent(code -> codings.addAll(elements(code, "coding")));
    @Nullable Meaning whole = together(codings, meaning);
    if (whole == null) {
      pass("whose codings contradict each other by the mapping");
      return;
    }
    String where = "Observation at line " + finding.place().line();
    List<Node> components = elements(finding, "component");
    if (value(finding).isEmpty() && components.isEmpty()) {
      pass("without a value that a chart takes");
    }
    take(tooth, whole, finding, where);
    for (Node component : components) {
      List<Node> more = new ArrayList<>();
      member(component, "code").ifPresent(code -> more.addAll(elements(code, "coding")));
      @Nullable Meaning said = together(more, new Meaning(null, null, null));
      if (said == null) {
        gathered.note(where + ": codings of a component contradict each other; passed over.");
      } else if (!said.text().isEmpty()) {
        // What a component says of itself goes before what its Observation says.
        take(
            tooth,
            new Meaning(
                said.what() == null ? whole.what() : said.what(),
                said.aspect() == null ? whole.aspect() : said.aspect(),
                said.place() == null ? whole.place() : said.place()),
            component,
            where);
      }
    }
  }

  private @Nullable Tooth tooth(Node coding) {
    return code(coding)
        .flatMap(
            code ->
                BY_ISO.contains(code.system())
                    ? Numbering.ISO3950.tooth(code.code())
                    : Optional.ofNullable(mapping.toothSystems().get(code.system()))
                        .flatMap(by -> by.tooth(code.code())))
        .orElse(null);
  }

  private @Nullable Meaning together(List<Node> codings, Meaning so) {
    Meaning whole = so;
    for (Node coding : codings) {
      Optional<Code> code = code(coding);
      if (code.isEmpty() || tooth(coding) != null) {
        continue;
      }
      @Nullable Meaning known = mapping.codes().get(code.get());
      if (known == null) {
        unknown.putIfAbsent(code.get(), text(coding, "display").orElse(""));
        continue;
      }
      Optional<Meaning> both = known.equals(Meaning.NONE) ? Optional.of(whole) : whole.and(known);
      if (both.isEmpty()) {
        return null;
      }
      whole = both.get();
    }
    return whole;
  }

  private void take(Tooth tooth, Meaning meaning, Node of, String where) {
    Optional<String> value = value(of);
    @Nullable What what = meaning.what();
    if (value.isEmpty() || what == null) {
      return;
    }
    if (what.ofTooth()) {
      gathered.fact(tooth, what, value.get(), where);
    } else if (what.ofSite() && meaning.aspect() != null && meaning.place() != null) {
      gathered.site(tooth, meaning.aspect(), meaning.place().of(tooth), what, value.get(), where);
    } else {
      gathered.note(where + ": which site it is of is not said by the mapping; passed over.");
    }
  }

  /** A value as a cell would hold it; of a coded one its code. */
  private static Optional<String> value(Node of) {
    Optional<Node> quantity = member(of, "valueQuantity");
    if (quantity.isPresent()) {
      if (member(quantity.get(), "comparator").isPresent()) {
        return Optional.of("not exact");
      }
      boolean mm =
          text(quantity.get(), "code")
              .or(() -> text(quantity.get(), "unit"))
              .orElse("mm")
              .equals("mm");
      return mm
          ? member(quantity.get(), "value").flatMap(FhirChart::number)
          : Optional.of("not in mm");
    }
    Optional<Node> concept = member(of, "valueCodeableConcept");
    if (concept.isPresent()) {
      return elements(concept.get(), "coding").stream()
          .flatMap(coding -> text(coding, "code").stream())
          .findFirst()
          .or(() -> text(concept.get(), "text"));
    }
    Optional<Node> truth = member(of, "valueBoolean");
    if (truth.isPresent()) {
      return truth.map(one -> one.isTruth() ? Boolean.toString(one.truth()) : one.quoted());
    }
    return member(of, "valueInteger").flatMap(FhirChart::number).or(() -> text(of, "valueString"));
  }

  private static Optional<String> number(Node node) {
    return node.isNumber()
        ? Optional.of(JsonLayout.number(node.number(-MOST_VALUE, MOST_VALUE)))
        : Optional.empty();
  }
}
