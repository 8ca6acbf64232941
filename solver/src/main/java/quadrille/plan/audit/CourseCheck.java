package quadrille.plan.audit;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.plan.course.Before;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.work.Step;

/** H4, and what H10 says of the whole course: gaps, the quadrant to start with, cautions. */
final class CourseCheck {

  private final Course course;
  private final Facts facts;
  private final Findings findings;

  private CourseCheck(Course course, Facts facts, Findings findings) {
    this.course = course;
    this.facts = facts;
    this.findings = findings;
  }

  /**
   * @param due the steps of the work that are not held back
   */
  static void check(
      Course course,
      List<VisitParts> visits,
      List<Step> due,
      Before before,
      Facts facts,
      Findings findings) {
    CourseCheck check = new CourseCheck(course, facts, findings);
    visits.forEach(check::checkLength);
    check.checkGap();
    check.checkStart(visits, due, before);
    check.checkCautions();
    check.checkWarnings(visits);
    check.checkCovers();
  }

  /**
   * Each visit asks what the practice asks for the patient's alerts, and first of all for a history
   * that nobody has taken.
   */
  static void checkStopQuestions(Course course, Facts facts, Findings findings) {
    for (int i = 0; i < course.visits().size(); i++) {
      List<StopQuestion> asked = course.visits().get(i).stopQuestions();
      if (!facts.patient().history().taken()
          && (asked.isEmpty() || asked.get(0) != StopQuestion.Known.TAKE_THE_HISTORY)) {
        findings.visit(
            Rule.H10,
            i + 1,
            "The visit does not begin with taking the medical history, which nobody has taken.");
      }
      for (AlertRule rule : facts.alertRules()) {
        for (String question : rule.stopQuestions()) {
          if (!asked.contains(new StopQuestion.OfAlert(rule.alert(), question))) {
            findings.visit(
                Rule.H10,
                i + 1,
                "The visit does not ask what stops it under the alert "
                    + rule.alert().word()
                    + ": "
                    + question);
          }
        }
      }
    }
  }

  private void checkWarnings(List<VisitParts> visits) {
    for (VisitParts visit : visits) {
      for (AlertRule rule : facts.alertRules()) {
        rule.warns()
            .forEach(
                (drug, text) -> {
                  boolean given =
                      visit.shots().stream()
                          .anyMatch(
                              shot -> shot.agent() != null && shot.agent().drug().equals(drug));
                  if (given && !visit.visit().cautions().contains(new Caution.AsWritten(text))) {
                    findings.visit(
                        Rule.H10,
                        visit.place(),
                        "The visit gives "
                            + drug
                            + " and does not warn of it under the alert "
                            + rule.alert().word()
                            + ": "
                            + text);
                  }
                });
      }
    }
  }

  private void checkCovers() {
    for (AlertRule rule : facts.alertRules()) {
      Caution due = new Caution.AntibioticCovers(rule.alert(), course.visits().size());
      if (rule.countsCovers() && !course.visits().isEmpty() && !course.cautions().contains(due)) {
        findings.course(
            Rule.H10,
            "The plan does not say that the alert "
                + rule.alert().word()
                + " takes an antibiotic cover in each of its "
                + course.visits().size()
                + " visits.");
      }
    }
  }

  /** By what the visit must be booked for, whatever the plan says that it is. */
  private void checkLength(VisitParts visit) {
    int booked = BookedLength.of(visit, facts.practice()).minutes();
    double longest = facts.practice().appointments().longestVisitMinutes().value();
    String whose = "the practice's longest visit";
    Integer patients = facts.patient().longestVisitMinutes();
    if (patients != null && patients < longest) {
      longest = patients;
      whose = "the longest that the patient can sit through";
    }
    for (AlertRule rule : facts.alertRules()) {
      Figure cap = rule.longestVisitMinutes();
      if (cap != null && cap.value() < longest) {
        longest = cap.value();
        whose = "the longest under the alert " + rule.alert().word();
      }
    }
    if (booked > longest) {
      findings.visit(
          Rule.H4,
          visit.place(),
          String.format(
              Locale.ROOT,
              "The visit must be booked for %d minutes; %s is %s.",
              booked,
              whose,
              Say.number(longest, 2)));
    }
  }

