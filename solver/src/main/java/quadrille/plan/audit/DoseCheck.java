package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Before;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.Dose;
import quadrille.plan.course.GivenInjection;

/** H3, and what H10 says of drugs. Visits of one day are taken together. */
final class DoseCheck {

  private static final double SLACK = 1e-9;

  private final Facts facts;
  private final Findings findings;

  private DoseCheck(Facts facts, Findings findings) {
    this.facts = facts;
    this.findings = findings;
  }

  static void check(
      Course course, List<VisitParts> visits, Before before, Facts facts, Findings findings) {
    DoseCheck check = new DoseCheck(facts, findings);
    DoseReading earlier = check.earlier(before);
    DoseReading day = null;
    for (VisitParts visit : visits) {
      DoseReading own = DoseReading.of(visit, facts.practice());
      if (day == null) {
        day = earlier.plus(own);
      } else {
        day = course.gapMinDays() > 0 ? own : day.plus(own);
      }
      check.checkAgents(visit);
      check.checkAlerts(visit, own);
      check.checkRescue(visit, day);
      // What went before is no fault of a visit that adds nothing to it.
      if (!own.nothing()) {
        check.checkAmounts(visit, day);
      }
    }
  }

  /** That a block may be repeated is said only where the day's doses leave room. */
  private void checkRescue(VisitParts visit, DoseReading day) {
    for (Caution caution : visit.visit().cautions()) {
      if (caution instanceof Caution.BlockMayFail block && block.rescue() != null) {
        Agent agent = facts.practice().agents().get(block.rescue().agent());
        boolean room = agent != null && holds(facts, day.plus(agent, block.rescue().ml()));
        if (room != block.rescue().room()) {
          findings.visit(
              Rule.REPORT,
              visit.place(),
              "The plan says that there is "
                  + (room ? "no room" : "room")
                  + " for a second "
                  + findings.say().injection(block.injection())
                  + ", but there is "
                  + (room ? "some." : "none."));
        }
      }
    }
  }

  /** Whether a day's doses keep the maxima. */
  static boolean holds(Facts facts, DoseReading day) {
    double cap = facts.practice().epinephrineCapMg().value();
    for (AlertRule rule : facts.alertRules()) {
      if (rule.epinephrineCapMg() != null) {
        cap = Math.min(cap, rule.epinephrineCapMg().value());
      }
    }
    double share =
        day.doses(facts.practice(), facts.patient().weightKg()).stream()
            .mapToDouble(Dose::share)
            .sum();
    return share <= 1 + SLACK && day.epinephrineMg() <= cap + SLACK;
  }

  private void checkAmounts(VisitParts visit, DoseReading day) {
    if (facts.patient().weightKg() != null) {
      checkShares(visit, day);
      checkEpinephrine(visit, day);
    }
    checkGelAmount(visit, day);
  }

  /** What was given on the first visit's day before it. */
  private DoseReading earlier(Before before) {
    Practice practice = facts.practice();
    Map<Agent, Double> ml = new LinkedHashMap<>();
    for (GivenInjection given : before.given()) {
      Agent agent = practice.agents().get(given.agent());
      if (agent == null) {
        findings.course(
            Rule.H3,
            "The practice does not know "
                + given.agent()
                + ", which was given earlier that day, so no maximum dose holds.");
      } else {
        ml.merge(agent, given.ml(), Double::sum);
      }
    }
    double gel = before.gelCartridges().values().stream().mapToDouble(Double::doubleValue).sum();
    return new DoseReading(ml, gel, before.gelCartridges());
  }

  private void checkAgents(VisitParts visit) {
    Practice practice = facts.practice();
    Set<String> strange = new TreeSet<>();
    for (Shot shot : visit.shots()) {
      if (shot.agent() == null || !practice.preferredAgents().contains(shot.given().agent())) {
        strange.add(shot.given().agent());
      }
    }
    for (String name : strange) {
      findings.visit(
          Rule.H3,
          visit.place(),
          "The practice does not give " + name + ", so no maximum dose of it holds here.");
    }
  }

  private void checkShares(VisitParts visit, DoseReading day) {
    List<Dose> doses = day.doses(facts.practice(), facts.patient().weightKg());
    double sum = doses.stream().mapToDouble(Dose::share).sum();
    if (sum > 1 + SLACK) {
      List<String> words = new ArrayList<>();
      for (Dose dose : doses) {
        words.add(
            Say.number(dose.mg(), 2)
                + " of "
                + Say.number(dose.maxMg(), 2)
                + " of "
                + dose.agent());
      }
      findings.visit(
          Rule.H3,
          visit.place(),
          String.format(
              Locale.ROOT,
              "The doses come to %.1f %% of the maximum: %s.",
              100 * sum,
              String.join(", ", words)));
    }
  }

