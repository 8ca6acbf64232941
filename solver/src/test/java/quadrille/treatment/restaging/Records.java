package quadrille.treatment.restaging;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** Courses under way, made up. */
final class Records {
  static final OffsetDateTime AT = OffsetDateTime.parse("2026-03-02T12:00:00+01:00");
  static final LocalDate DAY = LocalDate.of(2026, 3, 2);

  private Records() {}

  static CourseLog begun(Course course, Chart chart, Practice practice) {
    return with(null, new Event.Planned(course, chart, practice));
  }

  static CourseLog with(CourseLog log, Event event) {
    List<LogEntry> entries = new ArrayList<>(log == null ? List.of() : log.entries());
    Numbering numbering =
        event instanceof Event.Planned planned ? planned.chart().numbering() : log.numbering();
    entries.add(new LogEntry(entries.size() + 1, AT, event, numbering));
    return new CourseLog(entries, null);
  }

  /** A visit of which each step was done by the share given. */
  static VisitDone done(
      Visit visit, int day, ToDoubleFunction<Entry.Debride> share, List<Observation> findings) {
    return done(visit, visit.steps(), day, share, findings);
  }

  /** A visit that did other steps than its own, too. */
  static VisitDone done(
      Visit visit,
      List<Entry.Debride> steps,
      int day,
      ToDoubleFunction<Entry.Debride> share,
      List<Observation> findings) {
    return new VisitDone(
        visit.number(),
        DAY.plusDays(day),
        "clinician-a",
        steps.stream().map(step -> StepDone.of(step, share.applyAsDouble(step))).toList(),
        visit.injections().stream().map(Given::of).toList(),
        new TreeMap<>(),
        50.0,
        List.of(),
        visit.bookedMinutes(),
        false,
        findings,
        "");
  }
}
