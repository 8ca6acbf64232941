package quadrille.facts.chart;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;

/**
 * The patient facts that bear on a plan. What is not known is null, or a history not taken, and
 * nothing is assumed in its place.
 *
 * @param ageYears 0 to 120
 * @param weightKg 2 to 400
 * @param longestVisitMinutes the longest visit the patient can sit through, 10 to 480
 * @param history medical and personal alerts, or that nobody has asked for them
 * @param startWith the quadrant of the chief complaint, asked for in the first visit
 * @param wishesNumbness whether the patient wishes to be numb for every fine pass
 * @param wishes what the clinician asks of the course; the same wish said twice counts once
 * @param notes free text for people: shown, and nothing is read from it
 */
@Withers
public record Patient(
    @Nullable Integer ageYears,
    @Nullable Double weightKg,
    @Nullable Integer longestVisitMinutes,
    History history,
    @Nullable Quadrant startWith,
    boolean wishesNumbness,
    List<Wish> wishes,
    @Nullable String notes)
    implements PatientBuilder.With {

  public Patient {
    wishes = wishes.stream().distinct().toList();
  }

  /** A patient without notes whose history was taken. */
  public Patient(
      @Nullable Integer ageYears,
      @Nullable Double weightKg,
      @Nullable Integer longestVisitMinutes,
      Set<Alert> alerts,
      @Nullable Quadrant startWith,
      boolean wishesNumbness) {
    this(
        ageYears,
        weightKg,
        longestVisitMinutes,
        History.of(alerts),
        startWith,
        wishesNumbness,
        List.of(),
        null);
  }

  public boolean has(Alert alert) {
    return history.has(alert);
  }
}
