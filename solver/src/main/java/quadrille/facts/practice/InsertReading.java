package quadrille.facts.practice;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import quadrille.document.FaultWords;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Quadrant;

/** Reads inserts, pass rules and the selection table. */
final class InsertReading {

  private static final List<String> INSERT_NEEDS = List.of("class", "shank", "passes", "powers");
  private static final List<String> INSERT_KEYS =
      List.of("class", "shank", "passes", "powers", "sterileSets", "source");
  private static final NamedEntries INSERTS =
      new NamedEntries("an insert", INSERT_KEYS, INSERT_NEEDS);

  private InsertReading() {}

  /**
   * @param known the default's inserts, in order; empty while the default itself is read
   */
  static Map<String, Insert> inserts(Node node, List<String> known) {
    Map<String, Insert> inserts = INSERTS.read(node, known, InsertReading::insert);
    if (inserts.isEmpty() && node.isObject()) {
      node.fault("no insert", "at least one");
    }
    return inserts;
  }

  private static Insert insert(String name, Fields fields) {
    Node classNode = fields.required("class").reworded(FormerNames::word);
    Node passesNode = fields.required("passes");
    Node powersNode = fields.required("powers");
    InsertClass insertClass = classNode.word(List.of(InsertClass.values()), InsertClass::word);
    List<Pass> passes = passesNode.words(List.of(Pass.values()), Pass::word);
    List<Power> powers = powersNode.words(List.of(Power.values()), Power::word);
    if (passesNode.isArray() && passesNode.items().isEmpty()) {
      passesNode.fault("at least one of " + FaultWords.either(words(passes(), Pass::word)));
    }
    if (powersNode.isArray() && powersNode.items().isEmpty()) {
      powersNode.fault("at least one of " + FaultWords.either(words(powers(), Power::word)));
    }
    // Where the class is no known word, its own fault is enough.
    if (classNode.quoted().equals(FaultWords.quote(insertClass.word()))) {
      checkSleeve(insertClass, classNode, passes, passesNode, powers, powersNode);
    }
    return new Insert(
        name,
        insertClass,
        fields
            .required("shank")
            .reworded(FormerNames::word)
            .word(List.of(Shank.values()), Shank::word),
        FigureReading.set(Pass.class, passes),
        FigureReading.set(Power.class, powers),
        FigureReading.given(fields, "sterileSets").map(sets -> sets.whole(1, 1000)).orElse(1),
        FigureReading.source(fields, "class", "shank", "passes", "powers", "sterileSets"));
  }

  private static void checkSleeve(
      InsertClass insertClass,
      Node classNode,
      List<Pass> passes,
      Node passesNode,
      List<Power> powers,
      Node powersNode) {
    boolean implants = insertClass.forImplants();
    List<Pass> wrongPasses =
        passes.stream().filter(pass -> (pass == Pass.IMPLANT_CARE) != implants).toList();
    if (!wrongPasses.isEmpty()) {
      FigureReading.blamed(passesNode, classNode)
          .fault(
              String.join(", ", words(wrongPasses, Pass::word))
                  + " for the class "
                  + insertClass.word(),
              implants
                  ? "implant-care alone"
                  : "implant-care for the classes sleeved and hand-implant only;"
                      + " bare metal never touches an implant");
    }
    Power only =
        insertClass.hand() ? Power.NONE : insertClass == InsertClass.SLEEVED ? Power.LOW : null;
    boolean wrongPower =
        only == null ? powers.contains(Power.NONE) : powers.stream().anyMatch(one -> one != only);
    if (wrongPower) {
      FigureReading.blamed(powersNode, classNode)
          .fault(
              String.join(", ", words(powers, Power::word))
                  + " for the class "
                  + insertClass.word(),
              only == null
                  ? "low, medium or high; none is for the classes hand and hand-implant"
                  : only.word() + " alone");
    }
  }

  private static List<Pass> passes() {
    return List.of(Pass.values());
  }

  private static List<Power> powers() {
    return List.of(Power.values());
  }

  private static <E> List<String> words(List<E> values, Function<E, String> word) {
    return values.stream().map(word).toList();
  }

  static PassRules passes(Node node) {
    Fields fields =
        node.object(
            "grossFrom",
            "grossFeatures",
            "fineFrom",
            "fineDepthMm",
            "finishingDepthMm",
            "finishingFeatures",
            "chartFirstShare",
            "source");
    return new PassRules(
        deposit(fields.required("grossFrom")),
        features(fields.required("grossFeatures")),
        deposit(fields.required("fineFrom")),
        FigureReading.number(fields.required("fineDepthMm"), 0, 20),
        FigureReading.number(fields.required("finishingDepthMm"), 0, 20),
        features(fields.required("finishingFeatures")),
        FigureReading.number(fields.required("chartFirstShare"), 0, 1),
        FigureReading.source(
            fields, "grossFrom", "grossFeatures", "fineFrom", "finishingFeatures"));
  }

  static Deposit deposit(Node node) {
    return node.word(List.of(Deposit.values()), Deposit::word);
  }

