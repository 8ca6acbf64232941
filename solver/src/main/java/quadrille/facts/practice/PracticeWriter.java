package quadrille.facts.practice;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Quadrant;

/** Writes practices in the form that {@link PracticeReader} reads. */
public final class PracticeWriter {

  private static final String RESOURCE = "default-practice.json";
  private static final String FIRST = "first-practice.json";

  private PracticeWriter() {}

  /** The default practice file as it stands. */
  public static String defaultText() {
    return text(RESOURCE);
  }

  /** What the default practice of 0.1.0 had otherwise; null for what it had not. */
  static String firstText() {
    return text(FIRST);
  }

  private static String text(String resource) {
    try (InputStream in = PracticeWriter.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("The resource (" + resource + ") must be in the jar.");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The whole practice as JSON, with every source; reading it gives the same practice. What the
   * default practice has and this one has not stands there as {@code null}.
   */
  public static String text(Practice practice) {
    Map<String, @Nullable Object> root = tree(practice);
    markRemoved(root, tree(PracticeReader.defaults()));
    return JsonLayout.figures(root);
  }

  private static void markRemoved(
      Map<String, @Nullable Object> mine, Map<String, @Nullable Object> defaults) {
    defaults.forEach(
        (key, value) -> {
          if (!mine.containsKey(key)) {
            mine.put(key, null);
          } else if (mine.get(key) instanceof Map<?, ?> && value instanceof Map<?, ?>) {
            markRemoved(members(mine.get(key)), members(value));
          }
        });
  }

  /** Every map of the tree has text keys, and every value in it may be replaced. */
  @SuppressWarnings("unchecked")
  private static Map<String, @Nullable Object> members(@Nullable Object map) {
    return (Map<String, @Nullable Object>) Objects.requireNonNull(map);
  }

  /** Maps, lists, texts, numbers and booleans, in the order of the file. */
  static Map<String, @Nullable Object> tree(Practice practice) {
    Map<String, @Nullable Object> root = new LinkedHashMap<>();
    root.put("schema", PracticeWords.SCHEMA);
    root.put("name", practice.name());
    if (!practice.contact().isEmpty()) {
      root.put("contact", contact(practice.contact()));
    }
    root.put("appointments", appointments(practice.appointments()));
    root.put("inserts", mapped(practice.inserts(), PracticeWriter::insert));
    root.put("passes", passes(practice.passes()));
    root.put("selection", practice.selection().stream().map(PracticeWriter::rule).toList());
    root.put("minutes", minutes(practice.minutes()));
    root.put("frame", frame(practice.frame()));
    root.put("numbing", numbing(practice.numbing()));
    root.put("agents", mapped(practice.agents(), PracticeWriter::agent));
    root.put("preferredAgents", practice.preferredAgents());
    root.put("ruleSet", practice.ruleSet().word());
    root.put("epinephrineCapMg", figure(practice.epinephrineCapMg()));
    root.put("injections", mapped(practice.injections(), PracticeWriter::injection));
    root.put("gel", gel(practice.gel()));
    Map<String, @Nullable Object> alerts = new LinkedHashMap<>();
    practice.alerts().forEach((alert, rule) -> alerts.put(alert.word(), alert(rule)));
    root.put("alerts", alerts);
    root.put("weights", weights(practice.weights()));
    root.put("codeHint", codeHint(practice.codeHint()));
    return root;
  }

  private static Map<String, @Nullable Object> figure(Figure figure) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("value", figure.value());
    map.put("source", figure.source());
    if (figure.calibrated()) {
      map.put("calibrated", true);
    }
    return map;
  }

  private static void putIfGiven(
      Map<String, @Nullable Object> map, String key, @Nullable Figure figure) {
    if (figure != null) {
      map.put(key, figure(figure));
    }
  }

  private static void putIfGiven(Map<String, @Nullable Object> map, String key, List<?> list) {
    if (!list.isEmpty()) {
      map.put(key, list);
    }
  }

  private static Map<String, @Nullable Object> contact(Contact contact) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    putIfGiven(map, "address", contact.address());
    putIfGiven(map, "phone", contact.phone());
    putIfGiven(map, "email", contact.email());
    putIfGiven(map, "hours", contact.hours());
    putIfGiven(map, "outOfHours", contact.outOfHours());
    return map;
  }

  private static void putIfGiven(
      Map<String, @Nullable Object> map, String key, @Nullable String text) {
    if (text != null) {
      map.put(key, text);
    }
  }

  private static void putIfGiven(
      Map<String, @Nullable Object> map, String key, @Nullable Integer number) {
    if (number != null) {
      map.put(key, number);
    }
  }

  private static void putIfTrue(Map<String, @Nullable Object> map, String key, boolean value) {
    if (value) {
      map.put(key, true);
    }
  }

