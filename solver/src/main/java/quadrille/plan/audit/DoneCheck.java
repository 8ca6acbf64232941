package quadrille.plan.audit;

import java.util.List;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.Before;
import quadrille.plan.course.Entry;

/** A course that carries on another: nothing that was done again, and the visits' numbers. */
final class DoneCheck {

  private DoneCheck() {}

  /**
   * @param carriesOn whether numbers go on from another plan's, of which some may be used up
   */
  static void check(List<VisitParts> visits, Before before, boolean carriesOn, Findings findings) {
    int last = 0;
    for (VisitParts reading : visits) {
      int number = reading.visit().number();
      boolean next =
          carriesOn ? number > last && !before.visits().contains(number) : number == last + 1;
      if (!next) {
        findings.visit(
            Rule.REPORT,
            reading.place(),
            "The plan states as number of the visit "
                + number
                + "; worked out again: "
                + (carriesOn ? "one after " + last + " that is not used" : String.valueOf(last + 1))
                + ".");
      }
      last = carriesOn ? Math.max(number, last) : last + 1;
      for (Done done : reading.done()) {
        checkUndone(reading, done.entry(), before, findings);
      }
    }
  }

  private static void checkUndone(
      VisitParts reading, Entry.Debride entry, Before before, Findings findings) {
    for (Tooth tooth : entry.teeth()) {
      boolean left = false;
      for (Aspect aspect : Facts.aspects(entry.aspect())) {
        left |= before.work().left(tooth, entry.pass(), aspect) > 0;
      }
      if (!left) {
        findings.visit(
            Rule.WORK,
            reading.place(),
            "The step "
                + Done.words(entry, findings.say())
                + " was done at tooth "
                + findings.say().tooth(tooth)
                + " before.");
      }
    }
  }
}
