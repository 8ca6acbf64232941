package quadrille.plan.course;

import java.util.List;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Pass;
import quadrille.plan.work.StepAspect;

/**
 * Work that the course leaves out, and why: it waits for a fact, such as the patient's weight.
 *
 * @param teeth at least one, sorted
 * @param reason what is missing
 */
public record HeldBack(
    AreaRef area, Pass pass, StepAspect aspect, List<Tooth> teeth, Reason reason) {

  public HeldBack {
    teeth = teeth.stream().sorted().toList();
  }

  /** What is missing in the end, whatever of its area waits for it first. */
  public Reason root() {
    Reason root = reason;
    while (root instanceof Follows || root instanceof WholeArea) {
      root = root instanceof Follows follows ? follows.waiting() : ((WholeArea) root).waiting();
    }
    return root;
  }

  /** Why work waits. */
  public sealed interface Reason {}

  /** Nobody has taken the medical history, so no anaesthetic is planned. */
  public record NoHistory() implements Reason {}

  /** The patient's weight is missing, so no dose can be planned and no injection is. */
  public record NoWeight() implements Reason {}

  /** The patient may have none of the practice's agents. */
  public record NoAgent(List<Refused> agents) implements Reason {
    public NoAgent {
      agents = List.copyOf(agents);
    }
  }

  /**
   * Of the agents that the patient may have, none serves there, not even in a visit of its own.
   *
   * @param agents their names, at least one
   * @param dose whether the doses do not suffice; else numbness ends before the work does
   */
  public record NoAgentServes(List<String> agents, boolean dose) implements Reason {
    public NoAgentServes {
      agents = List.copyOf(agents);
    }
  }

  /** No injection is wished there, and pocket gel may not serve. */
  public record NoInjectionWished() implements Reason {}

  /** So much of the mouth is unprobed that this is planned again from a new chart. */
  public record AwaitsChart() implements Reason {}

  /** It must come after work that waits. */
  public record Follows(Reason waiting) implements Reason {}

  /** Its area is finished in the visit that begins it, and other work there waits. */
  public record WholeArea(Reason waiting) implements Reason {}

  /** As a plan file of version 1 has it, which knew words only. */
  public record AsWritten(String text) implements Reason {}

  /**
   * An agent that the patient may not have.
   *
   * @param agent its name
   * @param why alerts that forbid it, or an age that does
   */
  public record Refused(String agent, List<Objection> why) {
    public Refused {
      why = List.copyOf(why);
    }
  }
}