  private static <T> Map<String, @Nullable Object> mapped(
      Map<String, T> values, Function<T, Map<String, @Nullable Object>> one) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    values.forEach((name, value) -> map.put(name, one.apply(value)));
    return map;
  }

  private static List<Map<String, @Nullable Object>> figures(List<Figure> figures) {
    return figures.stream().map(PracticeWriter::figure).toList();
  }

  private static <E> List<String> words(Collection<E> values, Function<E, String> word) {
    return values.stream().map(word).toList();
  }

  private static Map<String, @Nullable Object> appointments(Appointments appointments) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("unitMinutes", figure(appointments.unitMinutes()));
    map.put("longestVisitMinutes", figure(appointments.longestVisitMinutes()));
    map.put("certainty", figure(appointments.certainty()));
    map.put("gapMinDays", figure(appointments.gapMinDays()));
    map.put("gapMaxDays", figure(appointments.gapMaxDays()));
    map.put("reevaluateFromWeeks", figure(appointments.reevaluateFromWeeks()));
    map.put("reevaluateToWeeks", figure(appointments.reevaluateToWeeks()));
    map.put("kitHolds", figure(appointments.kitHolds()));
    map.put("oneNumbSide", appointments.oneNumbSide());
    map.put("midlineInfiltration", appointments.midlineInfiltration());
    map.put("passesTogether", appointments.passesTogether().word());
    return map;
  }

  private static Map<String, @Nullable Object> insert(Insert insert) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("class", insert.insertClass().word());
    map.put("shank", insert.shank().word());
    map.put("passes", words(insert.passes(), Pass::word));
    map.put("powers", words(insert.powers(), Power::word));
    map.put("sterileSets", insert.sterileSets());
    map.put("source", insert.source());
    return map;
  }

  private static Map<String, @Nullable Object> passes(PassRules rules) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("grossFrom", rules.grossFrom().word());
    map.put("grossFeatures", words(rules.grossFeatures(), Feature::word));
    map.put("fineFrom", rules.fineFrom().word());
    map.put("fineDepthMm", figure(rules.fineDepthMm()));
    map.put("finishingDepthMm", figure(rules.finishingDepthMm()));
    map.put("finishingFeatures", words(rules.finishingFeatures(), Feature::word));
    map.put("chartFirstShare", figure(rules.chartFirstShare()));
    map.put("source", rules.source());
    return map;
  }

  private static Map<String, @Nullable Object> rule(SelectionRule rule) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("name", rule.name());
    map.put("scope", rule.scope().word());
    map.put("pass", rule.pass().word());
    map.put("when", when(rule.when()));
    map.put("use", rule.use());
    map.put("power", rule.power().word());
    map.put("because", rule.because());
    map.put("source", rule.source());
    return map;
  }

  private static Map<String, @Nullable Object> when(SelectionRule.When when) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    putIfGiven(map, "quadrants", words(when.quadrants(), Quadrant::name));
    Boolean posterior = when.posterior();
    if (posterior != null) {
      map.put("posterior", posterior);
    }
    putIfGiven(map, "aspects", words(when.aspects(), Aspect::word));
    putIfGiven(map, "deposits", words(when.deposits(), Deposit::word));
    putIfGiven(map, "depthAtLeastMm", when.depthAtLeastMm());
    putIfGiven(map, "depthBelowMm", when.depthBelowMm());
    putIfGiven(map, "furcationAtLeast", when.furcationAtLeast());
    putIfGiven(map, "anyFeature", words(when.anyFeature(), Feature::word));
    return map;
  }

  private static Map<String, @Nullable Object> minutes(Minutes minutes) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("fineBands", minutes.fineBands().stream().map(PracticeWriter::band).toList());
    Map<String, @Nullable Object> areas = new LinkedHashMap<>();
    minutes
        .rootAreaMm2()
        .forEach((jaw, figures) -> areas.put(PracticeWords.jaw(jaw), figures(figures)));
    map.put("rootAreaMm2", areas);
    map.put("furcationFactor", figures(minutes.furcationFactor()));
    map.put("provisionalDepthMm", figure(minutes.provisionalDepthMm()));
    Map<String, @Nullable Object> gross = new LinkedHashMap<>();
    minutes.grossSeconds().forEach((deposit, figure) -> gross.put(deposit.word(), figure(figure)));
    map.put("grossSeconds", gross);
    map.put("crownFactor", figures(minutes.crownFactor()));
    map.put("finishingSeconds", figure(minutes.finishingSeconds()));
    map.put("implantCareSeconds", figure(minutes.implantCareSeconds()));
    map.put("tipChangeSeconds", figure(minutes.tipChangeSeconds()));
    map.put("repositionAreaSeconds", figure(minutes.repositionAreaSeconds()));
    map.put("repositionAspectSeconds", figure(minutes.repositionAspectSeconds()));
    map.put("chartToothSeconds", figure(minutes.chartToothSeconds()));
    map.put("handFactor", figure(minutes.handFactor()));
    map.put("lookMinutes", figure(minutes.lookMinutes()));
    map.put("setUpMinutes", figure(minutes.setUpMinutes()));
    map.put("closeMinutes", figure(minutes.closeMinutes()));
    map.put("spreadSigma", figure(minutes.spreadSigma()));
    return map;
  }

  private static Map<String, @Nullable Object> frame(Frame frame) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    frame.parts().forEach((task, part) -> map.put(task.word(), framePart(part)));
    return map;
  }

  private static Map<String, @Nullable Object> framePart(Frame.Part part) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("minutes", figure(part.minutes()));
    map.put("visits", part.visits().word());
    if (!part.alerts().isEmpty()) {
      map.put("alerts", part.alerts().stream().map(Alert::word).toList());
    }
    if (part.agent() != null) {
      map.put("agent", part.agent());
    }
    return map;
  }

  private static Map<String, @Nullable Object> band(Minutes.FineBand band) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("fromMm", band.fromMm());
    map.put("seconds", figure(band.seconds()));
    return map;
  }

  private static Map<String, @Nullable Object> numbing(Numbing numbing) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("fineDepthMm", figure(numbing.fineDepthMm()));
    map.put("sensitiveDepthMm", figure(numbing.sensitiveDepthMm()));
    map.put("grossFrom", numbing.grossFrom().word());
    map.put("grossDepthMm", figure(numbing.grossDepthMm()));
    map.put("grossNeeds", words(numbing.grossNeeds(), Numbing.Need::word));
    map.put("mlPerMinute", figure(numbing.mlPerMinute()));
    map.put("handlingSeconds", figure(numbing.handlingSeconds()));
    map.put("lowerIncisorsBothSides", numbing.lowerIncisorsBothSides());
    map.put("numbFirst", numbing.numbFirst());
    return map;
  }

  private static Map<String, @Nullable Object> agent(Agent agent) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("words", agent.words());
    map.put("drug", agent.drug());
    map.put("vasoconstrictor", agent.vasoconstrictor());
    map.put("mgPerMl", figure(agent.mgPerMl()));
    map.put("epinephrineMgPerMl", figure(agent.epinephrineMgPerMl()));
    map.put("cartridgeMl", figure(agent.cartridgeMl()));
    Map<String, @Nullable Object> limits = new LinkedHashMap<>();
    agent.limits().forEach((ruleSet, limit) -> limits.put(ruleSet.word(), limit(limit)));
    map.put("limits", limits);
    map.put("pulpalMinutes", byTechnique(agent.pulpalMinutes()));
    map.put("softTissueMinutes", figure(agent.softTissueMinutes()));
    map.put("onsetMinutes", byTechnique(agent.onsetMinutes()));
    putIfGiven(map, "fromAgeYears", agent.fromAgeYears());
    putIfGiven(map, "lowerBlockPriceSeconds", agent.lowerBlockPriceSeconds());
    putIfGiven(map, "lowerBlockPulpalMinutes", agent.lowerBlockPulpalMinutes());
    putIfTrue(map, "ester", !agent.amide());
    return map;
  }

  private static Map<String, @Nullable Object> limit(Agent.Limit limit) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    putIfGiven(map, "mgPerKg", limit.mgPerKg());
    putIfGiven(map, "capMg", limit.capMg());
    return map;
  }

  private static Map<String, @Nullable Object> byTechnique(Map<Technique, Figure> figures) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    figures.forEach((technique, figure) -> map.put(technique.word(), figure(figure)));
    return map;
  }

  private static Map<String, @Nullable Object> injection(Injection injection) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("jaw", PracticeWords.jaw(injection.jaw()));
    map.put("technique", injection.technique().word());
    putIfTrue(map, "superficial", injection.superficial());
    putIfTrue(map, "perTooth", injection.perTooth());
    putIfTrue(map, "bothSides", injection.bothSides());
    putIfTrue(map, "neverBothSides", injection.neverBothSides());
    putIfGiven(map, "acrossMidline", injection.acrossMidline());
    map.put("pulp", injection.pulp());
    putIfTrue(map, "mesiobuccalRoot", injection.mesiobuccalRoot());
    map.put("facial", injection.facial());
    map.put("lingual", injection.lingual());
    putIfGiven(
        map,
        "notDependable",
        injection.notDependable().stream().map(PracticeWriter::notDependable).toList());
    if (injection.volumes().size() == 1 && injection.volumes().get(0).pulpalMinutes() == null) {
      map.put("ml", figure(injection.ml()));
    } else {
      map.put("volumes", injection.volumes().stream().map(PracticeWriter::volume).toList());
    }
    putIfGiven(map, "mlPerMinute", injection.mlPerMinute());
    putIfGiven(map, "pulpOnsetMinutes", injection.pulpOnsetMinutes());
    putIfGiven(map, "tissueOnsetMinutes", injection.tissueOnsetMinutes());
    putIfGiven(map, "failureShare", injection.failureShare());
    map.put("source", injection.source());
    return map;
  }

  private static Map<String, @Nullable Object> notDependable(Injection.NotDependable row) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("tissue", row.tissue().word());
    map.put("positions", row.positions());
    putIfGiven(map, "drugs", row.drugs());
    map.put("source", row.source());
    return map;
  }

  private static Map<String, @Nullable Object> volume(Injection.Volume volume) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("ml", figure(volume.ml()));
    putIfGiven(map, "pulpalMinutes", volume.pulpalMinutes());
    return map;
  }

  private static Map<String, @Nullable Object> gel(Gel gel) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("owned", gel.owned());
    map.put("name", gel.name());
    map.put("drugs", gel.drugs());
    map.put("deepestMm", figure(gel.deepestMm()));
    map.put("applySeconds", figure(gel.applySeconds()));
    map.put("onsetSeconds", figure(gel.onsetSeconds()));
    map.put("lastsMinutes", figure(gel.lastsMinutes()));
    map.put("cartridgesAspect", figure(gel.cartridgesAspect()));
    map.put("cartridgesQuadrant", figure(gel.cartridgesQuadrant()));
    map.put("cartridgesVisit", figure(gel.cartridgesVisit()));
    map.put("fromAgeYears", figure(gel.fromAgeYears()));
    return map;
  }

  private static Map<String, @Nullable Object> alert(AlertRule rule) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    putIfGiven(map, "includes", words(rule.includes(), Alert::word));
    putIfGiven(map, "stopQuestions", rule.stopQuestions());
    putIfGiven(map, "forbids", rule.forbids());
    putIfTrue(map, "forbidsAmides", rule.forbidsAmides());
    putIfTrue(map, "forbidsGel", rule.forbidsGel());
    putIfGiven(map, "forbidsRinses", rule.forbidsRinses());
    putIfGiven(map, "epinephrineCapMg", rule.epinephrineCapMg());
    putIfGiven(map, "longestVisitMinutes", rule.longestVisitMinutes());
    putIfGiven(map, "teethBeforeLook", rule.teethBeforeLook());
    putIfGiven(map, "minGapDays", rule.minGapDays());
    putIfGiven(map, "maxGapDays", rule.maxGapDays());
    putIfTrue(map, "forbidsOneDay", rule.forbidsOneDay());
    putIfGiven(map, "visitPriceSeconds", rule.visitPriceSeconds());
    putIfGiven(map, "injectionWeightFactor", rule.injectionWeightFactor());
    putIfGiven(map, "blockPriceSeconds", rule.blockPriceSeconds());
    putIfGiven(map, "blockBeforeLookSeconds", rule.blockBeforeLookSeconds());
    putIfTrue(map, "prefersGel", rule.prefersGel());
    putIfTrue(map, "numbFirst", rule.numbFirst());
    putIfTrue(map, "byHand", rule.byHand());
    putIfTrue(map, "measuresAfterFirst", rule.measuresAfterFirst());
    putIfTrue(map, "countsCovers", rule.countsCovers());
    if (!rule.warns().isEmpty()) {
      map.put("warns", new LinkedHashMap<String, @Nullable Object>(rule.warns()));
    }
    putIfGiven(map, "cautions", rule.cautions());
    map.put("source", rule.source());
    return map;
  }

  private static Map<String, @Nullable Object> weights(Weights weights) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("balance", figure(weights.balance()));
    map.put("splitQuadrant", figure(weights.splitQuadrant()));
    map.put("worstLate", figure(weights.worstLate()));
    map.put("injection", figure(weights.injection()));
    map.put("cartridge", figure(weights.cartridge()));
    map.put("noRoomToRepeat", figure(weights.noRoomToRepeat()));
    map.put("wish", figure(weights.wish()));
    map.put("returnToQuadrant", figure(weights.returnToQuadrant()));
    map.put("worstFirst", figure(weights.worstFirst()));
    map.put("areaLeftOpen", figure(weights.areaLeftOpen()));
    map.put("needleWithinArea", figure(weights.needleWithinArea()));
    return map;
  }

  private static Map<String, @Nullable Object> codeHint(CodeHint hint) {
    Map<String, @Nullable Object> map = new LinkedHashMap<>();
    map.put("shown", hint.shown());
    map.put("fullQuadrantTeeth", figure(hint.fullQuadrantTeeth()));
    map.put("quadrantsDay", figure(hint.quadrantsDay()));
    return map;
  }
}
