package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Practice;

/** Which of the practice's agents a patient may have, as far as alerts and weight say. */
public final class Agents {

  private Agents() {}

  /**
   * A preferred agent and what speaks against it.
   *
   * @param refusals empty where nothing forbids it
   */
  public record Choice(Agent agent, List<Refusal> refusals) {

    public Choice {
      refusals = List.copyOf(refusals);
    }

    /** The refusals that are an alert's. */
    public List<Refusal.Forbidden> forbidden() {
      return refusals.stream()
          .filter(Refusal.Forbidden.class::isInstance)
          .map(Refusal.Forbidden.class::cast)
          .toList();
    }

    public boolean allowed() {
      return refusals.isEmpty();
    }
  }

  /** The practice's preferred agents, best first, each with what speaks against it. */
  public static List<Choice> choices(Practice practice, Patient patient) {
    List<Choice> choices = new ArrayList<>();
    for (Agent agent : preferred(practice)) {
      choices.add(new Choice(agent, refusals(practice, patient, agent)));
    }
    return List.copyOf(choices);
  }

  /** The preferred agents that the patient may have, best first; none for an unknown weight. */
  public static List<Agent> allowed(Practice practice, Patient patient) {
    return choices(practice, patient).stream().filter(Choice::allowed).map(Choice::agent).toList();
  }

  /** What speaks against an agent for this patient, whatever the amount. */
  static List<Refusal> refusals(Practice practice, Patient patient, Agent agent) {
    List<Refusal> refusals = new ArrayList<>();
    if (patient.weightKg() == null) {
      refusals.add(new Refusal.NoWeight());
    }
    for (AlertRule rule : rules(practice, patient)) {
      for (String part : parts(agent)) {
        if (rule.forbids().contains(part)) {
          refusals.add(new Refusal.Forbidden(rule.alert(), part));
        }
      }
    }
    return List.copyOf(refusals);
  }

  /**
   * What speaks against pocket gel for this patient, whatever the amount; empty where nothing does.
   */
  public static List<Refusal> gelRefusals(Practice practice, Patient patient) {
    Gel gel = practice.gel();
    List<Refusal> refusals = new ArrayList<>();
    if (!gel.owned()) {
      refusals.add(new Refusal.NotOwned(gel.name()));
    }
    Integer age = patient.ageYears();
    if (age == null) {
      refusals.add(new Refusal.NoAge());
    } else if (age < gel.fromAgeYears().value()) {
      refusals.add(new Refusal.TooYoung(gel.fromAgeYears().asInt()));
    }
    if (patient.weightKg() == null) {
      refusals.add(new Refusal.NoWeight());
    }
    for (AlertRule rule : rules(practice, patient)) {
      if (rule.forbidsGel()) {
        refusals.add(new Refusal.Forbidden(rule.alert(), gel.name()));
      }
      for (String drug : gel.drugs()) {
        if (rule.forbids().contains(drug)) {
          refusals.add(new Refusal.Forbidden(rule.alert(), drug));
        }
      }
    }
    return List.copyOf(refusals);
  }

  /** Epinephrine in mg that a visit may give: the practice's cap, or an alert's where lower. */
  public static double epinephrineCapMg(Practice practice, Patient patient) {
    double cap = practice.epinephrineCapMg().value();
    for (AlertRule rule : rules(practice, patient)) {
      if (rule.epinephrineCapMg() != null) {
        cap = Math.min(cap, rule.epinephrineCapMg().value());
      }
    }
    return cap;
  }

  /**
   * The factor on the cost weight of each injection: the largest that the patient's alerts set, 1
   * where none does.
   */
  public static double injectionWeightFactor(Practice practice, Patient patient) {
    return rules(practice, patient).stream()
        .map(AlertRule::injectionWeightFactor)
        .flatMap(java.util.stream.Stream::ofNullable)
        .mapToDouble(factor -> factor.value())
        .max()
        .orElse(1);
  }

  private static List<Agent> preferred(Practice practice) {
    List<Agent> agents = new ArrayList<>();
    for (String name : practice.preferredAgents()) {
      Agent agent = practice.agents().get(name);
      if (agent == null) {
        throw new IllegalArgumentException(
            "The preferred agent ("
                + name
                + ") must be one of "
                + practice.agents().keySet()
                + ".");
      }
      agents.add(agent);
    }
    return agents;
  }

  private static List<String> parts(Agent agent) {
    return List.of(agent.drug(), agent.vasoconstrictor());
  }

  /** The rules of the patient's alerts, in the fixed order of the alerts. */
  private static List<AlertRule> rules(Practice practice, Patient patient) {
    List<AlertRule> rules = new ArrayList<>();
    for (Alert alert : Alert.values()) {
      if (patient.has(alert)) {
        practice.alertRule(alert).ifPresent(rules::add);
      }
    }
    return rules;
  }
}
