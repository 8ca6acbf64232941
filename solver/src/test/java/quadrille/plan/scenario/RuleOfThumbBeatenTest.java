package quadrille.plan.scenario;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.mouths.Tries;
import quadrille.plan.course.Course;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;

/**
 * Where a rule of thumb is legal at all, a plan of as many visits costs no more and takes no more
 * chair time. Areas are cut for a plan and not for a rule of thumb, which only favours the rule.
 */
@Tag("slow")
final class RuleOfThumbBeatenTest {
  private static final Practice PRACTICE = PracticeReader.defaults();
  private static final int SEEDS = Tries.of(2, 6);

  @Test
  void noLegalRuleOfThumbIsBetterThanAPlan() throws Exception {
    CoursePlanner planner = new CoursePlanner(Effort.NORMAL);
    int legal = 0;
    int illegal = 0;
    long plans = 0;
    long rules = 0;
    for (Profile profile : List.of(Profile.TREATMENT, Profile.SEVERE, Profile.MILD)) {
      for (long seed = 100; seed < 100 + SEEDS; seed++) {
        Chart chart = MouthGenerator.mouth(seed, profile);
        Map<Integer, Course> planned = new TreeMap<>();
        for (RuleOfThumb rule : RuleOfThumb.values()) {
          var given = rule.course(chart, PRACTICE).orElseThrow();
          if (!given.legal()) {
            illegal++;
            continue;
          }
          legal++;
          Course by = given.course();
          int visits = by.visits().size();
          if (!planned.containsKey(visits)) {
            VisitRange exactly = VisitRange.exactly(visits);
            Planned found = (Planned) planner.planOnly(chart, PRACTICE, exactly, false);
            planned.put(visits, found.course());
          }
          Course plan = planned.get(visits);
          String where = chart.caseName() + ", " + rule;
          assertTrue(plan.cost().seconds() <= by.cost().seconds(), where + ": cost");
          assertTrue(plan.chairSeconds() <= by.chairSeconds(), where + ": chair time");
          plans += plan.chairSeconds();
          rules += by.chairSeconds();
        }
      }
    }
    assertTrue(
        legal > 2 * SEEDS - 2 && illegal >= SEEDS, legal + " legal, " + illegal + " illegal");
    assertTrue(plans < 0.98 * rules, plans + " against " + rules + " seconds in the chair");
  }
}
