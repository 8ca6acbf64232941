package quadrille.plan.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.work.Target.Kind;

final class NumbingNeedsTest {

  private static final NumbingNeeds NEEDS =
      new NumbingNeeds(PracticeReader.defaults(), Teeth.ADULT);
  private static final NumbingNeeds WISHING =
      new NumbingNeeds(PracticeReader.defaults(), Teeth.patient(50, 70.0, true));

  private static Set<Kind> kinds(
      NumbingNeeds needs, ToothChart tooth, Pass pass, StepAspect aspect) {
    return needs.of(tooth, pass, aspect).stream().map(Target::kind).collect(Collectors.toSet());
  }

  @Test
  void aDeepFinePassNeedsPulpAndTheGingivaOfItsAspectOnly() {
    ToothChart tooth = Teeth.tooth(14, Deposit.LIGHT, AspectReading.even(5), AspectReading.even(4));
    assertEquals(Set.of(Kind.PULP, Kind.FACIAL), kinds(NEEDS, tooth, Pass.FINE, StepAspect.FACIAL));
    assertEquals(Set.of(), kinds(NEEDS, tooth, Pass.FINE, StepAspect.LINGUAL));
  }

  /** The posterior superior alveolar block spares that root in about 28 %: textbook, weak. */
  @Test
  void anUpperFirstMolarAlsoNeedsItsMesiobuccalRoot() {
    for (int iso : List.of(16, 26)) {
      assertTrue(
          kinds(NEEDS, Teeth.even(iso, Deposit.LIGHT, 6), Pass.FINE, StepAspect.LINGUAL)
              .contains(Kind.MESIOBUCCAL_ROOT));
    }
    for (int iso : List.of(17, 15, 36, 46)) {
      assertFalse(
          kinds(NEEDS, Teeth.even(iso, Deposit.LIGHT, 6), Pass.FINE, StepAspect.LINGUAL)
              .contains(Kind.MESIOBUCCAL_ROOT));
    }
  }

  /** Articaine labial and lingual 97 %, labial alone 74 %: J Endod 2023, n 100. */
  @Test
  void aLowerIncisorNeedsBothGingivaeWithItsPulp() throws InvalidDocumentException {
    NumbingNeeds alone =
        new NumbingNeeds(numbing("\"lowerIncisorsBothSides\": false"), Teeth.ADULT);
    for (int iso : List.of(31, 32, 41, 42)) {
      ToothChart tooth =
          Teeth.tooth(iso, Deposit.LIGHT, AspectReading.even(5), AspectReading.even(3));
      assertEquals(
          Set.of(Kind.PULP, Kind.FACIAL, Kind.LINGUAL),
          kinds(NEEDS, tooth, Pass.FINE, StepAspect.FACIAL));
      assertEquals(Set.of(), kinds(NEEDS, tooth, Pass.FINE, StepAspect.LINGUAL));
      assertEquals(
          Set.of(Kind.PULP, Kind.FACIAL), kinds(alone, tooth, Pass.FINE, StepAspect.FACIAL));
    }
    for (int iso : List.of(33, 43, 11, 21)) {
      ToothChart tooth =
          Teeth.tooth(iso, Deposit.LIGHT, AspectReading.even(5), AspectReading.even(3));
      assertEquals(
          Set.of(Kind.PULP, Kind.FACIAL), kinds(NEEDS, tooth, Pass.FINE, StepAspect.FACIAL));
    }
  }

