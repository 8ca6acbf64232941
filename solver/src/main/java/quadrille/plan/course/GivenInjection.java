package quadrille.plan.course;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;

/**
 * An injection that a visit gives.
 *
 * @param injection its name in the practice's table
 * @param quadrant where it is given; its side is the plan file's {@code side}
 * @param tooth the tooth, for an injection given tooth by tooth
 * @param agent the agent's name
 * @param ml volume
 */
public record GivenInjection(
    String injection, Quadrant quadrant, @Nullable Tooth tooth, String agent, double ml) {

  /** Which injection it is, whatever is injected. */
  public InjectionRef ref() {
    return new InjectionRef(injection, quadrant, tooth);
  }
}
