package quadrille.plan.anaesthesia;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.RuleSet;

/** The default practice, patients, and practices that differ in one thing. */
final class Practices {

  private static final Practice USUAL = PracticeReader.defaults();

  private Practices() {}

  static Practice usual() {
    return USUAL;
  }

  static Agent agent(String name) {
    return present(name, USUAL.agents().get(name));
  }

  static Injection injection(String name) {
    return present(name, USUAL.injections().get(name));
  }

  private static <T> T present(String name, @Nullable T value) {
    if (value == null) {
      throw new IllegalArgumentException("The default practice has no " + name + ".");
    }
    return value;
  }

  static Patient adult(double weightKg, Alert... alerts) {
    return new Patient(40, weightKg, null, Set.of(alerts), null, false);
  }

  static Patient patient(@Nullable Double weightKg, @Nullable Integer ageYears) {
    return new Patient(ageYears, weightKg, null, Set.of(), null, false);
  }

  static Practice withRuleSet(Practice practice, RuleSet ruleSet) {
    return with(
        practice, practice.preferredAgents(), ruleSet, practice.injections(), practice.gel());
  }

  static Practice preferring(String... agents) {
    return with(USUAL, List.of(agents), USUAL.ruleSet(), USUAL.injections(), USUAL.gel());
  }

  /** With these injections alone, in this order. */
  static Practice onlyInjections(String... names) {
    Map<String, Injection> some = new LinkedHashMap<>();
    for (String name : names) {
      some.put(name, injection(name));
    }
    return with(USUAL, USUAL.preferredAgents(), USUAL.ruleSet(), some, USUAL.gel());
  }

  /** Two sides may be numb in one visit. */
  static Practice relaxed() {
    try {
      return PracticeReader.read(
          "practice.json",
          "{\"schema\": \"quadrille/practice/1\", \"appointments\": {\"oneNumbSide\": false}}");
    } catch (InvalidDocumentException e) {
      throw new IllegalStateException(e);
    }
  }

  static Practice withGel(Practice practice) {
    Gel gel = practice.gel();
    Gel owned =
        new Gel(
            true,
            gel.name(),
            gel.drugs(),
            gel.deepestMm(),
            gel.applySeconds(),
            gel.onsetSeconds(),
            gel.lastsMinutes(),
            gel.cartridgesAspect(),
            gel.cartridgesQuadrant(),
            gel.cartridgesVisit(),
            gel.fromAgeYears());
    return with(
        practice, practice.preferredAgents(), practice.ruleSet(), practice.injections(), owned);
  }

  private static Practice with(
      Practice practice,
      List<String> preferred,
      RuleSet ruleSet,
      Map<String, Injection> injections,
      Gel gel) {
    return new Practice(
        practice.name(),
        practice.contact(),
        practice.appointments(),
        practice.inserts(),
        practice.passes(),
        practice.selection(),
        practice.minutes(),
        practice.frame(),
        practice.numbing(),
        practice.agents(),
        preferred,
        ruleSet,
        practice.epinephrineCapMg(),
        injections,
        gel,
        practice.alerts(),
        practice.weights(),
        practice.codeHint());
  }

  /** The agent in cartridges of another size, where a published example uses one. */
  static Agent inCartridgesOf(double ml, Agent agent) {
    return with(agent, new Figure(ml, "the published example's"), agent.limits());
  }

  /** The agent under other maxima, where a published example uses some. */
  static Agent limited(
      RuleSet ruleSet, @Nullable Double mgPerKg, @Nullable Double capMg, Agent agent) {
    Map<RuleSet, Agent.Limit> limits = new EnumMap<>(agent.limits());
    limits.put(ruleSet, new Agent.Limit(figure(mgPerKg), figure(capMg)));
    return with(agent, agent.cartridgeMl(), limits);
  }

  private static @Nullable Figure figure(@Nullable Double value) {
    return value == null ? null : new Figure(value, "the published example's");
  }

  private static Agent with(Agent agent, Figure cartridgeMl, Map<RuleSet, Agent.Limit> limits) {
    return new Agent(
        agent.name(),
        agent.words(),
        agent.drug(),
        agent.vasoconstrictor(),
        agent.mgPerMl(),
        agent.epinephrineMgPerMl(),
        cartridgeMl,
        limits,
        agent.pulpalMinutes(),
        agent.softTissueMinutes(),
        agent.onsetMinutes());
  }
}
