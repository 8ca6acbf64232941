package quadrille.plan.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;

final class CourseFiguresTest {

  @Test
  void sumsUpACourseOfTwoVisitsAWeekApart() {
    CourseFigures figures =
        CourseFigures.of(course(7, visit(1, 3000, 60, 0.2, 0.3), visit(2, 2400, 50, 0.1, 0.4)));
    assertEquals(2, figures.visits());
    assertEquals(5400, figures.chairSeconds());
    assertEquals(110, figures.bookedMinutes());
    assertEquals(60, figures.longestMinutes());
    assertEquals(0.4, figures.largestDoseShare(), 1e-12);
    // Both in time: 0.8 x 0.9 = 0.72.
    assertEquals(0.28, figures.overrunRisk(), 1e-12);
    assertEquals(7, figures.spanDays());
  }

  @Test
  void addsDosesUpOverOneDay() {
    CourseFigures figures =
        CourseFigures.of(course(0, visit(1, 3000, 60, 0, 0.3), visit(2, 2400, 50, 0, 0.4)));
    assertEquals(0.7, figures.largestDoseShare(), 1e-12);
    assertEquals(0, figures.spanDays());
  }

  @Test
  void isBeatenOnlyByWhatIsNowhereWorseAndSomewhereBetter() {
    CourseFigures base = figures(6000, 3, 60, 0.4);
    assertTrue(base.beatenBy(figures(5999, 3, 60, 0.4)));
    assertTrue(base.beatenBy(figures(6000, 2, 60, 0.4)));
    assertTrue(base.beatenBy(figures(6000, 3, 50, 0.4)));
    assertTrue(base.beatenBy(figures(6000, 3, 60, 0.3)));
    assertFalse(base.beatenBy(base));
    assertFalse(base.beatenBy(figures(5000, 2, 70, 0.3)));
    // A difference that nobody could dose.
    assertFalse(base.beatenBy(figures(6000, 3, 60, 0.4 - 1e-9)));
  }

  @Test
  void marksTheChoicesThatNothingBeatsOverGroupsAndRulesOfThumb() {
    Comparison comparison =
        new Comparison(
                List.of(
                    group(
                        choice(figures(6000, 2, 90, 0.5)),
                        choice(figures(7000, 3, 90, 0.5)),
                        choice(figures(8000, 4, 50, 0.5))),
                    group(choice(figures(9000, 5, 50, 0.5)))),
                List.of(choice(figures(8000, 4, 50, 0.2))),
                false,
                List.of())
            .marked();
    assertEquals(
        List.of(true, false, false),
        comparison.groups().get(0).choices().stream().map(Choice::unbeaten).toList());
    assertFalse(comparison.groups().get(1).choices().get(0).unbeaten());
    assertTrue(comparison.rulesOfThumb().get(0).unbeaten());
  }

  private static Comparison.Group group(Choice... choices) {
    return new Comparison.Group(WhatIf.AS_IT_IS, List.of(choices));
  }

  private static Choice choice(CourseFigures figures) {
    return new Choice(null, figures.visits(), figures, null, List.of(), List.of(), false);
  }

  static CourseFigures figures(int chairSeconds, int visits, int longest, double dose) {
    return new CourseFigures(visits, chairSeconds, 100, longest, 5, 6, 4, dose, 0.2, 0, 7000, 6500);
  }

  private static Course course(int gap, Visit... visits) {
    return new Course(
        "K-1",
        List.of(visits),
        gap,
        gap,
        6,
        12,
        new Cost(1, 0, Map.of()),
        List.of(),
        List.of(),
        List.of());
  }

  private static Visit visit(int number, int seconds, int booked, double risk, double share) {
    return new Visit(
        number,
        NumbSide.RIGHT,
        booked,
        risk,
        List.of(),
        List.of(),
        List.of(new Dose("articaine-4-200", 100 * share, 100, share)),
        0,
        1,
        0,
        0,
        List.of(new Entry.SetUp(0, seconds)),
        List.of(),
        List.of(),
        List.of());
  }
}
