package quadrille.facts.practice;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;

/** Why a patient may not have an agent, or pocket gel, whatever the amount. */
public sealed interface Refusal {

  /** Nobody has taken the medical history. */
  record NoHistory() implements Refusal {}

  /** Without a weight there is no maximum dose. */
  record NoWeight() implements Refusal {}

  /**
   * An alert forbids it.
   *
   * @param part what of it: the drug, the vasoconstrictor, {@link #AMIDES}, or the gel's name
   */
  record Forbidden(Alert alert, String part) implements Refusal {

    /** Every anaesthetic of the amide kind. */
    public static final String AMIDES = "amide anaesthetics";
  }

  /**
   * It is not for patients so young, nor for those of unknown age.
   *
   * @param ageYears null where it is not known
   */
  record TooYoung(int fromAgeYears, @Nullable Integer ageYears) implements Refusal {}

  /** The practice does not have it. */
  record NotOwned() implements Refusal {}
}
