package quadrille.plan.course;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;

/**
 * What allows no longer visit.
 *
 * @param whose who says so
 * @param alert where an alert caps visits; null otherwise
 * @param minutes the longest visit
 * @param source how the number is known
 */
public record LengthLimit(Whose whose, @Nullable Alert alert, int minutes, String source) {

  /** Who says so. */
  public enum Whose {
    PRACTICE,
    PATIENT,
    ALERT
  }
}
