package quadrille.treatment.restaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.Mouths;
import quadrille.mouths.Profile;
import quadrille.mouths.Tries;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Observation;

/**
 * Random mouths, random interruptions. The restager throws where a course does not pass the audit,
 * with the doses already given; what is done and what is left is this test's own book-keeping.
 */
@Tag("slow")
class RestagerProperties {
  private static final Practice PRACTICE = PracticeReader.defaults();

  /** A mouth and a course of it; seeking it takes far longer than interrupting it does. */
  private record Start(Chart chart, Course course) {}

  private static final List<Start> STARTS = starts();

  private static List<Start> starts() {
    List<Start> starts = new ArrayList<>();
    CoursePlanner planner = new CoursePlanner(Effort.QUICK);
    for (Chart chart :
        Mouths.sample(
            Tries.of(16, 80),
            Profile.TREATMENT,
            Profile.SEVERE,
            Profile.MILD,
            Profile.IMPLANTS,
            Profile.CAPPED)) {
      if (outcome(planner, chart, 2 + starts.size() % 4) instanceof Planned planned
          && !planned.course().visits().isEmpty()) {
        starts.add(new Start(chart, planned.course()));
      }
    }
    return starts;
  }

  private static PlanOutcome outcome(CoursePlanner planner, Chart chart, int visits) {
    try {
      return planner.planOnly(chart, PRACTICE, VisitRange.exactly(visits), false);
    } catch (UnworkableException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void nothingDoneIsPlannedAgainAndNothingLeftIsForgotten() throws Exception {
    Map<String, Integer> ends = new TreeMap<>();
    int tries = 4 * STARTS.size();
    for (int i = 0; i < tries; i++) {
      ends.merge(
          interrupted(STARTS.get(i % STARTS.size()), new Random(20261125 + i)), 1, Integer::sum);
    }
    // The cases would prove little if most needed no other plan, or had none.
    assertTrue(STARTS.size() >= Tries.of(8, 40), STARTS.size() + " mouths with a course");
    assertTrue(ends.getOrDefault("changed", 0) >= tries / 4, ends.toString());
  }

  private static String interrupted(Start start, Random random) throws Exception {
    Interruptions told = new Interruptions(start.chart(), start.course(), random);
    CourseLog log = Records.begun(start.course(), start.chart(), PRACTICE);
    String end = "unchanged";
    for (int round = 0; round < 2 && !told.toCome.isEmpty(); round++) {
      if (random.nextBoolean()) {
        log = Records.with(log, told.booking());
      }
      log = Records.with(log, told.nextVisit(round));
      // On the day of the visit itself, or later.
      boolean sameDay = random.nextInt(3) == 0;
      Restager.Outcome outcome =
          new Restager(Effort.QUICK)
              .restage(log, PRACTICE, sameDay ? Records.DAY.plusDays(7L * round) : null);
      if (outcome instanceof Restager.Outcome.NoCourse none) {
        assertFalse(none.clashes().isEmpty(), "no course, and no word why");
        return "no course";
      }
      Restaged again = ((Restager.Outcome.Again) outcome).restaged();
      told.check(again.course());
      end = again.changes().isEmpty() ? end : "changed";
      log = Records.with(log, new Event.Replanned(again.course(), again.chart(), again.changes()));
      told.toCome = again.course().visits();
    }
    return end;
  }

  @Test
  void unchangedSituationsGiveUnchangedPlans() throws Exception {
    for (int i = 0; i < STARTS.size(); i++) {
      Course course = STARTS.get(i).course();
      CourseLog log = Records.begun(course, STARTS.get(i).chart(), PRACTICE);
      int recorded = new Random(i).nextInt(course.visits().size());
      for (int visit = 0; visit < recorded; visit++) {
        log =
            Records.with(
                log, Records.done(course.visits().get(visit), 7 * visit, step -> 1, List.of()));
      }
      Restaged again =
          ((Restager.Outcome.Again) new Restager(Effort.QUICK).restage(log, PRACTICE, null))
              .restaged();
      assertEquals(
          course.visits().subList(recorded, course.visits().size()), again.course().visits());
      assertEquals(course.heldBack(), again.course().heldBack());
      assertEquals(List.of(), again.changes());
    }
  }

  /** What was told of a course, kept tooth by tooth. */
  private static final class Interruptions {
    private static final double ALL = 1 - 1e-9;

    private final Random random;
    private final Map<String, Double> left = new TreeMap<>();
    private final Set<String> foundAt = new TreeSet<>();
    private final Chart chart;
    private List<Visit> toCome;

    Interruptions(Chart chart, Course course, Random random) {
      this.random = random;
      this.chart = chart;
      this.toCome = course.visits();
      course
          .visits()
          .forEach(visit -> visit.steps().forEach(step -> parts(step).forEach(this::due)));
      course.heldBack().forEach(held -> parts(held).forEach(this::due));
    }

    private void due(String part) {
      assertEquals(null, left.put(part, 1.0), part);
    }

    Event booking() {
      List<Event.Appointment> visits = new ArrayList<>();
      for (Visit visit : toCome) {
        visits.add(
            new Event.Appointment(
                visit.number(),
                Records.DAY.plusDays(7L * visit.number()).atTime(9, 0),
                visit.bookedMinutes() + 10 * random.nextInt(3),
                null));
      }
      return new Event.Booked(visits);
    }

    Event nextVisit(int round) {
      Visit visit = toCome.get(0);
      List<Entry.Debride> steps = new ArrayList<>(visit.steps());
      boolean early = toCome.size() > 1 && random.nextInt(3) == 0;
      if (early) {
        steps.add(toCome.get(1).steps().get(0));
      }
      int stoppedAfter = random.nextInt(steps.size() + 2);
      double[] shares = new double[steps.size()];
      for (int i = 0; i < shares.length; i++) {
        boolean own = i < visit.steps().size();
        shares[i] =
            i < stoppedAfter || !own ? 1 : i == stoppedAfter ? random.nextInt(10) / 10.0 : 0;
      }
      List<Observation> findings = findings(visit);
      for (int i = 0; i < shares.length; i++) {
        double share = shares[i];
        for (String part : parts(steps.get(i))) {
          left.computeIfPresent(part, (name, rest) -> rest * (1 - share));
        }
      }
      return Records.done(visit, steps, 7 * round, step -> shares[steps.indexOf(step)], findings);
    }

    private List<Observation> findings(Visit visit) {
      List<Observation> findings = new ArrayList<>();
      if (!visit.injections().isEmpty() && random.nextInt(3) == 0) {
        findings.add(
            new Observation.FailedInjection(
                visit.injections().get(0).injection(),
                visit.injections().get(0).quadrant(),
                visit.injections().get(0).tooth()));
      }
      if (random.nextInt(3) == 0) {
        List<ToothChart> teeth = chart.worked();
        Tooth tooth = teeth.get(random.nextInt(teeth.size())).tooth();
        foundAt.add(tooth.toString());
        findings.add(
            new Observation.Depth(
                tooth,
                Aspect.FACIAL,
                random.nextInt(3),
                3 + random.nextInt(6),
                random.nextBoolean()));
      }
      return findings;
    }

    void check(Course course) {
      Map<String, Integer> planned = new TreeMap<>();
      for (Visit visit : course.visits()) {
        visit.steps().forEach(step -> parts(step).forEach(p -> planned.merge(p, 1, Integer::sum)));
      }
      course.heldBack().forEach(h -> parts(h).forEach(p -> planned.merge(p, 1, Integer::sum)));
      planned.forEach(
          (part, times) -> {
            assertEquals(1, times, part + " is planned twice");
            Double rest = left.get(part);
            if (rest == null) {
              assertTrue(foundAt.contains(part.substring(0, 2)), part + " was never due");
              left.put(part, 1.0);
            } else {
              assertTrue(rest > 1 - ALL, part + " is done and planned again");
            }
          });
      left.forEach(
          (part, rest) -> {
            // A site found healthy may take the need for a pass away.
            if (rest > 1 - ALL && !foundAt.contains(part.substring(0, 2))) {
              assertTrue(planned.containsKey(part), part + " is left and forgotten");
            }
          });
    }

    private static List<String> parts(Entry.Debride step) {
      List<String> parts = new ArrayList<>();
      for (Tooth tooth : step.teeth()) {
        add(parts, tooth.toString(), step.pass().word(), step.aspect().word());
      }
      return parts;
    }

    private static List<String> parts(HeldBack held) {
      List<String> parts = new ArrayList<>();
      for (Tooth tooth : held.teeth()) {
        add(parts, tooth.toString(), held.pass().word(), held.aspect().word());
      }
      return parts;
    }

    private static void add(List<String> parts, String tooth, String pass, String aspect) {
      if (aspect.equals(StepAspect.BOTH.word())) {
        parts.add(tooth + " " + pass + " facial");
        parts.add(tooth + " " + pass + " lingual");
      } else {
        parts.add(tooth + " " + pass + " " + aspect);
      }
    }
  }
}
