package quadrille.plan.anaesthesia;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Technique;
import quadrille.plan.work.Target;

/**
 * When numbness begins and ends. Both are counted in whole seconds from the end of the injection;
 * for lasting that is the conservative reading.
 */
public final class Numbness {

  private Numbness() {}

  /**
   * Seconds until a target is numb: the agent's onset for the technique, or the injection's own
   * where that is longer.
   *
   * @throws IllegalArgumentException if the agent has no onset for the injection's technique
   */
  public static int onsetSeconds(Injection injection, Agent agent, Target.Kind kind) {
    double minutes = minutes(agent, "onset", agent.onsetMinutes(), injection.technique());
    @Nullable Figure own =
        kind.pulpal() ? injection.pulpOnsetMinutes() : injection.tissueOnsetMinutes();
    return wholeSeconds(own == null ? minutes : Math.max(minutes, own.value()));
  }

  /** Seconds until all that the injection can numb is numb; 0 where its agent is open. */
  static int onsetSeconds(PlacedInjection placed) {
    Agent agent = placed.agent();
    return agent == null ? 0 : onsetSeconds(placed.injection(), agent);
  }

  /**
   * Seconds until all that the injection can numb is numb.
   *
   * @throws IllegalArgumentException if the agent has no onset for the injection's technique
   */
  public static int onsetSeconds(Injection injection, Agent agent) {
    int onset = 0;
    if (!injection.pulp().isEmpty() || injection.mesiobuccalRoot()) {
      onset = onsetSeconds(injection, agent, Target.Kind.PULP);
    }
    if (!injection.facial().isEmpty() || !injection.lingual().isEmpty()) {
      onset = Math.max(onset, onsetSeconds(injection, agent, Target.Kind.FACIAL));
    }
    return onset;
  }

  /**
   * Seconds for which a target stays numb: the agent's figure for pulp by technique, or its own for
   * lower blocks, or the volume's where that is shorter; or the agent's for soft tissue.
   *
   * @throws IllegalArgumentException if the agent has no figure for the injection's technique
   */
  public static int lastsSeconds(PlacedInjection placed, Agent agent, Target.Kind kind) {
    if (!kind.pulpal()) {
      return wholeSeconds(agent.softTissueMinutes().value());
    }
    @Nullable Figure lower =
        placed.injection().lowerBlock() ? agent.lowerBlockPulpalMinutes() : null;
    double minutes =
        lower == null
            ? minutes(agent, "lasting", agent.pulpalMinutes(), placed.injection().technique())
            : lower.value();
    @Nullable Figure most = placed.amount().pulpalMinutes();
    return wholeSeconds(most == null ? minutes : Math.min(minutes, most.value()));
  }

  private static double minutes(
      Agent agent, String what, Map<Technique, Figure> figures, Technique technique) {
    Figure figure = figures.get(technique);
    if (figure == null) {
      throw new IllegalArgumentException(
          "The agent (" + agent.name() + ") has no " + what + " for the " + technique.word() + ".");
    }
    return figure.value();
  }

  private static int wholeSeconds(double minutes) {
    return (int) Math.round(60 * minutes);
  }
}
