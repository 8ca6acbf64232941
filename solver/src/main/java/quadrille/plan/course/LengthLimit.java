package quadrille.plan.course;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.practice.Figure;

/**
 * What allows no longer visit.
 *
 * @param whose who says so
 * @param alert where an alert caps visits; null otherwise
 * @param minutes the longest visit, whole
 */
public record LengthLimit(Whose whose, @Nullable Alert alert, Figure minutes) {

  /** Who says so. */
  public enum Whose {
    PRACTICE,
    PATIENT,
    ALERT
  }
}
