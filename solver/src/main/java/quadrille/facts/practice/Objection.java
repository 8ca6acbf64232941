package quadrille.facts.practice;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;

/** What speaks against an agent, or pocket gel, for a patient, whatever the amount. */
public sealed interface Objection {

  /** Nobody has taken the medical history. */
  record NoHistory() implements Objection {}

  /** Without a weight there is no maximum dose. */
  record NoWeight() implements Objection {}

  /**
   * An alert forbids it.
   *
   * @param part what of it: the drug, the vasoconstrictor, {@link #AMIDES}, or the gel's name
   */
  record Forbidden(Alert alert, String part) implements Objection {

    /** Every anaesthetic of the amide kind. */
    public static final String AMIDES = "amide anaesthetics";
  }

  /**
   * It is not for patients so young, nor for those of unknown age.
   *
   * @param ageYears null where it is not known
   */
  record TooYoung(int fromAgeYears, @Nullable Integer ageYears) implements Objection {}

  /** The practice has no such gel. */
  record NotOwned(String gel) implements Objection {}
}
