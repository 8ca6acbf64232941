package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;

/** What the clinician is asked to mind. Prompts, never clearances. */
final class Cautions {

  private Cautions() {}

  /** For the whole course: alerts, what the chart leaves open, what the plan does not decide. */
  static List<String> ofCourse(Chart chart, Practice practice, List<String> workNotes) {
    List<String> cautions = new ArrayList<>();
    for (Alert alert : chart.patient().alerts()) {
      Optional<AlertRule> rule = practice.alertRule(alert);
      if (rule.isPresent()) {
        cautions.addAll(rule.get().cautions());
      } else {
        cautions.add(alert.word() + ": the practice file says nothing of it; ask the clinician");
      }
    }
    cautions.addAll(workNotes);
    if (chart.patient().ageYears() == null) {
      cautions.add("the patient's age is not charted");
    }
    return List.copyOf(cautions);
  }

  /** For one visit. */
  static List<String> ofVisit(Visit visit, Chart chart, Practice practice) {
    List<String> cautions = new ArrayList<>();
    if (visit.sleeves() > 0) {
      cautions.add("fit a new sleeve; no bare metal on the implant, low power only");
    }
    for (GivenInjection given : visit.injections()) {
      Injection kind = practice.injections().get(given.injection());
      if (kind != null && kind.neverBothSides()) {
        cautions.add(
            "the "
                + given.ref().name(chart.numbering())
                + " block may fail; test before starting, and a second dose counts");
      }
    }
    if (!visit.injections().isEmpty()) {
      cautions.add("numb lip, cheek or tongue afterwards: no chewing until feeling is back");
    }
    boolean delicate =
        visit.steps().stream()
            .map(Entry.Debride::teeth)
            .flatMap(List::stream)
            .map(chart::tooth)
            .flatMap(Optional::stream)
            .anyMatch(Cautions::delicate);
    if (delicate) {
      cautions.add("keep the tip off restoration margins and demineralised enamel");
    }
    return List.copyOf(cautions);
  }

  private static boolean delicate(ToothChart tooth) {
    return tooth.has(Feature.RESTORATION_MARGIN) || tooth.has(Feature.DEMINERALISED);
  }
}
