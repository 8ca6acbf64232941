package quadrille.plan.planning;

import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;

/**
 * What a day gives.
 *
 * @param share sum of the shares of the maximum doses
 */
record DayDose(double share, double epinephrineMg) {
  private static final double SLACK = 1e-9;

  DayDose plus(Visit visit) {
    return new DayDose(share + visit.doseShare(), epinephrineMg + visit.epinephrineMg());
  }

  /** Whether one more of an injection keeps the maximum doses. */
  boolean holds(GivenInjection more, Patient patient, Practice practice) {
    Agent agent = practice.agents().get(more.agent());
    if (agent == null || patient.weightKg() == null) {
      return false;
    }
    Doses.Amount amount = new Doses.Amount(agent, more.ml());
    double most = new Doses(practice, patient).maxMg(agent);
    double cap = PatientRules.of(practice, patient).epinephrineCapMg();
    return share + amount.mg() / most <= 1 + SLACK
        && epinephrineMg + amount.epinephrineMg() <= cap + SLACK;
  }
}
