package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;

/** Which of the practice's agents a patient may have, as far as history, weight and age say. */
public final class Agents {

  private Agents() {}

  /**
   * A preferred agent and what speaks against it.
   *
   * @param objections empty where nothing forbids it
   */
  public record Choice(Agent agent, List<Objection> objections) {

    public Choice {
      objections = List.copyOf(objections);
    }

    public boolean allowed() {
      return objections.isEmpty();
    }
  }

  /** The practice's preferred agents, best first, each with what speaks against it. */
  public static List<Choice> choices(Practice practice, Patient patient) {
    PatientRules rules = PatientRules.of(practice, patient);
    return preferred(practice).stream()
        .map(agent -> new Choice(agent, rules.objections(agent)))
        .toList();
  }

  /**
   * The preferred agents that the patient may have, best first; none for an unknown history or
   * weight.
   */
  public static List<Agent> allowed(Practice practice, Patient patient) {
    return choices(practice, patient).stream().filter(Choice::allowed).map(Choice::agent).toList();
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
