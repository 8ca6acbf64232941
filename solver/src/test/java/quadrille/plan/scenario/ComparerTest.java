package quadrille.plan.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;

final class ComparerTest {
  private static final Practice PRACTICE = PracticeReader.defaults();
  private static final WhatIf GROSS_FIRST = new WhatIf(null, List.of(), null, null, true, false);
  private static final WhatIf ONE_DAY = new WhatIf(null, List.of(), null, null, false, true);

  @Test
  void hasARowForEachNumberOfVisitsThatEqualsThePlanOfThatNumber() throws Exception {
    Chart chart = DemoMouths.chart("heart-disease.json");
    Comparison comparison = compare(chart, new VisitRange(1, 4), 2);
    List<Choice> choices = comparison.groups().get(0).choices();
    assertEquals(List.of(1, 2, 3, 4), choices.stream().map(Choice::visits).toList());
    for (Choice choice : choices) {
      var outcome =
          new CoursePlanner(Effort.QUICK)
              .planOnly(chart, PRACTICE, VisitRange.exactly(choice.visits()), false);
      if (outcome instanceof Planned planned) {
        assertEquals(CourseFigures.of(planned.course()), choice.figures());
      } else {
        assertFalse(choice.obstacles().isEmpty());
      }
    }
    assertTrue(choices.stream().anyMatch(Choice::feasible));
    assertTrue(choices.stream().anyMatch(choice -> !choice.feasible()));
    assertEquals(RuleOfThumb.values().length, comparison.rulesOfThumb().size());
  }

  /** Longer visits let more areas into one; what was priced for them serves the shorter ones. */
  @Test
  void aTableThatIsSharedGivesTheCoursesOfOneByItself() throws Exception {
    Chart chart = DemoMouths.chart("mild-one-visit.json");
    WhatIf shorter = new WhatIf(60, List.of(), null, null, false, false);
    WhatIf longer = new WhatIf(120, List.of(), null, null, false, false);
    VisitRange visits = new VisitRange(1, 3);
    Comparison together = compare(chart, visits, 2, shorter, longer);
    for (Comparison.Group group : together.groups()) {
      Practice practice = group.whatIf().applyTo(PRACTICE);
      List<Course> alone =
          new CoursePlanner(Effort.QUICK, 1)
              .planEach(chart, practice, visits, false, outcome -> {}).stream()
                  .map(one -> one instanceof Planned planned ? planned.course() : null)
                  .toList();
      assertEquals(
          alone.stream().filter(Objects::nonNull).map(Course::visits).toList(),
          group.choices().stream()
              .map(Choice::course)
              .filter(Objects::nonNull)
              .map(Course::visits)
              .toList());
    }
  }

  @Test
  void isTheSameOnOneThreadAndOnThree() throws Exception {
    Chart chart = DemoMouths.chart("moderate.json");
    assertEquals(
        compare(chart, new VisitRange(2, 4), 1, GROSS_FIRST),
        compare(chart, new VisitRange(2, 4), 3, GROSS_FIRST));
  }

  @Test
  void planOnlyTakesTheGrossPassOfTheWholeMouthFirst() throws Exception {
    Chart chart = DemoMouths.chart("typical.json");
    CoursePlanner planner = new CoursePlanner(Effort.QUICK);
    int usual = 0;
    for (int visits = 3; visits <= 5; visits++) {
      VisitRange exactly = VisitRange.exactly(visits);
      Planned first = (Planned) planner.planOnly(chart, PRACTICE, exactly, true);
      assertTrue(Comparer.grossFirst(first.course()), visits + " visits");
      Planned free = (Planned) planner.planOnly(chart, PRACTICE, exactly, false);
      usual += Comparer.grossFirst(free.course()) ? 1 : 0;
    }
    assertEquals(0, usual, "plans that take gross first without being asked prove nothing");
  }

  @Test
  void refusesOneDayWhereAnAlertForbidsItAndCautionsWhereOneVisitDoesIt() throws Exception {
    Chart chart = withAlert(DemoMouths.chart("mild-one-visit.json"), Alert.DIABETES);
    Comparison.Group day = compare(chart, new VisitRange(1, 2), 2, ONE_DAY).groups().get(1);
    assertTrue(day.choices().get(0).feasible());
    assertTrue(
        day.choices().get(0).hints().contains(new Hint.EverythingInOneVisit(Alert.DIABETES)),
        day.choices().get(0).hints().toString());
    assertEquals(
        List.of(new Obstacle.DayForbidden(Alert.DIABETES)), day.choices().get(1).obstacles());
  }

