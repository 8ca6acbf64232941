package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.facts.practice.Frame.Task.BLOOD_PRESSURE;
import static quadrille.facts.practice.Frame.Task.CHARTING;
import static quadrille.facts.practice.Frame.Task.CONSENT;
import static quadrille.facts.practice.Frame.Task.HISTORY;
import static quadrille.facts.practice.Frame.Task.INSTRUCTION;
import static quadrille.facts.practice.Frame.Task.RINSE;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;

/** What stands around the work of a visit. */
final class FrameTest {
  private static final Frame FRAME = PracticeReader.defaults().frame();

  private static PatientRules with(Alert... alerts) {
    return PatientRules.of(
        PracticeReader.defaults(), new Patient(50, 75.0, null, Set.of(alerts), null, false));
  }

  @Test
  void noRinseWhereAnAlertForbidsWhatItHolds() {
    PatientRules rules = with(Alert.CHLORHEXIDINE_ALLERGY);
    assertEquals(List.of(HISTORY), before(FRAME, rules, false, false));
  }

  @Test
  void theFirstVisitAsksForConsentAndMeasures() {
    assertEquals(
        List.of(HISTORY, BLOOD_PRESSURE, CONSENT, RINSE), before(FRAME, with(), true, false));
    assertEquals(List.of(HISTORY, RINSE), before(FRAME, with(), false, false));
    assertEquals(List.of(INSTRUCTION), after(FRAME, with(), false, true));
  }

  @Test
  void highBloodPressureIsMeasuredInEveryVisit() {
    assertEquals(
        List.of(HISTORY, BLOOD_PRESSURE, RINSE),
        before(FRAME, with(Alert.HIGH_BLOOD_PRESSURE), false, false));
  }

  /** What is measured after the first cartridge is held against what was measured before it. */
  @Test
  void whoIsMeasuredAfterTheFirstCartridgeIsMeasuredBeforeIt() {
    List<Alert> measured =
        PracticeReader.defaults().alerts().values().stream()
            .filter(AlertRule::measuresAfterFirst)
            .map(AlertRule::alert)
            .toList();
    assertTrue(measured.contains(Alert.TRICYCLIC));
    for (Alert alert : measured) {
      assertTrue(before(FRAME, with(alert), false, false).contains(BLOOD_PRESSURE), alert.word());
    }
  }

  /** An anticoagulant that nobody named has what the two that it may be have. */
  @Test
  void anAlertHasWhatThoseThatItIncludesHave() throws Exception {
    Practice practice =
        PracticeReader.read(
            "a test",
            "{\"schema\": \"quadrille/practice/1\","
                + " \"frame\": {\"blood-pressure\": {\"alerts\": [\"warfarin\"]}}}");
    PatientRules rules =
        PatientRules.of(
            practice, new Patient(50, 75.0, null, Set.of(Alert.ANTICOAGULANT), null, false));
    assertEquals(
        List.of(HISTORY, BLOOD_PRESSURE, RINSE), before(practice.frame(), rules, false, false));
  }

  /** Ten minutes before the work and five after, as before there was a frame. */
  @Test
  void theDefaultOfALaterVisitIsStillFifteenMinutes() {
    Minutes minutes = PracticeReader.defaults().minutes();
    double before =
        before(FRAME, with(), false, false).stream().mapToInt(FRAME::seconds).sum() / 60.0;
    double after =
        after(FRAME, with(), false, false).stream().mapToInt(FRAME::seconds).sum() / 60.0;
    assertEquals(10, minutes.setUpMinutes().value() + before);
    assertEquals(5, minutes.closeMinutes().value() + after);
  }

  @Test
  void aChartOfTheLastVisitAloneIsTakenAfterTheWork() throws Exception {
    Frame last =
        PracticeReader.read(
                "a test",
                "{\"schema\": \"quadrille/practice/1\","
                    + " \"frame\": {\"charting\": {\"visits\": \"last\"}}}")
            .frame();
    assertEquals(List.of(CHARTING, INSTRUCTION), after(last, with(), false, true));
    assertEquals(List.of(INSTRUCTION), after(last, with(), false, false));
    assertEquals(List.of(HISTORY, RINSE), before(last, with(), false, true));
  }

  private static List<Frame.Task> before(
      Frame frame, PatientRules rules, boolean first, boolean last) {
    return frame.before(rules.standing(), rules.forbidsRinses(), first, last);
  }

  private static List<Frame.Task> after(
      Frame frame, PatientRules rules, boolean first, boolean last) {
    return frame.after(rules.standing(), rules.forbidsRinses(), first, last);
  }
}
