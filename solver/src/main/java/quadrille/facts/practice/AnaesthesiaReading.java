package quadrille.facts.practice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.document.Fields;
import quadrille.document.JsonLayout;
import quadrille.document.Node;
import quadrille.facts.chart.Jaw;

/** Reads numbing, agents, injections and gel. */
final class AnaesthesiaReading {

  static final List<String> VASOCONSTRICTORS = List.of("epinephrine", "levonordefrin", "none");

  /** Drugs of topical anaesthetics, which no plan gives, and which alerts forbid all the same. */
  static final List<String> TOPICAL = List.of("benzocaine");

  /** The highest epinephrine cap that is taken for meant; the published one is 0.2 mg. */
  static final double MOST_EPINEPHRINE_MG = 0.5;

  private static final List<String> AGENT_KEYS =
      List.of(
          "words",
          "drug",
          "vasoconstrictor",
          "mgPerMl",
          "epinephrineMgPerMl",
          "cartridgeMl",
          "limits",
          "pulpalMinutes",
          "softTissueMinutes",
          "onsetMinutes");
  private static final NamedEntries AGENTS =
      new NamedEntries(
          "an agent",
          Stream.concat(
                  AGENT_KEYS.stream(),
                  Stream.of(
                      "fromAgeYears", "lowerBlockPriceSeconds", "lowerBlockPulpalMinutes", "ester"))
              .toList(),
          AGENT_KEYS);

  private static final NamedEntries INJECTIONS =
      new NamedEntries(
          "an injection",
          List.of(
              "jaw",
              "technique",
              "superficial",
              "perTooth",
              "bothSides",
              "neverBothSides",
              "acrossMidline",
              "pulp",
              "mesiobuccalRoot",
              "facial",
              "lingual",
              "notDependable",
              "ml",
              "volumes",
              "mlPerMinute",
              "pulpOnsetMinutes",
              "tissueOnsetMinutes",
              "failureShare",
              "source"),
          List.of("jaw", "technique", "pulp", "facial", "lingual"));

  private AnaesthesiaReading() {}

  static Numbing numbing(Node node) {
    Fields fields =
        node.object(
            "fineDepthMm",
            "sensitiveDepthMm",
            "grossFrom",
            "grossDepthMm",
            "grossNeeds",
            "mlPerMinute",
            "handlingSeconds",
            "lowerIncisorsBothSides",
            "numbFirst");
    return new Numbing(
        FigureReading.number(fields.required("fineDepthMm"), 0, 20),
        FigureReading.number(fields.required("sensitiveDepthMm"), 0, 20),
        InsertReading.deposit(fields.required("grossFrom")),
        FigureReading.number(fields.required("grossDepthMm"), 0, 20),
        FigureReading.set(
            Numbing.Need.class,
            fields
                .required("grossNeeds")
                .words(List.of(Numbing.Need.values()), Numbing.Need::word)),
        FigureReading.number(fields.required("mlPerMinute"), 0.1, 10),
        FigureReading.number(fields.required("handlingSeconds"), 0, 600),
        FigureReading.truth(fields, "lowerIncisorsBothSides"),
        FigureReading.truth(fields, "numbFirst"));
  }

  static Map<String, Agent> agents(Node node, List<String> known) {
    return AGENTS.read(node, known, AnaesthesiaReading::agent);
  }

