package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.course.SampleWords;
import quadrille.plan.staging.Effort;

/**
 * Corners where planning and audit once read a rule differently, or could. The planner throws where
 * its course fails the audit; the plan file is read back and audited once more.
 */
final class SecondReadingTest {

  private static final String DEFAULTS = "";

  private static Course plan(String changes, Set<Alert> alerts, ToothChart... teeth)
      throws Exception {
    return plan(changes, new Patient(50, 70.0, null, alerts, null, false), teeth);
  }

  private static Course plan(String changes, Patient patient, ToothChart... teeth)
      throws Exception {
    var practice =
        PracticeReader.read(
            "practice.json", "{\"schema\": \"quadrille/practice/1\"" + changes + "}");
    Chart chart = new Chart("T-1", null, Numbering.ISO3950, patient, List.of(teeth));
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK).plan(chart, practice, new VisitRange(1, 4));
    Course course = assertInstanceOf(PlanOutcome.Planned.class, outcome).course();
    String text = PlanWriter.write(course, Numbering.ISO3950, SampleWords.WORDS);
    PlanFile read = PlanReader.read("plan.json", text);
    assertEquals(text, PlanWriter.write(read, Numbering.ISO3950, SampleWords.WORDS));
    assertEquals(List.of(), Audit.audit(read, chart, practice));
    return course;
  }

  private static ToothChart tooth(
      int iso, ToothStatus status, Deposit deposit, int facialMm, int lingualMm) {
    return tooth(iso, status, deposit, facialMm, lingualMm, Set.of());
  }

  private static ToothChart tooth(
      int iso,
      ToothStatus status,
      Deposit deposit,
      int facialMm,
      int lingualMm,
      Set<Feature> features) {
    return new ToothChart(
        Tooth.ofIso(iso),
        status,
        deposit,
        0,
        0,
        features,
        AspectReading.even(facialMm),
        AspectReading.even(lingualMm));
  }

  @Test
  void gelForBothAspectsTakesTwiceTheCartridges() throws Exception {
    Course course =
        plan(
            ", \"gel\": {\"owned\": true, \"cartridgesQuadrant\": 4, \"cartridgesVisit\": 16}",
            Set.of(),
            tooth(24, ToothStatus.NATURAL, Deposit.LIGHT, 6, 6, EnumSet.of(Feature.CROWDED)));
    // Fine facial and lingual, and finishing on both aspects: four times half a cartridge.
    assertEquals(
        2, course.visits().stream().mapToDouble(visit -> visit.gelCartridges()).sum(), 1e-9);
  }

  @Test
  void alertsKeepACourseFromOneDay() throws Exception {
    ToothChart[] molars = {
      tooth(16, ToothStatus.NATURAL, Deposit.HEAVY, 7, 6),
      tooth(26, ToothStatus.NATURAL, Deposit.HEAVY, 7, 6)
    };
    String oneDay = ", \"appointments\": {\"gapMinDays\": 0}";
    assertEquals(0, plan(oneDay, Set.of(), molars).gapMinDays());
    assertEquals(1, plan(oneDay, EnumSet.of(Alert.DIABETES), molars).gapMinDays());
    assertEquals(10, plan(oneDay, EnumSet.of(Alert.ENDOCARDITIS_RISK), molars).gapMinDays());
  }

  @Test
  void implantsOnBothSidesOfTheMidlineShareTheNasopalatine() throws Exception {
    Course course =
        plan(
            DEFAULTS,
            Set.of(),
            tooth(11, ToothStatus.IMPLANT, Deposit.LIGHT, 3, 5),
            tooth(21, ToothStatus.IMPLANT, Deposit.LIGHT, 3, 5));
    assertEquals(1, course.visits().size());
    assertEquals(
        List.of("nasopalatine"),
        course.visits().get(0).injections().stream().map(given -> given.injection()).toList());
  }

  @Test
  void workWaitsForAWeight() throws Exception {
    Course course =
        plan(
            DEFAULTS,
            new Patient(50, null, null, EnumSet.of(Alert.PACEMAKER), null, false),
            tooth(16, ToothStatus.NATURAL, Deposit.HEAVY, 7, 6),
            tooth(36, ToothStatus.NATURAL, Deposit.LIGHT, 3, 3));
    assertFalse(course.heldBack().isEmpty());
    assertEquals(List.of(AreaRef.of("LL posterior")), course.visits().get(0).areas());
  }
}