  private static Set<Feature> features(Node node) {
    return FigureReading.set(Feature.class, node.words(List.of(Feature.values()), Feature::word));
  }

  /**
   * @param inserts the owned inserts
   * @param known further inserts that a row may name though the practice does not own them
   */
  static List<SelectionRule> selection(
      Node node, Map<String, Insert> inserts, Map<String, Insert> known) {
    Map<String, Insert> named = new LinkedHashMap<>(known);
    named.putAll(inserts);
    List<SelectionRule> rules = new ArrayList<>();
    Set<String> names = new LinkedHashSet<>();
    for (Node item : node.items(1, 1000)) {
      Fields fields =
          item.object("name", "scope", "pass", "when", "use", "power", "because", "source");
      Node nameNode = fields.required("name");
      String name = nameNode.text(80);
      if (nameNode.isText() && !names.add(name)) {
        nameNode.fault(FaultWords.quote(name) + " a second time", "each row's name once");
      }
      Pass pass = fields.required("pass").word(List.of(Pass.values()), Pass::word);
      Node powerNode = fields.required("power");
      Power power = powerNode.word(List.of(Power.values()), Power::word);
      if (pass == Pass.IMPLANT_CARE && power.compareTo(Power.LOW) > 0) {
        powerNode.fault("low, or none for hand instruments, since the row is for implant care");
      }
      rules.add(
          new SelectionRule(
              name,
              fields
                  .required("scope")
                  .word(List.of(SelectionRule.Scope.values()), SelectionRule.Scope::word),
              pass,
              FigureReading.given(fields, "when").map(InsertReading::when).orElse(ALWAYS),
              use(fields.required("use"), pass, power, named),
              power,
              fields.required("because").text(),
              FigureReading.source(fields)));
    }
    return List.copyOf(rules);
  }

  private static final SelectionRule.When ALWAYS =
      new SelectionRule.When(Set.of(), null, Set.of(), Set.of(), null, null, null, Set.of());

  private static List<String> use(Node node, Pass pass, Power power, Map<String, Insert> named) {
    List<String> words = List.copyOf(named.keySet());
    List<String> use = new ArrayList<>();
    for (Node written : node.items(1, 50)) {
      Node item = written.reworded(FormerNames::insert);
      String name = item.word(words, word -> word);
      Insert insert = named.get(name);
      if (!item.isText() || insert == null || !item.quoted().equals(FaultWords.quote(name))) {
        continue;
      }
      if (use.contains(name)) {
        item.fault(item.quoted() + " a second time", "each insert once");
      } else if (FigureReading.isOwn(item) && insert.hand() != (power == Power.NONE)) {
        item.fault(
            insert.hand()
                ? "an insert of the unit, since the row is at " + power.word() + " power"
                : "hand instruments, since the row is at no power");
      } else if (FigureReading.isOwn(item) && insert.forImplants() != (pass == Pass.IMPLANT_CARE)) {
        item.fault(
            insert.forImplants()
                ? "an insert without a sleeve, since the row is for the " + pass.word() + " pass"
                : "an insert of class sleeved, since the row is for implant care");
      }
      use.add(name);
    }
    return List.copyOf(use);
  }

  private static SelectionRule.When when(Node node) {
    Fields fields =
        node.object(
            "quadrants",
            "posterior",
            "aspects",
            "deposits",
            "depthAtLeastMm",
            "depthBelowMm",
            "furcationAtLeast",
            "anyFeature");
    Optional<Integer> atLeast =
        FigureReading.given(fields, "depthAtLeastMm").map(depth -> depth.whole(0, 20));
    Optional<Node> belowNode = FigureReading.given(fields, "depthBelowMm");
    Optional<Integer> below = belowNode.map(depth -> depth.whole(1, 21));
    if (atLeast.isPresent() && below.isPresent() && below.get() <= atLeast.get()) {
      belowNode.get().fault("more than depthAtLeastMm (" + atLeast.get() + ")");
    }
    return new SelectionRule.When(
        FigureReading.set(
            Quadrant.class,
            FigureReading.given(fields, "quadrants")
                .map(list -> list.words(List.of(Quadrant.values()), Quadrant::name))
                .orElse(List.of())),
        FigureReading.given(fields, "posterior").map(Node::truth).orElse(null),
        FigureReading.set(
            Aspect.class,
            FigureReading.given(fields, "aspects")
                .map(list -> list.words(List.of(Aspect.values()), Aspect::word))
                .orElse(List.of())),
        FigureReading.set(
            Deposit.class,
            FigureReading.given(fields, "deposits")
                .map(list -> list.words(List.of(Deposit.values()), Deposit::word))
                .orElse(List.of())),
        atLeast.orElse(null),
        below.orElse(null),
        FigureReading.given(fields, "furcationAtLeast")
            .map(grade -> grade.whole(1, 3))
            .orElse(null),
        FigureReading.given(fields, "anyFeature").map(InsertReading::features).orElse(Set.of()));
  }
}