  @Test
  void refusesOneDayWhereAnAlertAsksForDaysBetween() throws Exception {
    Chart chart = withAlert(DemoMouths.chart("mild-one-visit.json"), Alert.ENDOCARDITIS_RISK);
    Comparison.Group day = compare(chart, new VisitRange(2, 2), 1, ONE_DAY).groups().get(1);
    assertEquals(
        List.of(new Obstacle.DaysAskedFor(Alert.ENDOCARDITIS_RISK, 10)),
        day.choices().get(0).obstacles());
  }

  /** Graziani et al. 2015, J Clin Periodontol 42:843, as quoted in the hint. */
  @Test
  void hintsAtTheAcuteLoadOfAMouthWithin24Hours() throws Exception {
    Comparison comparison =
        compare(DemoMouths.chart("moderate.json"), new VisitRange(2, 4), 2, ONE_DAY);
    Choice day = comparison.groups().get(1).choices().get(2);
    assertTrue(day.feasible());
    assertTrue(day.hints().stream().anyMatch(Hint.MuchWithin24Hours.class::isInstance), "one day");
    Choice weeks = comparison.groups().get(0).choices().get(2);
    assertTrue(weeks.feasible());
    assertTrue(weeks.hints().isEmpty(), weeks.hints().toString());
  }

  @Test
  void saysWhichInsertWouldBeMissing() throws Exception {
    WhatIf without = new WhatIf(null, List.of("sleeved for implants"), null, null, false, false);
    Comparison comparison =
        compare(DemoMouths.chart("implants-both-sides.json"), new VisitRange(2, 3), 2, without);
    assertTrue(comparison.groups().get(0).choices().stream().allMatch(Choice::feasible));
    for (Choice choice : comparison.groups().get(1).choices()) {
      assertFalse(choice.feasible());
      Obstacle.NoInsert none = assertInstanceOf(Obstacle.NoInsert.class, choice.obstacles().get(0));
      assertEquals(Pass.IMPLANT_CARE, none.work().pass());
    }
    Practice bare = without.applyTo(PRACTICE);
    assertThrows(
        UnworkableException.class,
        () ->
            new Comparer(Effort.QUICK, 1)
                .compare(
                    DemoMouths.chart("implants-both-sides.json"),
                    bare,
                    VisitRange.USUAL,
                    List.of()));
  }

  @Test
  void saysWhatWaits() throws Exception {
    Comparison comparison =
        compare(DemoMouths.chart("weight-missing.json"), new VisitRange(1, 2), 1);
    assertTrue(
        comparison.waiting().contains(new HeldBack.NoWeight()), comparison.waiting().toString());
    assertNotNull(comparison.groups().get(0).choices().get(0).figures());
  }

  @Test
  void comparesNothingWhereNothingIsDue() throws Exception {
    Chart chart = DemoMouths.chart("mild-one-visit.json");
    Chart empty =
        new Chart(chart.caseName(), chart.charted(), chart.numbering(), chart.patient(), List.of());
    Comparison comparison = compare(empty, VisitRange.USUAL, 1);
    assertTrue(comparison.groups().get(0).choices().isEmpty());
    assertTrue(comparison.rulesOfThumb().isEmpty());
    assertTrue(comparison.nothingDue());
  }

  private static Comparison compare(Chart chart, VisitRange visits, int threads, WhatIf... whatIfs)
      throws UnworkableException {
    return new Comparer(Effort.QUICK, threads).compare(chart, PRACTICE, visits, List.of(whatIfs));
  }

  private static Chart withAlert(Chart chart, Alert alert) {
    Patient old = chart.patient();
    EnumSet<Alert> alerts = EnumSet.of(alert);
    alerts.addAll(old.history().alerts());
    return new Chart(
        chart.caseName(),
        chart.charted(),
        chart.numbering(),
        old.withHistory(History.of(alerts)),
        chart.teeth());
  }
}
