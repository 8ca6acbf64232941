package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
import ai.timefold.solver.core.api.solver.SolverFactory;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Mouths;
import quadrille.mouths.Profile;
import quadrille.mouths.Tries;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.VisitTimeline;
import quadrille.plan.work.Burden;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/** What plans show as cost is what the solver was charged, and the bound lies below it. */
class CourseCostTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  private static StagingCase staging(Chart chart, int visits) throws Exception {
    WorkList work = WorkPlanner.plan(chart, PRACTICE, Area.of(chart));
    Map<AreaRef, Double> burdens = new LinkedHashMap<>();
    for (Area area : work.areas()) {
      burdens.put(area.ref(), Burden.of(area, chart, PRACTICE.minutes()));
    }
    return new StagingCase(chart.patient(), PRACTICE, work.steps(), burdens, visits);
  }

  @Test
  void theTermsAddUpToTheSolversSoftScoreWhateverTheCourse() throws Exception {
    SolutionManager<CourseSolution, HardSoftLongScore> scores =
        SolutionManager.create(SolverFactory.<CourseSolution>create(Stager.config()));
    Random random = new Random(7);
    for (Profile profile : List.of(Profile.TREATMENT, Profile.IMPLANTS, Profile.CAPPED)) {
      StagingCase staging =
          staging(MouthGenerator.mouth(random.nextInt(1000), profile), 2 + random.nextInt(3));
      for (int round = 0; round < 10; round++) {
        CourseSolution course = new CourseSolution(new CaseEvaluator(staging));
        List<StepFact> steps = new ArrayList<>(staging.steps());
        Collections.shuffle(steps, random);
        steps.forEach(
            step -> course.visits().get(random.nextInt(staging.visits())).steps().add(step));
        HardSoftLongScore score = scores.update(course);
        List<VisitTimeline> layouts = course.visits().stream().map(VisitSlot::layout).toList();
        assertEquals(-score.softScore(), CourseCost.sum(CourseCost.of(staging, layouts)));
      }
    }
  }

  @Test
  @Tag("slow")
  void theBoundNeverLiesAboveACourse() throws Exception {
    Stager stager = new Stager(Effort.QUICK);
    int visits = 0;
    int bounded = 0;
    for (Chart chart : Mouths.sample(Tries.of(14, 63), Profile.values())) {
      visits = visits % 5 + 1;
      StagingCase staging = staging(chart, visits);
      if (!staging.steps().isEmpty() && staging.blocks().size() >= visits) {
        Staged staged = stager.stage(staging);
        assertTrue(
            !staged.feasible() || staged.bound().seconds() <= staged.seconds(),
            chart.caseName() + " in " + visits);
        bounded += staged.feasible() ? 1 : 0;
      }
    }
    assertTrue(bounded >= Tries.of(5, 20), "courses: " + bounded);
  }
}
