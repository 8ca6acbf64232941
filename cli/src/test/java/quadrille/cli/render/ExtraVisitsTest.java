package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.CourseFigures;
import quadrille.plan.scenario.Obstacle;

final class ExtraVisitsTest {

  @Test
  void saysWhatIsBoughtAndWhatForInTheFiguresOfTheTable() {
    assertEquals(
        List.of(
            "2 visits keep every rule, the longest 90 min.",
            "3 visits instead of 2 buy a longest visit of 60 instead of 90 min and a largest dose"
                + " of 40 instead of 62 %, for 1 instead of 0 injections, 19 min more in the chair"
                + " and 7 days more."),
        ExtraVisits.sentences(
            List.of(
                choice(new CourseFigures(2, 6000, 120, 90, 5, 0, 4, 0.62, 0.2, 7, 2, 1)),
                choice(new CourseFigures(3, 7140, 130, 60, 5, 1, 4, 0.40, 0.2, 14, 2, 1)))));
  }

  @Test
  void saysThatNothingIsBought() {
    assertEquals(
        "3 visits instead of 2 buy nothing here and cost 10 min more in the chair.",
        ExtraVisits.sentences(
                List.of(
                    choice(new CourseFigures(2, 6000, 120, 90, 5, 6, 4, 0.5, 0.2, 0, 2, 1)),
                    choice(new CourseFigures(3, 6600, 130, 90, 5, 6, 4, 0.5, 0.2, 0, 2, 1))))
            .get(1));
  }

  @Test
  void skipsWhatIsNotPossible() {
    Choice none =
        new Choice(null, 1, null, null, List.of(new Obstacle.CutShort()), List.of(), false);
    assertEquals(
        List.of("2 visits are the fewest found to keep every rule, the longest 90 min."),
        ExtraVisits.sentences(
            List.of(
                none, choice(new CourseFigures(2, 6000, 120, 90, 5, 6, 4, 0.5, 0.2, 0, 2, 1)))));
  }

  private static Choice choice(CourseFigures figures) {
    return new Choice(null, figures.visits(), figures, null, List.of(), List.of(), false);
  }
}
