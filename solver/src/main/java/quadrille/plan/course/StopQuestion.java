package quadrille.plan.course;

import quadrille.facts.chart.Alert;

/** What a person answers at the head of a visit, before anything is touched. */
public sealed interface StopQuestion {

  /** As the practice's file asks it for an alert. */
  record OfAlert(Alert alert, String question) implements StopQuestion {}

  /** What is asked whatever the practice's file says. */
  enum Known implements StopQuestion {
    /** Nobody has taken the medical history. */
    TAKE_THE_HISTORY,
    /** The weight is missing, and work waits for it. */
    WEIGH_THE_PATIENT,
    /** An alert of which the practice's file says nothing. */
    ASK_ABOUT_ALERTS
  }
}
