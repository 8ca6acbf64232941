package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Refusal;

/** Which of the practice's agents a patient may have, as far as history, weight and age say. */
public final class Agents {

  static final String NO_WEIGHT =
      "the patient's weight is not known, so no maximum dose can be worked out";

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

    public boolean allowed() {
      return refusals.isEmpty();
    }
  }

  /** The practice's preferred agents, best first, each with what speaks against it. */
  public static List<Choice> choices(Practice practice, Patient patient) {
    PatientRules rules = PatientRules.of(practice, patient);
    return preferred(practice).stream()
        .map(agent -> new Choice(agent, rules.refusals(agent)))
        .toList();
  }

  /**
   * The preferred agents that the patient may have, best first; none for an unknown history or
   * weight.
   */
  public static List<Agent> allowed(Practice practice, Patient patient) {
    return choices(practice, patient).stream().filter(Choice::allowed).map(Choice::agent).toList();
  }

  /** What speaks against an agent for this patient, whatever the amount, in plain words. */
  static List<String> refusals(PatientRules rules, Agent agent) {
    return words(rules.refusals(agent), agent.drug());
  }

  /**
   * What speaks against pocket gel for this patient, whatever the amount, in plain words; empty
   * where nothing does.
   */
  public static List<String> gelRefusals(Practice practice, Patient patient) {
    return words(PatientRules.of(practice, patient).gelRefusals(), practice.gel().name());
  }

  static List<String> words(List<Refusal> refusals, String what) {
    return refusals.stream().map(refusal -> words(refusal, what)).toList();
  }

  private static String words(Refusal refusal, String what) {
    if (refusal instanceof Refusal.Forbidden forbidden) {
      return "alert " + forbidden.alert().word() + " forbids " + forbidden.part();
    }
    if (refusal instanceof Refusal.TooYoung young) {
      return young.ageYears() == null
          ? "the patient's age is not known"
          : "the patient is under " + young.fromAgeYears() + " years";
    }
    if (refusal instanceof Refusal.NotOwned) {
      return "the practice has no " + what;
    }
    return refusal instanceof Refusal.NoHistory
        ? "the patient's medical history was not taken"
        : NO_WEIGHT;
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
}
