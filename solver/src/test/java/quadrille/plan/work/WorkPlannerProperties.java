package quadrille.plan.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.Mouths;

/** Holds for any mouth: nothing due is left out or done twice. */
final class WorkPlannerProperties {

  private static final Practice PRACTICE = PracticeReader.defaults();

  @Property(tries = 300, seed = "20260302")
  @Domain(Mouths.class)
  void eachDuePassIsInExactlyOneStepOfEachAspect(@ForAll Chart chart) throws UnworkableException {
    WorkList work = WorkPlanner.plan(chart, PRACTICE, Area.of(chart));
    Map<Tooth, Map<Pass, Map<Aspect, Integer>>> swept = new TreeMap<>();
    for (Step step : work.steps()) {
      for (Tooth tooth : step.teeth()) {
        for (Aspect aspect : Aspect.values()) {
          if (step.aspect() == StepAspect.BOTH || step.aspect().word().equals(aspect.word())) {
            swept
                .computeIfAbsent(tooth, t -> new EnumMap<>(Pass.class))
                .computeIfAbsent(step.pass(), p -> new EnumMap<>(Aspect.class))
                .merge(aspect, 1, Integer::sum);
          }
        }
      }
    }
    DuePasses due = new DuePasses(PRACTICE);
    Map<Tooth, Map<Pass, Map<Aspect, Integer>>> expected = new TreeMap<>();
    for (ToothChart tooth : chart.teeth()) {
      for (Pass pass : due.of(tooth)) {
        expected
            .computeIfAbsent(tooth.tooth(), t -> new EnumMap<>(Pass.class))
            .put(pass, new EnumMap<>(Map.of(Aspect.FACIAL, 1, Aspect.LINGUAL, 1)));
      }
    }
    assertEquals(expected, swept);
  }

  @Property(tries = 300, seed = "20260302")
  @Domain(Mouths.class)
  void everyStepIsSound(@ForAll Chart chart) throws UnworkableException {
    WorkList work = WorkPlanner.plan(chart, PRACTICE, Area.of(chart));
    int id = 0;
    for (Step step : work.steps()) {
      assertEquals(id++, step.id());
      assertTrue(step.seconds() >= 1, step.words());
      assertTrue(step.area().teeth().containsAll(step.teeth()), step.words());
      assertTrue(step.insert().passes().contains(step.pass()), step.words());
      assertTrue(step.insert().powers().contains(step.power()), step.words());
      boolean byHand = step.power() == Power.NONE;
      assertEquals(step.implant() && !byHand, step.insert().sleeved(), step.words());
      assertTrue(!step.implant() || byHand || step.power() == Power.LOW, step.words());
      assertTrue(
          step.needs().stream().map(Target::tooth).allMatch(step.teeth()::contains), step.words());
      for (Tooth tooth : step.teeth()) {
        assertEquals(step.implant(), chart.tooth(tooth).orElseThrow().implant(), step.words());
      }
    }
  }

  @Property(tries = 100, seed = "20260302")
  @Domain(Mouths.class)
  void theSameMouthHasTheSameWork(@ForAll Chart chart) throws UnworkableException {
    List<Area> areas = Area.of(chart);
    assertEquals(
        WorkPlanner.plan(chart, PRACTICE, areas), WorkPlanner.plan(chart, PRACTICE, areas));
  }
}
