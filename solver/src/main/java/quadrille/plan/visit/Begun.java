package quadrille.plan.visit;

import java.util.Map;
import quadrille.facts.chart.Quadrant;

/**
 * What of a visit that has begun is over.
 *
 * @param given where injections have been given already: after how many steps
 * @param over how many steps are over, before which nothing more can come
 * @param lookedAt after how many steps the bleeding has been looked at; -1 where it has not
 */
public record Begun(Map<Quadrant, Integer> given, int over, int lookedAt) {
  static final Begun NOTHING = new Begun(Map.of(), 0, -1);

  public Begun {
    given = Map.copyOf(given);
  }
}
