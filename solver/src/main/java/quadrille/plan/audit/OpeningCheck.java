package quadrille.plan.audit;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.plan.course.Entry;
import quadrille.plan.work.Target;

/** H10: how a visit begins, where an alert or the practice asks for it. */
final class OpeningCheck {
  private final VisitParts visit;
  private final Facts facts;
  private final Findings findings;

  private OpeningCheck(VisitParts visit, Facts facts, Findings findings) {
    this.visit = visit;
    this.facts = facts;
    this.findings = findings;
  }

  /** Whether nothing is touched before it is numb. */
  static boolean numbFirst(Facts facts) {
    return facts.practice().numbing().numbFirst()
        || facts.alertRules().stream().anyMatch(AlertRule::numbFirst)
        || facts.patient().wishes().stream()
            .anyMatch(wish -> wish.must() && wish.ask() instanceof Wish.NumbFirst);
  }

  /**
   * Checks one visit.
   *
   * @param clockHolds whether the visit's clock is sound; when something is numb is judged only
   *     then
   */
  static void check(VisitParts visit, Facts facts, boolean clockHolds, Findings findings) {
    OpeningCheck check = new OpeningCheck(visit, facts, findings);
    check.checkLook();
    if (numbFirst(facts)) {
      check.checkNumbFirst(clockHolds);
    }
  }

  private @Nullable Integer teethBeforeLook() {
    Integer least = null;
    for (AlertRule rule : facts.alertRules()) {
      Figure teeth = rule.teethBeforeLook();
      if (teeth != null && (least == null || teeth.asInt() < least)) {
        least = teeth.asInt();
      }
    }
    return least;
  }

  private void checkLook() {
    List<Entry> sequence = visit.visit().sequence();
    int look = -1;
    for (int i = sequence.size() - 1; i >= 0; i--) {
      look = sequence.get(i) instanceof Entry.Look ? i : look;
    }
    Set<Tooth> before = new TreeSet<>();
    Set<Tooth> after = new TreeSet<>();
    for (Done done : visit.done()) {
      (done.index() < look ? before : after).addAll(done.entry().teeth());
    }
    Set<Tooth> all = new TreeSet<>(before);
    all.addAll(after);
    Integer most = teethBeforeLook();
    if (most == null || all.size() <= most) {
      if (look >= 0) {
        finding("The visit has a look at the bleeding, for which nothing asks.");
      }
      return;
    }
    Set<Tooth> unfinished = new LinkedHashSet<>(before);
    unfinished.retainAll(after);
    if (before.isEmpty() || before.size() > most) {
      finding(
          "The visit works on "
              + (look < 0 ? all.size() : before.size())
              + " teeth before the first look at the bleeding; it must be 1 to "
              + most
              + ".");
    } else if (!unfinished.isEmpty()) {
      finding(
          "The look at the bleeding comes before all is done at "
              + findings.say().teeth(List.copyOf(unfinished))
              + ".");
    }
  }

  private void checkNumbFirst(boolean clockHolds) {
    Set<Quadrant> numbed = new TreeSet<>();
    for (Quadrant quadrant : Quadrant.values()) {
      if (!visit.needsIn(quadrant).isEmpty()) {
        numbed.add(quadrant);
      }
    }
    for (Done done : visit.done()) {
      Quadrant quadrant = done.entry().area().quadrant();
      if (!numbed.isEmpty() && !numbed.contains(quadrant)) {
        finding(
            "The visit begins with the step "
                + done.words(findings.say())
                + ", before anything is numb.");
        return;
      }
      for (Target target : visit.needsIn(quadrant)) {
        if (clockHolds && !numbBy(done.entry().startSecond(), target)) {
          finding(
              "The step "
                  + done.words(findings.say())
                  + " starts at minute "
                  + Say.minutes(done.entry().startSecond())
                  + ", before the "
                  + findings.say().targets(List.of(target))
                  + " is numb.");
          return;
        }
      }
      // Once the first step is numb, another quadrant may be worked on that needs nothing numb.
      numbed.addAll(List.of(Quadrant.values()));
    }
  }

  /** Half a second of slack; what nothing numbs has its own finding. */
  private boolean numbBy(int second, Target target) {
    List<Shot> shots =
        visit.shots().stream().filter(shot -> !shot.known() || shot.numbs(target)).toList();
    return shots.isEmpty()
        || shots.stream()
            .anyMatch(shot -> !shot.known() || shot.readySecond(target) <= second + 0.5);
  }

  private void finding(String words) {
    findings.visit(Rule.H10, visit.place(), words);
  }
}
