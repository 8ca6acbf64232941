package quadrille.plan.planning;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;

/** What a chart's file came to when it was planned: the door for programs, in one call. */
public sealed interface ChartPlan {

  /**
   * A course that passed the audit.
   *
   * @param course with no visit where nothing is due
   */
  record Planned(Chart chart, Course course) implements ChartPlan {}

  /**
   * No course keeps every hard rule.
   *
   * @param why what stands in the way, and what would help
   */
  record NoPlan(Chart chart, PlanOutcome.NoPlan why) implements ChartPlan {}

  /**
   * The practice owns no insert that may do some of the work.
   *
   * @param work which, at least one
   */
  record Unworkable(Chart chart, List<quadrille.plan.work.Unworkable> work) implements ChartPlan {}

  /**
   * The file is no valid chart.
   *
   * @param faults all of them, with their places
   */
  record Invalid(List<Fault> faults) implements ChartPlan {}

  /**
   * Plans a chart with the default practice, in one to six visits, at normal effort. The same file
   * gives the same answer.
   *
   * @param chart a file of JSON, YAML or CSV
   * @throws IOException if it cannot be read
   * @throws AuditFailedException if the course found breaks a rule on second reading: a fault of
   *     the program
   */
  static ChartPlan of(Path chart) throws IOException {
    return of(chart, PracticeReader.defaults(), VisitRange.USUAL, Effort.NORMAL);
  }

  /** As {@link #of(Path)}, with a practice, numbers of visits and an effort of one's own. */
  static ChartPlan of(Path file, Practice practice, VisitRange visits, Effort effort)
      throws IOException {
    Chart chart;
    try {
      chart = ChartReader.read(file);
    } catch (InvalidDocumentException invalid) {
      return new Invalid(invalid.faults());
    }
    try {
      PlanOutcome outcome = new CoursePlanner(effort).plan(chart, practice, visits);
      return outcome instanceof PlanOutcome.Planned planned
          ? new Planned(chart, planned.course())
          : new NoPlan(chart, (PlanOutcome.NoPlan) outcome);
    } catch (UnworkableException unworkable) {
      return new Unworkable(chart, unworkable.work());
    }
  }
}
