package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Patient;

final class PatientRulesTest {

  private static final Practice USUAL = PracticeReader.defaults();
  private static final Patient ADULT = new Patient(50, 70.0, null, Set.of(), null, false);

  private static PatientRules rules(Alert... alerts) {
    EnumSet<Alert> all = EnumSet.noneOf(Alert.class);
    all.addAll(List.of(alerts));
    return PatientRules.of(USUAL, ADULT.withHistory(History.of(all)));
  }

  /** An alert that does nothing is a defect. */
  @ParameterizedTest
  @EnumSource(Alert.class)
  void everyAlertOfTheDefaultAsksAndIsExplained(Alert alert) {
    AlertRule rule = USUAL.alertRule(alert).orElseThrow();
    assertFalse(rule.doesNothing());
    assertFalse(rule.stopQuestions().isEmpty());
    assertFalse(rule.cautions().isEmpty());
    assertEquals(rule, rules(alert).alerts().get(0));
  }

  @Test
  void aCleanHistoryChangesNothing() {
    PatientRules rules = rules();
    assertTrue(rules.historyTaken());
    assertEquals(0.2, rules.epinephrineCapMg());
    assertEquals(90, rules.longestVisitMinutes());
    assertEquals(7, rules.minGapDays());
    assertEquals(14, rules.maxGapDays());
    assertEquals(0, rules.visitPriceSeconds());
    assertEquals(1, rules.injectionWeightFactor());
    assertEquals(0, rules.blockPriceSeconds());
    assertNull(rules.teethBeforeLook());
    assertFalse(rules.numbFirst());
    assertEquals(Set.of(), rules.forbidsRinses());
  }

  @Test
  void ofSeveralAlertsTheStricterEffectHolds() {
    PatientRules rules =
        rules(Alert.HEART_DISEASE, Alert.DIABETES, Alert.ENDOCARDITIS_RISK, Alert.WARFARIN);
    assertEquals(0.04, rules.epinephrineCapMg());
    assertEquals(60, rules.longestVisitMinutes());
    assertEquals(10, rules.minGapDays());
    assertEquals(14, rules.maxGapDays());
    assertTrue(rules.forbidsOneDay());
    assertEquals(3, rules.teethBeforeLook());
    assertEquals(List.of(Alert.ENDOCARDITIS_RISK), rules.covers());
  }

  @Test
  void anAnticoagulantThatIsNotNamedIsBoth() {
    assertEquals(
        List.of(Alert.ANTICOAGULANT, Alert.WARFARIN, Alert.DIRECT_ORAL_ANTICOAGULANT),
        rules(Alert.ANTICOAGULANT).alerts().stream().map(AlertRule::alert).toList());
  }

  @Test
  void aLongestGapNeverFallsBelowTheShortest() throws Exception {
    Practice practice =
        PracticeReader.read(
            "practice.json",
            """
            {"schema": "quadrille/practice/1", "alerts": {
              "dialysis": {"maxGapDays": 8}, "pacemaker": {"minGapDays": 12}}}
            """);
    PatientRules one =
        PatientRules.of(practice, ADULT.withHistory(History.of(Set.of(Alert.DIALYSIS))));
    assertEquals(7, one.minGapDays());
    assertEquals(8, one.maxGapDays());
    PatientRules both =
        PatientRules.of(
            practice, ADULT.withHistory(History.of(Set.of(Alert.DIALYSIS, Alert.PACEMAKER))));
    assertEquals(12, both.minGapDays());
    assertEquals(12, both.maxGapDays());
  }

  @Test
  void allergiesForbidRinsesAndAmides() {
    assertEquals(Set.of("chlorhexidine"), rules(Alert.CHLORHEXIDINE_ALLERGY).forbidsRinses());
    PatientRules amides = rules(Alert.AMIDE_ALLERGY);
    USUAL.agents().values().forEach(agent -> assertFalse(amides.objections(agent).isEmpty()));
    assertTrue(
        amides
            .gelObjections()
            .contains(new Objection.Forbidden(Alert.AMIDE_ALLERGY, USUAL.gel().name())));
  }

  @Test
  void withoutAHistoryNothingIsGiven() {
    PatientRules rules = PatientRules.of(USUAL, ADULT.withHistory(History.UNKNOWN));
    assertFalse(rules.historyTaken());
    USUAL
        .agents()
        .values()
        .forEach(
            agent -> assertEquals(List.of(new Objection.NoHistory()), rules.objections(agent)));
    assertTrue(rules.gelObjections().contains(new Objection.NoHistory()));
  }

  @Test
  void anAgeLimitHoldsForTheYoungAndForThoseOfUnknownAge() {
    Agent articaine = USUAL.agents().get("articaine-4-100");
    assertEquals(List.of(), PatientRules.of(USUAL, ADULT.withAgeYears(4)).objections(articaine));
    assertEquals(
        List.of(new Objection.TooYoung(4, 3)),
        PatientRules.of(USUAL, ADULT.withAgeYears(3)).objections(articaine));
    assertEquals(
        List.of(new Objection.TooYoung(4, null)),
        PatientRules.of(USUAL, ADULT.withAgeYears(null)).objections(articaine));
  }
}