  private static Agent agent(String name, Fields fields) {
    Node vasoconstrictorNode = fields.required("vasoconstrictor");
    String vasoconstrictor = vasoconstrictorNode.word(VASOCONSTRICTORS, word -> word);
    Node epinephrineNode = fields.required("epinephrineMgPerMl");
    Figure epinephrine = FigureReading.number(epinephrineNode, 0, 0.1);
    // Where the vasoconstrictor is no known word, its own fault is enough.
    boolean known = vasoconstrictorNode.quoted().equals(FaultWords.quote(vasoconstrictor));
    if (known && vasoconstrictor.equals("epinephrine") != epinephrine.value() > 0) {
      FigureReading.blamed(epinephrineNode, vasoconstrictorNode)
          .fault(
              "an epinephrineMgPerMl of "
                  + JsonLayout.number(epinephrine.value())
                  + " with the vasoconstrictor "
                  + vasoconstrictor,
              "more than 0 for epinephrine, 0 for anything else");
    }
    return new Agent(
        name,
        fields.required("words").text(80),
        fields.required("drug").text(40),
        vasoconstrictor,
        FigureReading.number(fields.required("mgPerMl"), 0.1, 100),
        epinephrine,
        FigureReading.number(fields.required("cartridgeMl"), 0.1, 10),
        limits(fields.required("limits")),
        byTechnique(fields.required("pulpalMinutes"), 1, 1440),
        FigureReading.number(fields.required("softTissueMinutes"), 1, 1440),
        byTechnique(fields.required("onsetMinutes"), 0, 60),
        FigureReading.given(fields, "fromAgeYears")
            .map(age -> FigureReading.number(age, 0, 120))
            .orElse(null),
        FigureReading.given(fields, "lowerBlockPriceSeconds")
            .map(price -> FigureReading.number(price, 0, 36000))
            .orElse(null),
        lowerBlock(fields),
        !FigureReading.truth(fields, "ester"));
  }

  /**
   * How long pulp stays numb after a deep block of lower teeth. A practice that says its own figure
   * of blocks, and none of these, means these too: the default's longer one would numb its patients
   * for longer than it says.
   */
  private static @Nullable Figure lowerBlock(Fields fields) {
    Optional<Node> lower =
        FigureReading.given(fields, "lowerBlockPulpalMinutes")
            .filter(
                node ->
                    FigureReading.isOwn(node)
                        || !FigureReading.isOwn(
                            fields
                                .required("pulpalMinutes")
                                .object(
                                    List.of(Technique.values()).stream()
                                        .map(Technique::word)
                                        .toList())
                                .required(Technique.BLOCK.word())));
    return lower.map(node -> FigureReading.number(node, 1, 1440)).orElse(null);
  }

  private static Map<RuleSet, Agent.Limit> limits(Node node) {
    Fields fields = node.object(List.of(RuleSet.values()).stream().map(RuleSet::word).toList());
    Map<RuleSet, Agent.Limit> limits = new EnumMap<>(RuleSet.class);
    for (RuleSet ruleSet : RuleSet.values()) {
      Node limit = fields.required(ruleSet.word());
      Fields either = limit.object("mgPerKg", "capMg");
      Optional<Node> mgPerKg = FigureReading.given(either, "mgPerKg");
      Optional<Node> cap = FigureReading.given(either, "capMg");
      if (limit.isObject() && mgPerKg.isEmpty() && cap.isEmpty()) {
        limit.fault("no maximum", "mgPerKg, capMg or both");
      }
      limits.put(
          ruleSet,
          new Agent.Limit(
              mgPerKg.map(value -> FigureReading.number(value, 0.1, 20)).orElse(null),
              cap.map(value -> FigureReading.number(value, 1, 2000)).orElse(null)));
    }
    return Collections.unmodifiableMap(limits);
  }

  private static Map<Technique, Figure> byTechnique(Node node, double least, double most) {
    Fields fields = node.object(List.of(Technique.values()).stream().map(Technique::word).toList());
    Map<Technique, Figure> figures = new EnumMap<>(Technique.class);
    for (Technique technique : Technique.values()) {
      figures.put(technique, FigureReading.number(fields.required(technique.word()), least, most));
    }
    return Collections.unmodifiableMap(figures);
  }

