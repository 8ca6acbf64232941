package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.LengthLimit;
import quadrille.plan.course.LengthLimit.Whose;

/** What limits how long a visit may be, and the same where those limits give way. */
final class LengthLimits {
  private static final String CHART = "the chart";

  private LengthLimits() {}

  /** Those that allow no visit of so many minutes: the practice's, the patient's, the alerts'. */
  static List<LengthLimit> below(int minutes, Practice practice, Patient patient) {
    List<LengthLimit> limits = new ArrayList<>();
    Figure longest = practice.appointments().longestVisitMinutes();
    if (longest.value() < minutes) {
      limits.add(new LengthLimit(Whose.PRACTICE, null, longest.floor()));
    }
    Integer own = patient.longestVisitMinutes();
    if (own != null && own < minutes) {
      limits.add(new LengthLimit(Whose.PATIENT, null, new Figure(own, CHART)));
    }
    for (AlertRule rule : PatientRules.of(practice, patient).alerts()) {
      Figure cap = rule.longestVisitMinutes();
      if (cap != null && cap.value() < minutes) {
        limits.add(new LengthLimit(Whose.ALERT, rule.alert(), cap.floor()));
      }
    }
    return limits;
  }

  /** The practice where none of its limits, and no alert's, is below so many minutes. */
  static Practice practice(int minutes, Practice practice) {
    Figure longest = new Figure(minutes, Figure.OWN);
    Practice longer = practice;
    if (practice.appointments().longestVisitMinutes().value() < minutes) {
      longer = practice.withAppointments(practice.appointments().withLongestVisitMinutes(longest));
    }
    Map<Alert, AlertRule> alerts = new LinkedHashMap<>(longer.alerts());
    alerts.replaceAll(
        (alert, rule) -> {
          Figure cap = rule.longestVisitMinutes();
          return cap != null && cap.value() < minutes
              ? rule.withLongestVisitMinutes(longest)
              : rule;
        });
    return longer.withAlerts(alerts);
  }

  /** The patient where he or she sits through so many minutes. */
  static Patient patient(int minutes, Patient patient) {
    return patient.longestVisitMinutes() == null
        ? patient
        : patient.withLongestVisitMinutes(
            Math.max(minutes, Objects.requireNonNull(patient.longestVisitMinutes())));
  }
}
