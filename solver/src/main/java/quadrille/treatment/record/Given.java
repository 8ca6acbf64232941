package quadrille.treatment.record;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;

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

  /** In words, such as {@code inferior alveolar right} or {@code infiltration 12}. */
  public String words() {
    return tooth == null ? injection + " " + quadrant.side().word() : injection + " " + tooth;
  }
}
