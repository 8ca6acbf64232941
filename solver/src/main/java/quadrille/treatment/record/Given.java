package quadrille.treatment.record;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;

/**
 * An injection that was given.
 *
 * @param injection its name in the practice's table
 * @param tooth for an injection given tooth by tooth
 * @param agent the agent's name in the practice's table
 * @param ml more than 0
 */
public record Given(
    String injection, Quadrant quadrant, @Nullable Tooth tooth, String agent, double ml) {

  public Given {
    if (!(ml > 0)) {
      throw new IllegalArgumentException("The volume (" + ml + " mL) must be more than 0.");
    }
  }

  /** What a visit was to give, given. */
  public static Given of(GivenInjection planned) {
    return new Given(
        planned.injection(), planned.quadrant(), planned.tooth(), planned.agent(), planned.ml());
  }

  /** Which injection it was, whatever was injected. */
  public InjectionRef ref() {
    return new InjectionRef(injection, quadrant, tooth);
  }
}