  private void checkGap() {
    if (course.visits().size() < 2) {
      return;
    }
    for (AlertRule rule : facts.alertRules()) {
      Figure least = rule.minGapDays();
      if (least != null && course.gapMinDays() < least.value()) {
        findings.course(
            Rule.H10,
            "The alert "
                + rule.alert().word()
                + " asks for "
                + Say.number(least.value(), 2)
                + " days between visits; the plan allows "
                + course.gapMinDays()
                + ".");
        return;
      }
      Figure most = rule.maxGapDays();
      if (most != null && course.gapMaxDays() > Math.max(most.value(), course.gapMinDays())) {
        findings.course(
            Rule.H10,
            "The alert "
                + rule.alert().word()
                + " allows at most "
                + Say.number(most.value(), 2)
                + " days between visits; the plan allows "
                + course.gapMaxDays()
                + ".");
        return;
      }
      Integer leave = course.gapMostDays();
      if (most != null && leave != null && leave > Math.max(most.value(), course.gapMinDays())) {
        findings.course(
            Rule.H10,
            "The alert "
                + rule.alert().word()
                + " allows at most "
                + Say.number(most.value(), 2)
                + " days between visits; the plan lets somebody allow "
                + leave
                + ".");
        return;
      }
      if (least != null && course.gapLeastDays() < least.value()) {
        findings.course(
            Rule.H10,
            "The alert "
                + rule.alert().word()
                + " asks for "
                + Say.number(least.value(), 2)
                + " days between visits; the plan lets a deadline bring them down to "
                + course.gapLeastDays()
                + ".");
        return;
      }
      if (rule.forbidsOneDay() && course.gapMinDays() == 0) {
        findings.course(
            Rule.H10, "The alert " + rule.alert().word() + " forbids all visits on one day.");
        return;
      }
    }
    if (course.gapMinDays() > 0 && course.gapLeastDays() == 0) {
      findings.course(
          Rule.REPORT, "The plan lets a deadline bring visits of several days to one day.");
      return;
    }
    Appointments appointments = facts.practice().appointments();
    int least = appointments.gapMinDays().asInt();
    int most = Math.max(appointments.gapMaxDays().asInt(), course.gapMinDays());
    if (course.gapMinDays() < least || course.gapMaxDays() > most) {
      findings.course(
          Rule.REPORT,
          "The plan states a gap of "
              + course.gapMinDays()
              + " to "
              + course.gapMaxDays()
              + " days between visits; the practice keeps "
              + least
              + " to "
              + most
              + ".");
    }
  }

  private void checkStart(List<VisitParts> visits, List<Step> due, Before before) {
    Patient patient = facts.patient();
    Quadrant start = patient.startWith();
    if (start == null || visits.isEmpty() || before.work().startedIn(start)) {
      return;
    }
    boolean work = due.stream().anyMatch(step -> step.area().quadrant() == start);
    boolean first =
        visits.get(0).done().stream()
            .anyMatch(done -> done.entry().teeth().stream().anyMatch(t -> t.quadrant() == start));
    if (work && !first) {
      findings.visit(
          Rule.H10, 1, "The first visit has no work in " + start + ", the quadrant to start with.");
    }
  }

  private void checkCautions() {
    for (AlertRule rule : facts.alertRules()) {
      for (String caution : rule.cautions()) {
        boolean shown =
            Stream.concat(
                    course.cautions().stream(),
                    course.visits().stream().flatMap(visit -> visit.cautions().stream()))
                .anyMatch(new Caution.AsWritten(caution)::equals);
        if (!shown) {
          findings.course(
              Rule.H10,
              "The plan does not show the caution of the alert "
                  + rule.alert().word()
                  + ": "
                  + caution);
        }
      }
    }
  }
}