  /**
   * The preferred agents. Where the list is the default's, an agent that the practice removed drops
   * out of it; the practice's own list may name only agents that there are.
   */
  static List<String> preferred(Node node, Map<String, Agent> agents, Node agentsNode) {
    List<String> names = List.copyOf(agents.keySet());
    if (FigureReading.isOwn(node)) {
      if (names.isEmpty()) {
        if (agentsNode.isObject() && !node.items().isEmpty()) {
          node.fault("an empty array, since there is no agent");
        }
        return List.of();
      }
      return node.words(names, name -> name);
    }
    return node.items().stream().map(item -> item.text()).filter(names::contains).toList();
  }

  static Map<String, Injection> injections(Node node, List<String> known) {
    return INJECTIONS.read(node, known, AnaesthesiaReading::injection);
  }

  private static Injection injection(String name, Fields fields) {
    Jaw jaw = fields.required("jaw").word(List.of(Jaw.values()), PracticeWords::jaw);
    boolean bothSides = FigureReading.truth(fields, "bothSides");
    boolean neverBothSides = FigureReading.truth(fields, "neverBothSides");
    if (bothSides && neverBothSides) {
      fields
          .node()
          .fault("bothSides and neverBothSides true", "at most one of the two, since they clash");
    }
    boolean mesiobuccalRoot = FigureReading.truth(fields, "mesiobuccalRoot");
    if (mesiobuccalRoot && jaw == Jaw.LOWER) {
      FigureReading.blamed(fields.required("mesiobuccalRoot"), fields.required("jaw"))
          .fault("mesiobuccalRoot true in the lower jaw", "true in the upper jaw only");
    }
    List<Integer> pulp = positions(fields.required("pulp"));
    List<Integer> facial = positions(fields.required("facial"));
    List<Integer> lingual = positions(fields.required("lingual"));
    if (pulp.isEmpty() && facial.isEmpty() && lingual.isEmpty() && !mesiobuccalRoot) {
      fields.node().fault("nothing that it numbs", "a position in pulp, facial or lingual");
    }
    boolean perTooth = FigureReading.truth(fields, "perTooth");
    if (bothSides && !neverBothSides && (perTooth || mesiobuccalRoot || !pulp.isEmpty())) {
      // Numb pulp binds a visit to its side; what both sides share may not be counted as that.
      fields
          .node()
          .fault(
              "bothSides true with perTooth, mesiobuccalRoot or pulp",
              "facial and lingual tissue only where bothSides is true");
    }
    Technique technique =
        fields.required("technique").word(List.of(Technique.values()), Technique::word);
    List<Integer> across =
        FigureReading.given(fields, "acrossMidline")
            .map(AnaesthesiaReading::positions)
            .orElse(List.of());
    boolean front = across.stream().allMatch(position -> position <= 3);
    if (!across.isEmpty() && !(perTooth && technique == Technique.INFILTRATION && front)) {
      fields
          .required("acrossMidline")
          .fault("acrossMidline", "positions 1 to 3 of an infiltration that is given perTooth");
    }
    return new Injection(
        name,
        jaw,
        technique,
        FigureReading.truth(fields, "superficial"),
        perTooth,
        bothSides,
        neverBothSides,
        across,
        pulp,
        mesiobuccalRoot,
        facial,
        lingual,
        FigureReading.given(fields, "notDependable").map(Node::items).orElse(List.of()).stream()
            .map(AnaesthesiaReading::notDependable)
            .toList(),
        volumes(fields),
        FigureReading.given(fields, "mlPerMinute")
            .map(node -> FigureReading.number(node, 0.1, 10))
            .orElse(null),
        onset(fields, "pulpOnsetMinutes"),
        onset(fields, "tissueOnsetMinutes"),
        FigureReading.given(fields, "failureShare")
            .map(node -> FigureReading.number(node, 0.001, 0.999))
            .orElse(null),
        FigureReading.source(
            fields,
            "jaw",
            "technique",
            "superficial",
            "perTooth",
            "bothSides",
            "neverBothSides",
            "acrossMidline",
            "pulp",
            "mesiobuccalRoot",
            "facial",
            "lingual"));
  }

