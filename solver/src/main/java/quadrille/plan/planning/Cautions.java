package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartSigns;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.plan.work.WorkNote;

/** What the clinician is asked to mind. Prompts, never clearances. */
final class Cautions {

  private Cautions() {}

  /** For the whole course: alerts, what the chart leaves open, what the plan does not decide. */
  static List<Caution> ofCourse(Chart chart, Practice practice, List<WorkNote> workNotes) {
    List<Caution> cautions = new ArrayList<>();
    PatientRules rules = PatientRules.of(practice, chart.patient());
    if (!rules.historyTaken()) {
      cautions.add(Caution.Known.HISTORY_NOT_TAKEN);
    }
    for (AlertRule rule : rules.alerts()) {
      rule.cautions().forEach(text -> cautions.add(new Caution.AsWritten(text)));
    }
    for (Alert alert : chart.patient().history().alerts()) {
      if (practice.alertRule(alert).isEmpty()) {
        cautions.add(new Caution.UnknownAlert(alert));
      }
    }
    workNotes.forEach(note -> cautions.add(new Caution.OfWork(note)));
    if (chart.patient().ageYears() == null) {
      cautions.add(Caution.Known.AGE_NOT_CHARTED);
    }
    return List.copyOf(cautions);
  }

  /** For one visit. */
  static List<Caution> ofVisit(Visit visit, Chart chart, Practice practice) {
    List<Caution> cautions = new ArrayList<>();
    if (visit.sleeves() > 0) {
      cautions.add(Caution.Known.NEW_SLEEVE);
    }
    List<Tooth> deep = deepImplants(visit, chart);
    if (!deep.isEmpty()) {
      cautions.add(new Caution.OfWork(new WorkNote.Of(WorkNote.Kind.DEEP_IMPLANT, deep)));
    }
    for (GivenInjection given : visit.injections()) {
      Injection kind = practice.injections().get(given.injection());
      if (kind != null && kind.neverBothSides()) {
        cautions.add(new Caution.BlockMayFail(given.ref()));
      }
    }
    if (!visit.injections().isEmpty()) {
      cautions.add(Caution.Known.NUMB_AFTERWARDS);
    }
    boolean delicate =
        visit.steps().stream()
            .map(Entry.Debride::teeth)
            .flatMap(List::stream)
            .map(chart::tooth)
            .flatMap(Optional::stream)
            .anyMatch(Cautions::delicate);
    if (delicate) {
      cautions.add(Caution.Known.DELICATE_SURFACES);
    }
    return List.copyOf(cautions);
  }

  private static List<Tooth> deepImplants(Visit visit, Chart chart) {
    List<Tooth> teeth = visit.steps().stream().flatMap(step -> step.teeth().stream()).toList();
    return ChartSigns.of(chart).implants().stream()
        .map(ChartSigns.DeepImplant::tooth)
        .filter(teeth::contains)
        .toList();
  }

  private static boolean delicate(ToothChart tooth) {
    return tooth.has(Feature.RESTORATION_MARGIN) || tooth.has(Feature.DEMINERALISED);
  }
}
