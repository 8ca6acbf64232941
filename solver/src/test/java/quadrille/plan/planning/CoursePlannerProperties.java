package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Mouths;
import quadrille.mouths.Profile;
import quadrille.mouths.Tries;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.StepAspect;

/**
 * Whole plans of random mouths. The planner throws where a course does not pass the audit, so that
 * each plan here has passed it; what is checked beside is this test's own reading of the chart.
 */
@Tag("slow")
class CoursePlannerProperties {
  private static final Practice PRACTICE = PracticeReader.defaults();
  private static final Set<String> REMEDIED = Set.of("one deep molar", "ten minutes at most");
  private static final int DEEP = 4;
  private static final int VERY_DEEP = 7;

  @Test
  void everyToothsWorkIsInExactlyOnePlace() throws Exception {
    for (Chart chart :
        Mouths.sample(
            Tries.of(12, 60),
            Profile.TREATMENT,
            Profile.POPULATION,
            Profile.SEVERE,
            Profile.MILD,
            Profile.IMPLANTS,
            Profile.CAPPED)) {
      VisitRange visits = new VisitRange(3, 4);
      check(chart, new CoursePlanner(Effort.QUICK).planOnly(chart, PRACTICE, visits, false));
    }
  }

  @Test
  void noHostileMouthCrashesTheProgram() throws Exception {
    CoursePlanner planner = new CoursePlanner(Effort.QUICK);
    VisitRange five = VisitRange.exactly(5);
    for (Chart chart : MouthGenerator.hostile()) {
      // Remedies take most of the time where there is no plan.
      boolean remedies = Tries.of(0, 1) > 0 || REMEDIED.contains(chart.caseName());
      check(
          chart,
          remedies
              ? planner.plan(chart, PRACTICE, five)
              : planner.planOnly(chart, PRACTICE, five, false));
    }
  }

  private static void check(Chart chart, PlanOutcome outcome) {
    if (outcome instanceof NoPlan none) {
      assertFalse(none.clashes().isEmpty(), "no plan, and no word why");
      return;
    }
    Course course = ((Planned) outcome).course();
    List<String> found = new ArrayList<>();
    for (Visit visit : course.visits()) {
      assertFalse(visit.steps().isEmpty(), "an empty visit");
      for (Entry.Debride step : visit.steps()) {
        step.teeth().forEach(tooth -> add(found, tooth, step.pass(), step.aspect()));
      }
    }
    for (HeldBack held : course.heldBack()) {
      held.teeth().forEach(tooth -> add(found, tooth, held.pass(), held.aspect()));
    }
    Collections.sort(found);
    assertEquals(due(chart), found, chart.caseName());
  }

  private static void add(List<String> all, Tooth tooth, Pass pass, StepAspect aspect) {
    if (aspect == StepAspect.BOTH) {
      all.add(tooth + " " + pass + " FACIAL");
      all.add(tooth + " " + pass + " LINGUAL");
    } else {
      all.add(tooth + " " + pass + " " + aspect);
    }
  }

  /** What is due, read from the chart by this test alone: the default practice's rules in words. */
  private static List<String> due(Chart chart) {
    List<String> due = new ArrayList<>();
    for (ToothChart tooth : chart.worked()) {
      boolean deep = tooth.sites().stream().anyMatch(site -> atLeast(site, DEEP));
      boolean bleeds = tooth.sites().stream().anyMatch(Site::bleeding);
      boolean deposit = tooth.deposit().ordinal() > 0;
      if (tooth.implant()) {
        if (deposit || bleeds || deep) {
          add(due, tooth.tooth(), Pass.IMPLANT_CARE, StepAspect.BOTH);
        }
        continue;
      }
      if (tooth.deposit().ordinal() >= 2
          || tooth.has(Feature.CALCULUS_BRIDGE)
          || tooth.has(Feature.HEAVY_STAIN)) {
        add(due, tooth.tooth(), Pass.GROSS, StepAspect.BOTH);
      }
      if (deposit || bleeds || deep) {
        add(due, tooth.tooth(), Pass.FINE, StepAspect.BOTH);
      }
      boolean veryDeep = tooth.sites().stream().anyMatch(site -> probedAtLeast(site, VERY_DEEP));
      if (veryDeep || tooth.has(Feature.CROWDED) || tooth.has(Feature.TIGHT_TISSUE)) {
        add(due, tooth.tooth(), Pass.FINISHING, StepAspect.BOTH);
      }
    }
    Collections.sort(due);
    return due;
  }

  /** A site that could not be probed is taken as deep enough for a fine pass. */
  private static boolean atLeast(Site site, int depthMm) {
    return site.depthMm() == null || site.depthMm() >= depthMm;
  }

  private static boolean probedAtLeast(Site site, int depthMm) {
    return site.depthMm() != null && site.depthMm() >= depthMm;
  }

  @Test
  void theOwnReadingIsNotEmpty() {
    assertTrue(MouthGenerator.hostile().stream().anyMatch(chart -> due(chart).size() > 100));
  }
}
