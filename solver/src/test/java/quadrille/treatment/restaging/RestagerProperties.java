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
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.statistics.Statistics;
import org.junit.jupiter.api.Tag;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.Mouths;
import quadrille.mouths.Profile;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.StepAspect;
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

  @Provide
  Arbitrary<Chart> mouths() {
    return Mouths.of(
        Profile.TREATMENT, Profile.SEVERE, Profile.MILD, Profile.IMPLANTS, Profile.CAPPED);
  }

  @Provide
  Arbitrary<Long> chances() {
    return Arbitraries.longs().between(0, 1_000_000).withoutEdgeCases();
  }

  private static Course planned(Chart chart) throws Exception {
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK).plan(chart, PRACTICE, new VisitRange(2, 5));
    return outcome instanceof Planned planned
        ? planned.course()
        : new Course("none", List.of(), 7, 14, 6, 12, emptyCost(), List.of(), List.of(), List.of());
  }

  private static quadrille.plan.course.Cost emptyCost() {
    return new quadrille.plan.course.Cost(0, 0, Map.of());
  }

  @Property(seed = "20261125", tries = 150, shrinking = ShrinkingMode.OFF)
  void nothingDoneIsPlannedAgainAndNothingLeftIsForgotten(
      @ForAll("mouths") Chart chart, @ForAll("chances") long seed) throws Exception {
    Course course = planned(chart);
    if (course.visits().isEmpty()) {
      Statistics.collect("no visits");
      return;
    }
    Random random = new Random(seed);
    Interruptions told = new Interruptions(chart, course, random);
    CourseLog log = Records.begun(course, chart, PRACTICE);
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
        Statistics.collect("no course");
        return;
      }
      Restaged again = ((Restager.Outcome.Again) outcome).restaged();
      told.check(again.course());
      Statistics.collect(again.changes().isEmpty() ? "unchanged" : "changed");
      log = Records.with(log, new Event.Replanned(again.course(), again.chart(), again.changes()));
      told.toCome = again.course().visits();
    }
  }

  @Property(seed = "20261125", tries = 15, shrinking = ShrinkingMode.OFF)
  void unchangedSituationsGiveUnchangedPlans(
      @ForAll("mouths") Chart chart, @ForAll("chances") long seed) throws Exception {
    Course course = planned(chart);
    // Where no plan of 2 to 5 visits was found there is nothing to keep.
    Assume.that(!course.visits().isEmpty());
    CourseLog log = Records.begun(course, chart, PRACTICE);
    Random random = new Random(seed);
    int recorded = course.visits().isEmpty() ? 0 : random.nextInt(course.visits().size());
    for (int i = 0; i < recorded; i++) {
      log = Records.with(log, Records.done(course.visits().get(i), 7 * i, step -> 1, List.of()));
    }
    Restaged again =
        ((Restager.Outcome.Again) new Restager(Effort.QUICK).restage(log, PRACTICE, null))
            .restaged();
    assertEquals(
        course.visits().subList(recorded, course.visits().size()), again.course().visits());
    assertEquals(course.heldBack(), again.course().heldBack());
    assertEquals(List.of(), again.changes());
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
