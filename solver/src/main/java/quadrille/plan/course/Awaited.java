package quadrille.plan.course;

import java.util.List;
import quadrille.facts.chart.Quadrant;

/** What a visit waits for. */
public sealed interface Awaited {

  /**
   * Pocket gel that was put in just before.
   *
   * @param gel its name
   */
  record Gel(String gel) implements Awaited {}

  /**
   * Injections that must take.
   *
   * @param quadrants where they were given, in the order of the next step's needs; at least one
   */
  record Numbness(List<Quadrant> quadrants) implements Awaited {
    public Numbness {
      quadrants = List.copyOf(quadrants);
    }
  }
}