  /** The practice's own cap is H3's; a lower one that an alert sets is H10's. */
  private void checkEpinephrine(VisitParts visit, DoseReading day) {
    double given = day.epinephrineMg();
    double cap = facts.practice().epinephrineCapMg().value();
    if (given > cap + SLACK) {
      findings.visit(Rule.H3, visit.place(), epinephrine(given, cap, "the practice's cap"));
      return;
    }
    for (AlertRule rule : facts.alertRules()) {
      if (rule.epinephrineCapMg() != null && given > rule.epinephrineCapMg().value() + SLACK) {
        findings.visit(
            Rule.H10,
            visit.place(),
            epinephrine(
                given,
                rule.epinephrineCapMg().value(),
                "the cap of the alert " + rule.alert().word()));
        return;
      }
    }
  }

  private static String epinephrine(double given, double cap, String whose) {
    return "The visit gives "
        + Say.number(given, 4)
        + " mg of epinephrine; "
        + whose
        + " is "
        + Say.number(cap, 4)
        + " mg.";
  }

  private void checkGelAmount(VisitParts visit, DoseReading day) {
    Gel gel = facts.practice().gel();
    day.gelByQuadrant()
        .forEach(
            (quadrant, cartridges) -> {
              if (cartridges > gel.cartridgesQuadrant().value() + SLACK) {
                findings.visit(
                    Rule.H3,
                    visit.place(),
                    Say.number(cartridges, 2)
                        + " cartridges of "
                        + gel.name()
                        + " go into "
                        + quadrant
                        + "; a quadrant may have "
                        + Say.number(gel.cartridgesQuadrant().value(), 2)
                        + ".");
              }
            });
  }

  private void checkAlerts(VisitParts visit, DoseReading own) {
    Patient patient = facts.patient();
    Practice practice = facts.practice();
    boolean gel = !visit.gels().isEmpty();
    if (!patient.history().taken() && (gel || !visit.shots().isEmpty())) {
      findings.visit(
          Rule.H10,
          visit.place(),
          "The visit gives an anaesthetic, but nobody has taken the patient's medical history.");
    }
    if (patient.weightKg() == null && (gel || !visit.shots().isEmpty())) {
      findings.visit(
          Rule.H10,
          visit.place(),
          "The visit gives an anaesthetic, but the patient's weight is not known.");
    }
    for (AlertRule rule : facts.alertRules()) {
      for (Agent agent : own.ml().keySet()) {
        for (String part : List.of(agent.drug(), agent.vasoconstrictor())) {
          if (rule.forbids().contains(part)) {
            findings.visit(
                Rule.H10,
                visit.place(),
                "The alert "
                    + rule.alert().word()
                    + " forbids "
                    + part
                    + ", as in "
                    + agent.name()
                    + ".");
          }
        }
      }
      for (Agent agent : own.ml().keySet()) {
        if (rule.forbidsAmides() && agent.amide()) {
          findings.visit(
              Rule.H10,
              visit.place(),
              "The alert "
                  + rule.alert().word()
                  + " forbids amide anaesthetics, as "
                  + agent.name()
                  + " is.");
        }
      }
      boolean forbidden =
          rule.forbidsGel()
              || rule.forbidsAmides()
              || practice.gel().drugs().stream().anyMatch(rule.forbids()::contains);
      if (gel && forbidden) {
        findings.visit(
            Rule.H10, visit.place(), "The alert " + rule.alert().word() + " forbids pocket gel.");
      }
    }
    for (Agent agent : own.ml().keySet()) {
      Figure from = agent.fromAgeYears();
      if (from != null && !facts.oldEnough(from)) {
        findings.visit(
            Rule.H10,
            visit.place(),
            "The visit gives "
                + agent.name()
                + ", which is for patients from "
                + from.asInt()
                + " years on; the patient's age is "
                + (patient.ageYears() == null ? "not known" : patient.ageYears())
                + ".");
      }
    }
    if (gel) {
      checkGelPatient(visit);
    }
  }

  private void checkGelPatient(VisitParts visit) {
    Gel gel = facts.practice().gel();
    Integer age = facts.patient().ageYears();
    if (!gel.owned()) {
      findings.visit(
          Rule.WORK, visit.place(), "The visit uses pocket gel, which the practice does not have.");
    }
    if (age == null || age < gel.fromAgeYears().value()) {
      findings.visit(
          Rule.H10,
          visit.place(),
          "The visit uses pocket gel, which is for patients from "
              + gel.fromAgeYears().asInt()
              + " years on; the patient's age is "
              + (age == null ? "not known" : age)
              + ".");
    }
  }
}
