package quadrille.plan.course;

import java.time.LocalDate;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Tooth;
import quadrille.plan.work.WorkNote;

/** What the clinician is asked to mind. Prompts, never clearances. */
public sealed interface Caution {

  /** As the practice's file words it for an alert, or as a plan file has it. */
  record AsWritten(String text) implements Caution {}

  /** An alert of which the practice's file says nothing. */
  record UnknownAlert(Alert alert) implements Caution {}

  /** What the chart leaves open, or the plan does not decide. */
  record OfWork(WorkNote note) implements Caution {}

  /** What holds for a plan wherever it is made. */
  enum Known implements Caution {
    /** Nobody has taken the medical history, so that the plan is provisional. */
    HISTORY_NOT_TAKEN,
    /** The patient's age is not charted. */
    AGE_NOT_CHARTED,
    /** An implant is worked on: a new sleeve, low power, no bare metal. */
    NEW_SLEEVE,
    /** Lip, cheek or tongue are numb when the visit ends. */
    NUMB_AFTERWARDS,
    /** Restoration margins or demineralised enamel are near. */
    DELICATE_SURFACES
  }

  /** A block that fails often, so that a second dose may be needed. */
  record BlockMayFail(InjectionRef injection) implements Caution {}

  /** An injection that is planned again did not take in an earlier visit. */
  record DidNotTake(InjectionRef injection, int visit, LocalDate date) implements Caution {}

  /** A sleeve broke at an implant in an earlier visit. */
  record SleeveBroke(Tooth implant, int visit, LocalDate date) implements Caution {}
}
