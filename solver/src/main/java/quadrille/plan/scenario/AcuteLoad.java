package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * What a clinician is asked to mind where much is treated within 24 hours.
 *
 * <p>After full-mouth treatment, at 24 h, CRP was three times and IL-6 twice that of quadrant-wise
 * treatment, with no difference by day 7, and treatment time went with CRP (R 0.5): Graziani et al.
 * 2015, J Clin Periodontol 42:843. In type 2 diabetes, full-mouth treatment gave a higher CRP and a
 * smaller gain in HbA1c: Graziani et al. 2023, J Clin Periodontol 50:487. That three quadrants are
 * much is an assumption.
 */
final class AcuteLoad {

  /** Quadrants whose fine pass within 24 h is called much: assumption. */
  private static final int MUCH = 3;

  private AcuteLoad() {}

  static List<Hint> hints(Course course, Chart chart, Practice practice) {
    List<Hint> hints = new ArrayList<>();
    int most = 0;
    int seconds = 0;
    for (List<Visit> day : days(course)) {
      Set<Quadrant> quadrants = EnumSet.noneOf(Quadrant.class);
      int fine = 0;
      for (Visit visit : day) {
        for (Entry.Debride step : visit.steps()) {
          if (step.pass() == Pass.FINE) {
            quadrants.add(step.teeth().get(0).quadrant());
            fine += step.seconds();
          }
        }
      }
      if (quadrants.size() > most || (quadrants.size() == most && fine > seconds)) {
        most = quadrants.size();
        seconds = fine;
      }
    }
    if (most >= MUCH) {
      hints.add(new Hint.MuchWithin24Hours(most, seconds, MUCH));
    }
    if (days(course).size() == 1) {
      for (AlertRule rule : PatientRules.of(practice, chart.patient()).alerts()) {
        if (rule.forbidsOneDay()) {
          hints.add(new Hint.EverythingInOneVisit(rule.alert()));
        }
      }
    }
    return hints;
  }

  /** The visits of each day; all in one where there is no gap. */
  private static List<List<Visit>> days(Course course) {
    return course.gapMinDays() == 0
        ? List.of(course.visits())
        : course.visits().stream().map(List::of).toList();
  }
}
