package quadrille.plan.scenario;

import quadrille.facts.chart.Alert;

/** What a clinician is asked to mind with a choice of a comparison. */
public sealed interface Hint {

  /**
   * Much is treated within 24 h.
   *
   * @param quadrants whose fine pass that is
   * @param fineSeconds how long it takes
   * @param muchFrom from how many quadrants on it is called much
   */
  record MuchWithin24Hours(int quadrants, int fineSeconds, int muchFrom) implements Hint {}

  /** One visit does everything, where the practice's rule for an alert is not to, within 24 h. */
  record EverythingInOneVisit(Alert alert) implements Hint {}
}