  private static Injection.NotDependable notDependable(Node node) {
    Fields fields = node.object("tissue", "positions", "drugs", "source");
    List<String> drugs = new ArrayList<>();
    FigureReading.given(fields, "drugs")
        .ifPresent(list -> list.items(1, 20).forEach(drug -> drugs.add(drug.text(40))));
    return new Injection.NotDependable(
        fields.required("tissue").word(List.of(Injection.Tissue.values()), Injection.Tissue::word),
        positions(fields.required("positions")),
        drugs,
        FigureReading.source(fields, "tissue", "positions", "drugs"));
  }

  /** One volume, or several; where both are said, the practice's own word holds. */
  private static List<Injection.Volume> volumes(Fields fields) {
    Optional<Node> one = FigureReading.given(fields, "ml");
    Optional<Node> several = FigureReading.given(fields, "volumes");
    if (one.isPresent() && several.isPresent()) {
      if (FigureReading.isOwn(one.get()) == FigureReading.isOwn(several.get())) {
        several.get().fault("ml and volumes", "one of the two");
      } else if (FigureReading.isOwn(one.get())) {
        several = Optional.empty();
      }
    }
    if (several.isPresent()) {
      List<Injection.Volume> volumes = new ArrayList<>();
      for (Node item : several.get().items(1, 5)) {
        Fields volume = item.object("ml", "pulpalMinutes");
        Node mlNode = volume.required("ml");
        Figure ml = FigureReading.number(mlNode, 0.1, 5);
        if (!volumes.isEmpty() && ml.value() <= volumes.get(volumes.size() - 1).ml().value()) {
          mlNode.fault("more than the volume before");
        }
        volumes.add(
            new Injection.Volume(
                ml,
                FigureReading.given(volume, "pulpalMinutes")
                    .map(node -> FigureReading.number(node, 1, 1440))
                    .orElse(null)));
      }
      if (!volumes.isEmpty()) {
        return List.copyOf(volumes);
      }
    }
    return List.of(
        new Injection.Volume(
            FigureReading.number(one.orElseGet(() -> fields.required("ml")), 0.1, 5), null));
  }

  private static @Nullable Figure onset(Fields fields, String key) {
    return FigureReading.given(fields, key)
        .map(node -> FigureReading.number(node, 0, 60))
        .orElse(null);
  }

  private static List<Integer> positions(Node node) {
    List<Integer> positions = new ArrayList<>();
    for (Node item : node.items()) {
      int position = item.whole(1, 8);
      if (positions.contains(position) && item.isNumber()) {
        item.fault(item.quoted() + " a second time", "each position once");
      }
      positions.add(position);
    }
    return List.copyOf(new TreeSet<>(positions));
  }

  static Gel gel(Node node) {
    Fields fields =
        node.object(
            "owned",
            "name",
            "drugs",
            "deepestMm",
            "applySeconds",
            "onsetSeconds",
            "lastsMinutes",
            "cartridgesAspect",
            "cartridgesQuadrant",
            "cartridgesVisit",
            "fromAgeYears");
    List<String> drugs = new ArrayList<>();
    for (Node drug : fields.required("drugs").items(1, 10)) {
      drugs.add(drug.text(40));
    }
    return new Gel(
        fields.required("owned").truth(),
        fields.required("name").text(80),
        List.copyOf(drugs),
        FigureReading.number(fields.required("deepestMm"), 0, 20),
        FigureReading.number(fields.required("applySeconds"), 0, 600),
        FigureReading.number(fields.required("onsetSeconds"), 0, 600),
        FigureReading.number(fields.required("lastsMinutes"), 1, 240),
        FigureReading.number(fields.required("cartridgesAspect"), 0.01, 20),
        FigureReading.number(fields.required("cartridgesQuadrant"), 0.01, 20),
        FigureReading.number(fields.required("cartridgesVisit"), 0.01, 20),
        FigureReading.number(fields.required("fromAgeYears"), 0, 120));
  }
}