  @Test
  void aSensitiveToothOrTheWishNeedsPulpAndGingivaInEveryPass() {
    ToothChart shallow = Teeth.even(24, Deposit.MODERATE, 3);
    ToothChart sensitive = Teeth.even(24, Deposit.MODERATE, 5, Feature.SENSITIVE);
    for (Pass pass : List.of(Pass.GROSS, Pass.FINE)) {
      assertEquals(Set.of(), kinds(NEEDS, shallow, pass, StepAspect.LINGUAL));
      assertEquals(
          Set.of(Kind.PULP, Kind.LINGUAL), kinds(NEEDS, sensitive, pass, StepAspect.LINGUAL));
      assertEquals(
          Set.of(Kind.PULP, Kind.LINGUAL), kinds(WISHING, shallow, pass, StepAspect.LINGUAL));
    }
    assertEquals(
        Set.of(Kind.PULP, Kind.FACIAL, Kind.LINGUAL),
        kinds(NEEDS, sensitive, Pass.FINISHING, StepAspect.BOTH));
    assertEquals(
        Set.of(Kind.PULP, Kind.FACIAL, Kind.LINGUAL),
        kinds(WISHING, shallow, Pass.FINISHING, StepAspect.BOTH));
  }

  /** No needle for a few minutes at shallow sites: gel, or the patient is asked at the chair. */
  @Test
  void aShallowSensitiveToothHasNoNeedleUnlessThePracticeSaysSo() throws InvalidDocumentException {
    ToothChart sensitive = Teeth.even(24, Deposit.MODERATE, 4, Feature.SENSITIVE);
    NumbingNeeds always = new NumbingNeeds(numbing("\"sensitiveDepthMm\": 0"), Teeth.ADULT);
    for (Pass pass : List.of(Pass.GROSS, Pass.FINE)) {
      assertEquals(Set.of(), kinds(NEEDS, sensitive, pass, StepAspect.LINGUAL));
      assertEquals(2, NEEDS.ofGel(sensitive, pass, StepAspect.LINGUAL).size());
      assertEquals(
          Set.of(Kind.PULP, Kind.LINGUAL), kinds(always, sensitive, pass, StepAspect.LINGUAL));
    }
  }

  @Test
  void aGrossPassBelowTheMarginNeedsWhatThePracticeSays() throws InvalidDocumentException {
    ToothChart heavy = Teeth.tooth(24, Deposit.HEAVY, AspectReading.even(5), AspectReading.even(4));
    assertEquals(Set.of(Kind.FACIAL), kinds(NEEDS, heavy, Pass.GROSS, StepAspect.FACIAL));
    assertEquals(Set.of(), kinds(NEEDS, heavy, Pass.GROSS, StepAspect.LINGUAL));
    assertEquals(
        Set.of(), kinds(NEEDS, Teeth.even(24, Deposit.MODERATE, 5), Pass.GROSS, StepAspect.FACIAL));
    NumbingNeeds pulpToo = new NumbingNeeds(numbing("\"grossNeeds\": [\"pulp\"]"), Teeth.ADULT);
    assertEquals(Set.of(Kind.PULP), kinds(pulpToo, heavy, Pass.GROSS, StepAspect.FACIAL));
    NumbingNeeds nothing = new NumbingNeeds(numbing("\"grossNeeds\": []"), Teeth.ADULT);
    assertEquals(Set.of(), kinds(nothing, heavy, Pass.GROSS, StepAspect.FACIAL));
  }

  @Test
  void finishingNeedsBothGingivaeIfEitherAspectIsDeep() {
    ToothChart tooth = Teeth.tooth(44, Deposit.LIGHT, AspectReading.even(3), AspectReading.even(7));
    assertEquals(
        Set.of(Kind.PULP, Kind.FACIAL, Kind.LINGUAL),
        kinds(NEEDS, tooth, Pass.FINISHING, StepAspect.BOTH));
  }

  @Test
  void anImplantHasNoPulpToNumb() {
    assertEquals(
        Set.of(Kind.LINGUAL),
        kinds(WISHING, Teeth.implant(16, Deposit.LIGHT, 4, 6), Pass.IMPLANT_CARE, StepAspect.BOTH));
  }

  @Test
  void anUnprobedSiteCountsAsTheProvisionalDepth() throws InvalidDocumentException {
    ToothChart unprobed = Teeth.even(44, Deposit.LIGHT, null);
    assertEquals(
        Set.of(Kind.PULP, Kind.FACIAL), kinds(NEEDS, unprobed, Pass.FINE, StepAspect.FACIAL));
    Practice shallow =
        PracticeReader.read(
            "p",
            "{ \"schema\": \"quadrille/practice/1\", \"minutes\": { \"provisionalDepthMm\": 4 } }");
    assertEquals(
        Set.of(),
        kinds(new NumbingNeeds(shallow, Teeth.ADULT), unprobed, Pass.FINE, StepAspect.FACIAL));
  }

