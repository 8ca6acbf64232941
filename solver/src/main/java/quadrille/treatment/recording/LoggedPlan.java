package quadrille.treatment.recording;

import java.time.LocalDate;
import java.util.List;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;

/**
 * The plan of a course that holds now, with what it was made from, so that it can be shown again
 * and read a second time as it was when it went into the log.
 *
 * @param course the plan
 * @param chart the mouth as it was known then
 * @param practice whose figures held then
 * @param before where the course stood then; null where it began with this plan
 * @param booked what is promised of the visits to come, by their number
 */
public record LoggedPlan(
    Course course,
    Chart chart,
    Practice practice,
    @Nullable CourseState before,
    SortedMap<Integer, Event.Appointment> booked) {

  /** The plan that holds now. */
  public static LoggedPlan of(CourseLog log) {
    SortedMap<Integer, Event.Appointment> booked = CourseState.of(log).booked();
    for (int i = log.entries().size() - 1; i > 0; i--) {
      LogEntry entry = log.entries().get(i);
      if (entry.event() instanceof Event.Replanned plan) {
        CourseLog earlier = new CourseLog(log.entries().subList(0, i), null);
        return new LoggedPlan(
            plan.course(),
            plan.chart(),
            log.practiceAt(entry.number()),
            CourseState.of(earlier),
            booked);
      }
    }
    Event.Planned plan = log.planned();
    return new LoggedPlan(plan.course(), plan.chart(), plan.practice(), null, booked);
  }

  /**
   * Reads it a second time. A plan that carries on a course may have been made for the day of the
   * visit before it, so that what was given that day counts; the log does not say, and either will
   * do.
   */
  public List<Finding> audit() {
    CourseState state = before;
    if (state == null) {
      return Audit.audit(course, chart, practice);
    }
    List<Finding> findings = Audit.audit(course, state.before(null), chart, practice);
    LocalDate last = state.lastDay();
    return findings.isEmpty() || last == null
        ? findings
        : Audit.audit(course, state.before(last), chart, practice).isEmpty() ? List.of() : findings;
  }
}
