package quadrille.facts.chart;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;

/**
 * The patient facts that bear on a plan. What is not known is null, and nothing is assumed in its
 * place.
 *
 * @param ageYears 0 to 120
 * @param weightKg 2 to 400
 * @param longestVisitMinutes the longest visit the patient can sit through, 10 to 480
 * @param alerts medical and personal alerts
 * @param startWith the quadrant of the chief complaint, asked for in the first visit
 * @param wishesNumbness whether the patient wishes to be numb for every fine pass
 */
@Withers
public record Patient(
    @Nullable Integer ageYears,
    @Nullable Double weightKg,
    @Nullable Integer longestVisitMinutes,
    Set<Alert> alerts,
    @Nullable Quadrant startWith,
    boolean wishesNumbness)
    implements PatientBuilder.With {

  public Patient {
    alerts = alerts.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(alerts));
  }

  public boolean has(Alert alert) {
    return alerts.contains(alert);
  }
}
