package quadrille.plan.anaesthesia;

import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Quadrant;

/** Why an agent or pocket gel, or so much of it, may not be given. */
public sealed interface Refusal {

  /** The patient's weight is not known, so no maximum dose can be worked out. */
  record NoWeight() implements Refusal {}

  /**
   * An alert of the patient's forbids a part of it.
   *
   * @param part the drug, the vasoconstrictor or the gel
   */
  record Forbidden(Alert alert, String part) implements Refusal {}

  /** The practice has no gel. */
  record NotOwned(String gel) implements Refusal {}

  /** The patient's age is not known, and gel is for patients of a certain age. */
  record NoAge() implements Refusal {}

  /** The patient is younger than those whom gel is for. */
  record TooYoung(int fromYears) implements Refusal {}

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
