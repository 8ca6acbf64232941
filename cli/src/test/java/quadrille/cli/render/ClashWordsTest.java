package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.SelectionRule;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Unworkable;
import quadrille.plan.work.Unworkable.Obstacle;

final class ClashWordsTest {
  private static final Chart CHART = SampleCourse.chart(Numbering.ISO3950);
  private static final Tooth TOOTH = Tooth.ofIso(16);
  private static final Area AREA =
      new Area(AreaRef.whole(Quadrant.UR, Half.POSTERIOR), List.of(TOOTH));

  @Test
  void workWithoutARowSaysWhatRowWouldDo() {
    assertEquals(
        "UR posterior, gross, both (16): no row of the selection table matches; would do: a row"
            + " for the gross pass that names an owned insert allowed for it",
        said(Pass.GROSS, new Unworkable.NoRow()));
    assertEquals(
        "UR posterior, implant-care, both (16): no row of the selection table matches; would do: a"
            + " row for the implant-care pass that names a sleeved insert at low power",
        said(Pass.IMPLANT_CARE, new Unworkable.NoRow()));
  }

  @Test
  void everyObstacleHasItsWords() {
    String most =
        said(
            Pass.FINE,
            new Unworkable.NoInsert(
                rule(Pass.FINE, Power.LOW),
                List.of(
                    new Unworkable.Unusable("a", Obstacle.NOT_OWNED),
                    new Unworkable.Unusable("b", Obstacle.FOR_IMPLANTS_ONLY),
                    new Unworkable.Unusable("c", Obstacle.NOT_FOR_THE_PASS),
                    new Unworkable.Unusable("d", Obstacle.NOT_AT_THE_POWER)),
                false));
    assertEquals(
        "UR posterior, fine, both (16): the row (deep) has no insert that may be used: a is not"
            + " owned, b is for implants only, c is not allowed for the fine pass, d is not allowed"
            + " at low power; would do: an owned a or b, allowed for the fine pass at low power; or"
            + " a row that names another owned insert",
        most);
    assertEquals(
        "UR posterior, implant-care, both (16): the row (deep) has no insert that may be used: an"
            + " implant takes low power only, a has no sleeve, and bare metal never touches an"
            + " implant; would do: an owned insert of class sleeved at low power",
        said(
            Pass.IMPLANT_CARE,
            new Unworkable.NoInsert(
                rule(Pass.IMPLANT_CARE, Power.MEDIUM),
                List.of(new Unworkable.Unusable("a", Obstacle.BARE_METAL)),
                true)));
  }

  private static SelectionRule rule(Pass pass, Power power) {
    return new SelectionRule(
        "deep",
        SelectionRule.Scope.AREA,
        pass,
        new SelectionRule.When(Set.of(), null, Set.of(), Set.of(), null, null, null, Set.of()),
        List.of("a", "b"),
        power,
        "a test",
        "a test");
  }

  private static String said(Pass pass, Unworkable.Why why) {
    Unworkable work = new Unworkable(AREA, pass, StepAspect.BOTH, List.of(TOOTH), why);
    return ClashWords.unworkable(work, CHART);
  }
}
