package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.work.Burden;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/**
 * A course whose visits and orders somebody gives, laid out by the same clock as a plan and read by
 * the same audit. It is no plan unless nothing was found.
 *
 * <p>All injections of a visit are given before its first step. Areas are not cut.
 *
 * @param staged how it is laid out; not judged by the rule book of the search
 * @param findings what the audit finds; empty where every hard rule is kept
 */
public record GivenCourse(Course course, Staged staged, List<Finding> findings) {

  public GivenCourse {
    findings = List.copyOf(findings);
  }

  /** Puts steps into visits, and those of each visit into their order. */
  public interface Arrangement {

    /**
     * @param steps the steps that can be planned, each to be used once
     * @param fits whether steps in this order make a visit that may be booked, as far as length
     *     goes
     * @return the visits, none of them empty
     */
    List<List<Step>> arrange(List<Step> steps, Predicate<List<Step>> fits);
  }

  /** Whether no hard rule is broken. */
  public boolean legal() {
    return findings.isEmpty();
  }

  /**
   * Lays an arrangement out and reads it; empty where nothing is due, or everything waits.
   *
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   */
  public static Optional<GivenCourse> of(Chart chart, Practice practice, Arrangement arrangement)
      throws UnworkableException {
    WorkList work = WorkPlanner.plan(chart, practice, Area.of(chart));
    DeferredWork holding = DeferredWork.asGiven(work.steps(), practice, chart, chart.patient());
    List<Step> steps = holding.planned();
    if (steps.isEmpty()) {
      return Optional.empty();
    }
    List<List<Step>> visits =
        arrangement.arrange(
            steps,
            some -> {
              StagingCase alone =
                  new StagingCase(
                      chart.patient().withWishes(List.of()), practice, some, Map.of(), 1);
              return Stager.laidOut(alone, indexes(some, List.of(some))).fits();
            });
    StagingCase staging =
        new StagingCase(
            chart.patient(),
            practice,
            steps,
            Burden.each(work.areas(), chart, practice.minutes()),
            visits.size());
    Staged staged = Stager.laidOut(staging, indexes(steps, visits));
    Course course = CoursePlanner.course(chart, practice, work, holding, staged);
    return Optional.of(new GivenCourse(course, staged, Audit.audit(course, chart, practice)));
  }

  private static List<List<Integer>> indexes(List<Step> steps, List<List<Step>> visits) {
    List<List<Integer>> indexes = new ArrayList<>();
    for (List<Step> visit : visits) {
      indexes.add(visit.stream().map(steps::indexOf).toList());
    }
    return indexes;
  }
}
