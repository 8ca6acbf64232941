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

  static final String NO_WEIGHT =
      "the patient's weight is not known, so no maximum dose can be worked out";

  private Agents() {}

  /**
   * A preferred agent and what speaks against it.
   *
   * @param refusals reasons in plain words; empty where nothing forbids it
   * @param forbidden those of them that are an alert's
   */
  public record Choice(Agent agent, List<String> refusals, List<Forbidden> forbidden) {

    public Choice {
      refusals = List.copyOf(refusals);
      forbidden = List.copyOf(forbidden);
    }

    public boolean allowed() {
      return refusals.isEmpty();
    }
  }

  /**
   * An alert of the patient's that forbids a part of an agent.
   *
   * @param part the drug or the vasoconstrictor
   */
  public record Forbidden(Alert alert, String part) {}

  /** The practice's preferred agents, best first, each with what speaks against it. */
  public static List<Choice> choices(Practice practice, Patient patient) {
    List<Choice> choices = new ArrayList<>();
    for (Agent agent : preferred(practice)) {
      choices.add(
          new Choice(
              agent, refusals(practice, patient, agent), forbidden(practice, patient, agent)));
    }
    return List.copyOf(choices);
  }

  /** The preferred agents that the patient may have, best first; none for an unknown weight. */
  public static List<Agent> allowed(Practice practice, Patient patient) {
    return choices(practice, patient).stream().filter(Choice::allowed).map(Choice::agent).toList();
  }

  /** What speaks against an agent for this patient, whatever the amount. */
  static List<String> refusals(Practice practice, Patient patient, Agent agent) {
    List<String> refusals = new ArrayList<>();
    if (patient.weightKg() == null) {
      refusals.add(NO_WEIGHT);
    }
    for (Forbidden one : forbidden(practice, patient, agent)) {
      refusals.add("alert " + one.alert().word() + " forbids " + one.part());
    }
    return List.copyOf(refusals);
  }

  private static List<Forbidden> forbidden(Practice practice, Patient patient, Agent agent) {
    List<Forbidden> forbidden = new ArrayList<>();
    for (AlertRule rule : rules(practice, patient)) {
      for (String part : parts(agent)) {
        if (rule.forbids().contains(part)) {
          forbidden.add(new Forbidden(rule.alert(), part));
        }
      }
    }
    return List.copyOf(forbidden);
  }

  /**
   * What speaks against pocket gel for this patient, whatever the amount; empty where nothing does.
   */
  public static List<String> gelRefusals(Practice practice, Patient patient) {
    Gel gel = practice.gel();
    List<String> refusals = new ArrayList<>();
    if (!gel.owned()) {
      refusals.add("the practice has no " + gel.name());
    }
    Integer age = patient.ageYears();
    if (age == null) {
      refusals.add("the patient's age is not known");
    } else if (age < gel.fromAgeYears().value()) {
      refusals.add("the patient is under " + gel.fromAgeYears().asInt() + " years");
    }
    if (patient.weightKg() == null) {
      refusals.add(NO_WEIGHT);
    }
    for (AlertRule rule : rules(practice, patient)) {
      if (rule.forbidsGel()) {
        refusals.add("alert " + rule.alert().word() + " forbids " + gel.name());
      }
      for (String drug : gel.drugs()) {
        if (rule.forbids().contains(drug)) {
          refusals.add("alert " + rule.alert().word() + " forbids " + drug);
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
