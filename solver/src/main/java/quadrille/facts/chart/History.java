package quadrille.facts.chart;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/**
 * What is known of a patient's medical history. A history that nobody has taken is no clean one, so
 * whoever asks for alerts must ask first whether it was taken.
 *
 * @param taken whether somebody has asked; a chart that leaves its alerts out says no
 * @param alerts medical and personal alerts, in the order of {@link Alert}; none where the history
 *     was not taken
 */
public record History(boolean taken, Set<Alert> alerts) {

  /** Nobody has asked. */
  public static final History UNKNOWN = new History(false, Set.of());

  public History {
    if (!taken && !alerts.isEmpty()) {
      throw new IllegalArgumentException(
          "A history that was not taken cannot have alerts (" + alerts + ").");
    }
    alerts = alerts.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(alerts));
  }

  /** A history that was taken, with these alerts; reviewed and clean where there are none. */
  public static History of(Set<Alert> alerts) {
    return new History(true, alerts);
  }

  public boolean has(Alert alert) {
    return alerts.contains(alert);
  }
}