  /** Product label: gel for adults only; no gel with a risk of methaemoglobinaemia. */
  @Test
  void gelServesOnlyWhereEveryConditionHolds() throws InvalidDocumentException {
    Practice owned = gel("\"owned\": true");
    List<ToothChart> teeth = List.of(Teeth.even(24, Deposit.LIGHT, 6));
    assertTrue(serves(owned, Teeth.ADULT, teeth, Pass.FINE, 600));
    assertFalse(serves(PracticeReader.defaults(), Teeth.ADULT, teeth, Pass.FINE, 600));
    assertTrue(serves(owned, Teeth.patient(18, 70.0, false), teeth, Pass.FINE, 600));
    assertFalse(serves(owned, Teeth.patient(17, 70.0, false), teeth, Pass.FINE, 600));
    assertFalse(serves(owned, Teeth.patient(null, 70.0, false), teeth, Pass.FINE, 600));
    assertFalse(serves(owned, Teeth.patient(50, null, false), teeth, Pass.FINE, 600));
    assertFalse(
        serves(
            owned,
            Teeth.patient(50, 70.0, false, Alert.METHAEMOGLOBINAEMIA_RISK),
            teeth,
            Pass.FINE,
            600));
    assertTrue(
        serves(owned, Teeth.patient(50, 70.0, false, Alert.DIABETES), teeth, Pass.FINE, 600));
    assertTrue(serves(owned, Teeth.ADULT, teeth, Pass.FINE, 14 * 60));
    assertFalse(serves(owned, Teeth.ADULT, teeth, Pass.FINE, 14 * 60 + 1));
    assertFalse(serves(owned, Teeth.ADULT, teeth, Pass.IMPLANT_CARE, 600));
    assertFalse(
        serves(owned, Teeth.ADULT, List.of(Teeth.even(24, Deposit.LIGHT, 7)), Pass.FINE, 600));
    assertFalse(
        serves(owned, Teeth.ADULT, List.of(Teeth.even(24, Deposit.LIGHT, null)), Pass.FINE, 600));
  }

  @Test
  void anAlertThatForbidsTheGelOrADrugOfItIsHeeded() throws InvalidDocumentException {
    Practice practice =
        PracticeReader.read(
            "p",
            "{ \"schema\": \"quadrille/practice/1\", \"gel\": { \"owned\": true },"
                + " \"alerts\": { \"anxious\": { \"forbids\": [\"lidocaine\"] },"
                + " \"diabetes\": { \"forbidsGel\": true } } }");
    List<ToothChart> teeth = List.of(Teeth.even(24, Deposit.LIGHT, 6));
    assertFalse(
        serves(practice, Teeth.patient(50, 70.0, false, Alert.ANXIOUS), teeth, Pass.FINE, 600));
    assertFalse(
        serves(practice, Teeth.patient(50, 70.0, false, Alert.DIABETES), teeth, Pass.FINE, 600));
    assertTrue(serves(practice, Teeth.ADULT, teeth, Pass.FINE, 600));
  }

  private static boolean serves(
      Practice practice, Patient patient, List<ToothChart> teeth, Pass pass, int seconds) {
    return new NumbingNeeds(practice, patient).gelServes(teeth, pass, StepAspect.FACIAL, seconds);
  }

  private static Practice numbing(String members) throws InvalidDocumentException {
    return PracticeReader.read(
        "p", "{ \"schema\": \"quadrille/practice/1\", \"numbing\": { " + members + " } }");
  }

  private static Practice gel(String members) throws InvalidDocumentException {
    return PracticeReader.read(
        "p", "{ \"schema\": \"quadrille/practice/1\", \"gel\": { " + members + " } }");
  }
}
