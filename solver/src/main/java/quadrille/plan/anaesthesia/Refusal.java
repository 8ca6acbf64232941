package quadrille.plan.anaesthesia;

import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Objection;

/** Why an agent or pocket gel, or so much of it, may not be given. */
public sealed interface Refusal {

  /** The patient may not have it, whatever the amount. */
  record ForPatient(Objection objection) implements Refusal {}

  /** More than its maximum. */
  record TooMuch(Doses.Share of) implements Refusal {}

  /**
   * All together are more than the maximum.
   *
   * @param share sum of the shares, above 1
   */
  record TooMuchTogether(double share) implements Refusal {}

  /** More epinephrine than a visit may give. */
  record TooMuchEpinephrine(double mg, double capMg) implements Refusal {}

  /** More gel, in cartridges, than a quadrant may have. */
  record TooMuchGel(String gel, Quadrant quadrant, double cartridges, double most)
      implements Refusal {}
}
