package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Wish;

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

  @Test
  void onlyWishesThatMustHoldBecomeRules() {
    Patient must =
        ADULT.withWishes(
            List.of(new Wish(true, new Wish.NumbFirst()), new Wish(true, new Wish.ByHand())));
    assertTrue(PatientRules.of(USUAL, must).numbFirst());
    assertTrue(PatientRules.of(USUAL, must).byHand());
    Patient rather =
        ADULT.withWishes(
            List.of(new Wish(false, new Wish.NumbFirst()), new Wish(false, new Wish.ByHand())));
    assertFalse(PatientRules.of(USUAL, rather).numbFirst());
    assertFalse(PatientRules.of(USUAL, rather).byHand());
    Patient other = ADULT.withWishes(List.of(new Wish(true, new Wish.ByHand())));
    assertFalse(PatientRules.of(USUAL, other).numbFirst());
  }

  @Test
  void visitsOnOneDayLieOnSeveralWhereAnAlertAsksForThat() throws Exception {
    Practice oneDay =
        PracticeReader.read(
            "practice.json",
            """
            {"schema": "quadrille/practice/1", "appointments": {"gapMinDays": 0}}
            """);
    assertEquals(0, PatientRules.of(oneDay, ADULT).minGapDays());
    assertEquals(0, PatientRules.of(oneDay, ADULT).leastGapDays());
    AlertRule several =
        USUAL.alerts().values().stream()
            .filter(rule -> rule.forbidsOneDay() && rule.minGapDays() == null)
            .findFirst()
            .orElseThrow();
    PatientRules rules =
        PatientRules.of(oneDay, ADULT.withHistory(History.of(Set.of(several.alert()))));
    assertEquals(1, rules.minGapDays());
    assertEquals(1, rules.leastGapDays());
    assertEquals(10, rules(Alert.ENDOCARDITIS_RISK).leastGapDays());
    assertEquals(1, rules().leastGapDays());
  }

  @Test
  void thePatientsOwnLimitShortensVisitsAndNeverLengthensThem() {
    assertEquals(
        45, PatientRules.of(USUAL, ADULT.withLongestVisitMinutes(45)).longestVisitMinutes());
    assertEquals(
        90, PatientRules.of(USUAL, ADULT.withLongestVisitMinutes(120)).longestVisitMinutes());
  }

  @Test
  void gelIsForOwnersAndForAdultsWhoTolerateWhatIsInIt() throws Exception {
    assertEquals(List.of(new Objection.NotOwned(USUAL.gel().name())), rules().gelObjections());
    Practice owner =
        PracticeReader.read(
            "practice.json",
            """
            {"schema": "quadrille/practice/1", "gel": {"owned": true}}
            """);
    assertEquals(List.of(), PatientRules.of(owner, ADULT).gelObjections());
    assertEquals(
        List.of(new Objection.TooYoung(18, 17)),
        PatientRules.of(owner, ADULT.withAgeYears(17)).gelObjections());
    assertEquals(
        List.of(new Objection.NoWeight()),
        PatientRules.of(owner, ADULT.withWeightKg(null)).gelObjections());
    // Prilocaine is not for whoever has had methaemoglobinaemia.
    assertEquals(
        List.of(new Objection.Forbidden(Alert.METHAEMOGLOBINAEMIA_RISK, "prilocaine")),
        PatientRules.of(
                owner, ADULT.withHistory(History.of(Set.of(Alert.METHAEMOGLOBINAEMIA_RISK))))
            .gelObjections()
            .stream()
            .filter(
                one ->
                    !one.equals(
                        new Objection.Forbidden(
                            Alert.METHAEMOGLOBINAEMIA_RISK, owner.gel().name())))
            .toList());
  }

  /** On a sheet the questions of several alerts stand one below the other, without the alerts. */
  @Test
  void eachStopQuestionNamesWhatItAsksAbout() {
    Map<Alert, String> subjects =
        Map.ofEntries(
            Map.entry(Alert.ANTIPLATELET, "antiplatelet"),
            Map.entry(Alert.DIRECT_ORAL_ANTICOAGULANT, "anticoagulant"),
            Map.entry(Alert.BLEEDING_DISORDER, "bleeding disorder"),
            Map.entry(Alert.PREGNANCY, "pregnancy"),
            Map.entry(Alert.COCAINE, "cocaine"),
            Map.entry(Alert.ANTIRESORPTIVE, "antiresorptive"),
            Map.entry(Alert.JAW_IRRADIATED, "irradiated"),
            Map.entry(Alert.CHEMOTHERAPY, "chemotherapy"),
            Map.entry(Alert.LIVER_DISEASE, "liver"),
            Map.entry(Alert.KIDNEY_DISEASE, "kidney"),
            Map.entry(Alert.PACEMAKER, "pacemaker"),
            Map.entry(Alert.EPILEPSY, "epilepsy"),
            Map.entry(Alert.ASTHMA, "asthma"),
            Map.entry(Alert.HYPERTHYROID, "thyroid"),
            Map.entry(Alert.TRICYCLIC, "antidepressant"));
    subjects.forEach(
        (alert, subject) ->
            assertTrue(
                USUAL.alertRule(alert).orElseThrow().stopQuestions().stream()
                    .allMatch(question -> question.contains(subject)),
                alert.word()));
  }

  @Test
  void anAmideAllergyLeavesOtherKindsOfAgents() {
    Agent articaine = USUAL.agents().get("articaine-4-100");
    Agent other =
        new Agent(
            articaine.name(),
            articaine.words(),
            articaine.drug(),
            articaine.vasoconstrictor(),
            articaine.mgPerMl(),
            articaine.epinephrineMgPerMl(),
            articaine.cartridgeMl(),
            articaine.limits(),
            articaine.pulpalMinutes(),
            articaine.softTissueMinutes(),
            articaine.onsetMinutes(),
            articaine.fromAgeYears(),
            articaine.lowerBlockPriceSeconds(),
            articaine.lowerBlockPulpalMinutes(),
            false);
    assertEquals(List.of(), rules(Alert.AMIDE_ALLERGY).objections(other));
  }
}
