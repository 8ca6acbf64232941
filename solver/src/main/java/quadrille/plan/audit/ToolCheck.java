package quadrille.plan.audit;

import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Before;
import quadrille.plan.course.Course;

/** H7 and H9: inserts on implants, sleeves, kits and sterilised sets. */
final class ToolCheck {

  private ToolCheck() {}

  static void check(
      Course course, List<VisitParts> visits, Before before, Facts facts, Findings findings) {
    for (VisitParts visit : visits) {
      checkImplants(visit, facts, findings);
      checkKit(visit, facts.practice(), findings);
    }
    boolean oneDay = course.gapMinDays() == 0;
    List<VisitParts> day = oneDay ? visits : visits.subList(0, Math.min(1, visits.size()));
    checkSets(day, before.setsOpened(), facts.practice(), findings);
  }

  private static void checkImplants(VisitParts visit, Facts facts, Findings findings) {
    boolean byHand =
        facts.alertRules().stream().anyMatch(AlertRule::byHand)
            || facts.patient().wishes().stream()
                .anyMatch(wish -> wish.must() && wish.ask() instanceof Wish.ByHand);
    boolean sleeved = false;
    for (Done done : visit.done()) {
      Insert insert = facts.practice().inserts().get(done.entry().insert());
      boolean hand = insert != null && insert.hand();
      sleeved |= !hand && done.entry().teeth().stream().anyMatch(facts::implant);
      if (insert != null && hand != byHand) {
        findings.visit(
            Rule.H10,
            visit.place(),
            "The step "
                + done.words(findings.say())
                + (byHand
                    ? " is done with the unit, though an alert or a wish asks for work by hand."
                    : " is done by hand, which no alert or wish asks for."));
      }
      if (WorkCheck.touchesImplantBadly(done.entry(), facts)) {
        findings.visit(
            Rule.H7,
            visit.place(),
            "The step "
                + done.words(findings.say())
                + " touches an implant with "
                + done.entry().insert()
                + " at "
                + done.entry().power().word()
                + " power; only a sleeved insert at low power may, or hand instruments made for"
                + " implants.");
      }
    }
    int due = sleeved ? 1 : 0;
    if (visit.visit().sleeves() != due) {
      findings.visit(
          Rule.H7,
          visit.place(),
          "The visit has "
              + visit.visit().sleeves()
              + " implant sleeves, where "
              + due
              + (due == 1 ? " new one is due." : " are due."));
    }
  }

  private static void checkKit(VisitParts visit, Practice practice, Findings findings) {
    int holds = practice.appointments().kitHolds().asInt();
    if (visit.inserts().size() > holds) {
      findings.visit(
          Rule.H9,
          visit.place(),
          "The visit uses "
              + visit.inserts().size()
              + " inserts ("
              + Say.list(visit.inserts())
              + "), but a kit holds "
              + holds
              + ".");
    }
  }

  /** Of one day, with what was opened earlier on it. */
  private static void checkSets(
      List<VisitParts> visits,
      SortedMap<String, Integer> opened,
      Practice practice,
      Findings findings) {
    Map<String, Integer> uses = new TreeMap<>();
    for (VisitParts visit : visits) {
      visit.inserts().forEach(name -> uses.merge(name, 1, Integer::sum));
    }
    uses.forEach(
        (name, count) -> {
          Insert insert = practice.inserts().get(name);
          int earlier = opened.getOrDefault(name, 0);
          if (insert != null && count + earlier > insert.sterileSets()) {
            findings.course(
                Rule.H9,
                (count + earlier)
                    + " visits on one day"
                    + (earlier > 0 ? ", " + earlier + " of them earlier," : "")
                    + " use "
                    + name
                    + ", of which "
                    + insert.sterileSets()
                    + (insert.sterileSets() == 1 ? " is" : " are")
                    + " sterilised at the start of the day.");
          }
        });
  }
}
