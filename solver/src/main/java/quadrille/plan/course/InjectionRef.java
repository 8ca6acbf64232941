package quadrille.plan.course;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;

/**
 * Which injection is meant: one of the practice's table, at a place.
 *
 * @param injection its name in the practice's table
 * @param quadrant where it is given
 * @param tooth the tooth, for an injection given tooth by tooth
 */
public record InjectionRef(String injection, Quadrant quadrant, @Nullable Tooth tooth) {

  /** Its name, such as {@code inferior alveolar right} or {@code infiltration 12}. */
  public String name(Numbering numbering) {
    return injection + " " + (tooth == null ? quadrant.side().word() : numbering.name(tooth));
  }
}
