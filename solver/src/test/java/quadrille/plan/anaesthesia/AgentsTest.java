package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.anaesthesia.Practices.adult;
import static quadrille.plan.anaesthesia.Practices.patient;
import static quadrille.plan.anaesthesia.Practices.preferring;
import static quadrille.plan.anaesthesia.Practices.usual;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;

final class AgentsTest {

  private static final Practice ALL =
      preferring(
          "prilocaine-4",
          "mepivacaine-2-levonordefrin-20",
          "lidocaine-2-100",
          "prilocaine-4-200",
          "mepivacaine-3");

  @Test
  void healthyPatientsMayHaveThePreferredAgentsInOrder() {
    assertEquals(ALL.preferredAgents(), names(ALL, adult(70)));
    assertEquals(usual().preferredAgents(), names(usual(), adult(70)));
  }

  /** Product label (read): no prilocaine with methaemoglobinaemia or G6PD deficiency. */
  @Test
  void noPrilocaineWhereMethaemoglobinaemiaThreatens() {
    Patient patient = adult(70, Alert.METHAEMOGLOBINAEMIA_RISK);
    assertEquals(
        List.of("mepivacaine-2-levonordefrin-20", "lidocaine-2-100", "mepivacaine-3"),
        names(ALL, patient));
    Agents.Choice first = Agents.choices(ALL, patient).get(0);
    assertFalse(first.allowed());
    assertEquals(
        List.of(new Objection.Forbidden(Alert.METHAEMOGLOBINAEMIA_RISK, "prilocaine")),
        first.objections());
  }

  /** Significant heart disease: 0.04 mg of epinephrine a visit (weak). */
  @Test
  void heartDiseaseCapsEpinephrineAndForbidsLevonordefrin() {
    Patient patient = adult(70, Alert.HEART_DISEASE);
    assertEquals(0.04, PatientRules.of(ALL, patient).epinephrineCapMg(), 1e-12);
    // 0.2 mg a visit for a healthy patient (read).
    assertEquals(0.2, PatientRules.of(ALL, adult(70)).epinephrineCapMg(), 1e-12);
    assertFalse(names(ALL, patient).contains("mepivacaine-2-levonordefrin-20"));
    assertTrue(names(ALL, patient).contains("lidocaine-2-100"));
  }

  @Test
  void unknownWeightAllowsNothing() {
    assertEquals(List.of(), names(ALL, patient(null, 40)));
    assertTrue(
        Agents.choices(ALL, patient(null, 40)).stream()
            .allMatch(choice -> choice.objections().get(0).equals(new Objection.NoWeight())));
  }

  @Test
  void allReasonsAreGiven() {
    Patient patient = adult(70, Alert.HEART_DISEASE, Alert.METHAEMOGLOBINAEMIA_RISK);
    List<Agents.Choice> choices = Agents.choices(ALL, patient);
    assertEquals(5, choices.size());
    assertEquals(List.of("lidocaine-2-100", "mepivacaine-3"), names(ALL, patient));
  }

  @Test
  void theLargestInjectionFactorCounts() {
    assertEquals(1, PatientRules.of(usual(), adult(70)).injectionWeightFactor());
    assertEquals(
        2, PatientRules.of(usual(), adult(70, Alert.NEEDLE_AVERSE)).injectionWeightFactor());
  }

  private static List<String> names(Practice practice, Patient patient) {
    return Agents.allowed(practice, patient).stream().map(Agent::name).toList();
  }
}
