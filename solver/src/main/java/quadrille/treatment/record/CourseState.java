package quadrille.treatment.record;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.plan.course.Before;
import quadrille.plan.course.Course;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.plan.work.DoneWork;

/**
 * Where a course stands, as its log tells with all corrections seen.
 *
 * @param course the plan that holds now
 * @param chart the mouth with all that was found so far
 * @param done the work done so far
 * @param recorded the visits that took place, in the order of their records
 * @param toCome the visits of the plan that have no record, in order
 * @param booked promised visits of those to come, by their number
 */
public record CourseState(
    Course course,
    Chart chart,
    DoneWork done,
    List<CourseLog.Recorded> recorded,
    List<Visit> toCome,
    SortedMap<Integer, Event.Appointment> booked) {

  /** Reads where a course stands. */
  public static CourseState of(CourseLog log) {
    Course course = log.planned().course();
    Map<Integer, Event.Appointment> appointments = new LinkedHashMap<>();
    for (LogEntry entry : log.entries()) {
      if (entry.event() instanceof Event.Replanned replanned) {
        course = replanned.course();
      } else if (entry.event() instanceof Event.Booked booked) {
        booked.visits().forEach(visit -> appointments.put(visit.visit(), visit));
      }
    }
    List<CourseLog.Recorded> recorded = log.recorded();
    SortedSet<Integer> numbers = numbers(recorded);
    List<Visit> toCome =
        course.visits().stream().filter(visit -> !numbers.contains(visit.number())).toList();
    SortedMap<Integer, Event.Appointment> booked = new TreeMap<>();
    for (Visit visit : toCome) {
      Event.@Nullable Appointment appointment = appointments.get(visit.number());
      if (appointment != null) {
        booked.put(visit.number(), appointment);
      }
    }
    DoneWork done = DoneWork.NONE;
    Chart chart = log.planned().chart();
    for (CourseLog.Recorded one : recorded) {
      for (StepDone step : one.done().steps()) {
        done = plus(done, step);
      }
      for (Observation finding : one.done().findings()) {
        if (finding instanceof Observation.Depth depth) {
          chart = with(chart, depth);
        }
      }
    }
    return new CourseState(course, chart, done, recorded, toCome, booked);
  }

  private static SortedSet<Integer> numbers(List<CourseLog.Recorded> recorded) {
    SortedSet<Integer> numbers = new TreeSet<>();
    recorded.forEach(one -> numbers.add(one.done().visit()));
    return numbers;
  }

  static DoneWork plus(DoneWork done, StepDone step) {
    DoneWork sum = done;
    for (Tooth tooth : step.teeth()) {
      for (Aspect aspect : step.aspect().aspects()) {
        sum = sum.plus(new DoneWork.Part(tooth, step.pass(), aspect), step.share());
      }
    }
    return sum;
  }

  /** The chart with one site as it was found. */
  private static Chart with(Chart chart, Observation.Depth depth) {
    List<ToothChart> teeth = new ArrayList<>();
    for (ToothChart tooth : chart.teeth()) {
      teeth.add(tooth.tooth().equals(depth.tooth()) ? with(tooth, depth) : tooth);
    }
    return chart.withTeeth(teeth);
  }

  private static ToothChart with(ToothChart tooth, Observation.Depth depth) {
    boolean facial = depth.aspect() == Aspect.FACIAL;
    return new ToothChart(
        tooth.tooth(),
        tooth.status(),
        tooth.deposit(),
        tooth.furcation(),
        tooth.mobility(),
        tooth.features(),
        facial ? with(tooth.facial(), depth) : tooth.facial(),
        facial ? tooth.lingual() : with(tooth.lingual(), depth));
  }

  private static @Nullable AspectReading with(
      @Nullable AspectReading reading, Observation.Depth depth) {
    if (reading == null) {
      return null;
    }
    List<Site> sites = new ArrayList<>(reading.sites());
    Site old = sites.get(depth.site());
    @Nullable Boolean bleeding = depth.bleeding();
    sites.set(
        depth.site(),
        new Site(depth.depthMm(), old.recessionMm(), bleeding == null ? old.bleeding() : bleeding));
    return new AspectReading(sites.get(0), sites.get(1), sites.get(2));
  }

  /** The day of the last visit that took place; null before any. */
  public @Nullable LocalDate lastDay() {
    return recorded.stream().map(one -> one.done().date()).max(LocalDate::compareTo).orElse(null);
  }

  /**
   * What went before the next visit.
   *
   * @param day the day of the next visit, so that what was given earlier that day counts; null for
   *     a day on which nothing was given
   */
  public Before before(@Nullable LocalDate day) {
    List<GivenInjection> given = new ArrayList<>();
    SortedMap<Quadrant, Double> gel = new TreeMap<>();
    SortedMap<String, Integer> sets = new TreeMap<>();
    for (CourseLog.Recorded one : recorded) {
      if (one.done().date().equals(day)) {
        // A kit is opened before the first step: what it held is sterile no more, used or not.
        one.done().steps().stream()
            .map(StepDone::insert)
            .distinct()
            .forEach(insert -> sets.merge(insert, 1, Integer::sum));
        for (Given each : one.done().injections()) {
          given.add(
              new GivenInjection(
                  each.injection(), each.quadrant(), each.tooth(), each.agent(), each.ml()));
        }
        one.done()
            .gelCartridges()
            .forEach((quadrant, more) -> gel.merge(quadrant, more, Double::sum));
      }
    }
    return new Before(numbers(recorded), done, given, gel, sets);
  }

  /** All findings, each with the day and the visit that made it, in order. */
  public List<Found> findings() {
    List<Found> found = new ArrayList<>();
    for (CourseLog.Recorded one : recorded) {
      one.done()
          .findings()
          .forEach(each -> found.add(new Found(one.done().visit(), one.done().date(), each)));
    }
    return List.copyOf(found);
  }

  /** A finding and where it comes from. */
  public record Found(int visit, LocalDate date, Observation finding) {}
}
