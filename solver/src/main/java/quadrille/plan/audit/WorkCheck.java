package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/** Every step of the work exactly once, nothing added; held-back work for a true reason. */
final class WorkCheck {

  private final Course course;
  private final Facts facts;
  private final Findings findings;
  private final List<Step> open;
  private final List<Step> missing = new ArrayList<>();
  private final List<Step> heldBack = new ArrayList<>();
  private final List<List<Done>> done = new ArrayList<>();
  private boolean sound = true;

  private WorkCheck(Course course, Facts facts, List<Step> work, Findings findings) {
    this.course = course;
    this.facts = facts;
    this.findings = findings;
    this.open = new ArrayList<>(work);
  }

  static WorkCheck of(Course course, Facts facts, List<Step> work, Findings findings) {
    WorkCheck check = new WorkCheck(course, facts, work, findings);
    check.match(work);
    check.matchHeldBack(work);
    check.reportMissing();
    return check;
  }

  /** The steps of each visit, each with the step of the work that it stands for. */
  List<List<Done>> done() {
    return done;
  }

  /** Steps of the work that are neither done nor held back. */
  List<Step> missing() {
    return missing;
  }

  /** Steps of the work that are held back. */
  List<Step> heldBack() {
    return heldBack;
  }

  /** Whether all steps that are done are just those of the work. */
  boolean sound() {
    return sound && missing.isEmpty();
  }

  private record Slot(int visit, int index, Entry.Debride entry) {}

  private void match(List<Step> work) {
    List<Slot> slots = slots();
    @Nullable Step[] partners = new @Nullable Step[slots.size()];
    for (int i = 0; i < slots.size(); i++) {
      Entry.Debride entry = slots.get(i).entry();
      Step step = open.stream().filter(s -> Done.same(entry, s)).findFirst().orElse(null);
      if (step != null) {
        partners[i] = step;
        open.remove(step);
      }
    }
    for (int i = 0; i < slots.size(); i++) {
      if (partners[i] == null) {
        partners[i] = pairUnlike(slots.get(i), work);
        sound = false;
      }
    }
    for (int i = 0; i < course.visits().size(); i++) {
      done.add(new ArrayList<>());
    }
    for (int i = 0; i < slots.size(); i++) {
      Slot slot = slots.get(i);
      Step step = partners[i];
      Entry.Debride entry = slot.entry();
      boolean gel = gelBefore(slot);
      SortedSet<Target> needs =
          step == null
              ? facts.needs(entry.pass(), entry.aspect(), entry.teeth(), gel)
              : facts.needs(step.pass(), step.aspect(), step.teeth(), gel);
      done.get(slot.visit()).add(new Done(slot.visit() + 1, slot.index(), entry, step, needs));
    }
    for (List<Done> some : done) {
      for (Done one : some) {
        Step step = one.step();
        if (step != null && facts.waitsForChart(step, work)) {
          findings.visit(
              Rule.WORK,
              one.place(),
              "The step "
                  + findings.say().step(step)
                  + " is planned, though too much is unprobed and it waits for a new chart.");
        }
      }
    }
    for (int i = 0; i < done.size(); i++) {
      if (done.get(i).isEmpty()) {
        findings.visit(Rule.WORK, i + 1, "The visit has no step of work.");
      }
    }
  }

  /** Whether gel is put in after the step before. */
  private boolean gelBefore(Slot slot) {
    List<Entry> sequence = course.visits().get(slot.visit()).sequence();
    for (int i = slot.index() - 1; i >= 0; i--) {
      if (sequence.get(i) instanceof Entry.Debride) {
        return false;
      }
      if (sequence.get(i) instanceof Entry.ApplyGel) {
        return true;
      }
    }
    return false;
  }

  private List<Slot> slots() {
    List<Slot> slots = new ArrayList<>();
    for (int v = 0; v < course.visits().size(); v++) {
      List<Entry> sequence = course.visits().get(v).sequence();
      for (int i = 0; i < sequence.size(); i++) {
        if (sequence.get(i) instanceof Entry.Debride entry) {
          slots.add(new Slot(v, i, entry));
        }
      }
    }
    return slots;
  }

  /** The open step that an unknown one most likely stands for; reports what differs. */
  private @Nullable Step pairUnlike(Slot slot, List<Step> work) {
    Entry.Debride entry = slot.entry();
    Step best = null;
    int most = 0;
    for (Step step : open) {
      int alike = alike(entry, step);
      if (alike > most) {
        best = step;
        most = alike;
      }
    }
    String where = "The step " + Done.words(entry, findings.say()) + ", " + entry.insert();
    if (best != null) {
      open.remove(best);
      report(slot, where + " should be " + differences(entry, best) + ".");
    } else if (work.stream().anyMatch(step -> Done.same(entry, step))) {
      report(slot, where + " is done twice.");
    } else {
      report(slot, where + " is not in the work" + why(entry) + ".");
    }
    return best;
  }

  /** An implant touched by the wrong insert is H7's to report. */
  private void report(Slot slot, String message) {
    if (!touchesImplantBadly(slot.entry(), facts)) {
      findings.visit(Rule.WORK, slot.visit() + 1, message);
    }
  }

  /**
   * Whether anything but a sleeved insert at low power, or hand instruments made for implants,
   * works on an implant.
   */
  static boolean touchesImplantBadly(Entry.Debride entry, Facts facts) {
    if (entry.teeth().stream().noneMatch(facts::implant)) {
      return false;
    }
    Insert insert = facts.practice().inserts().get(entry.insert());
    return insert == null
        || switch (insert.insertClass()) {
          case SLEEVED -> entry.power() != Power.LOW;
          case HAND_IMPLANT -> entry.power() != Power.NONE;
          case STANDARD, BROAD, SLIM, FINEST, HAND -> true;
        };
  }

  /** A tooth has one step of a pass on an aspect, so that inserts and power tell no more. */
  private static int alike(Entry.Debride entry, Step step) {
    if (entry.teeth().stream().noneMatch(step.teeth()::contains)) {
      return 0;
    }
    return 1
        + (Done.sorted(entry).equals(step.teeth()) ? 8 : 0)
        + (entry.pass() == step.pass() ? 8 : 0)
        + (entry.aspect() == step.aspect() ? 4 : 0);
  }

  private String differences(Entry.Debride entry, Step step) {
    List<String> due = new ArrayList<>();
    if (!entry.area().equals(step.area().ref())) {
      due.add("in " + step.area().ref());
    }
    if (entry.pass() != step.pass()) {
      due.add("pass " + step.pass().word());
    }
    if (entry.aspect() != step.aspect()) {
      due.add("aspect " + step.aspect().word());
    }
    if (!Done.sorted(entry).equals(step.teeth())) {
      due.add("on " + findings.say().teeth(step.teeth()));
    }
    if (!entry.insert().equals(step.insert().name())) {
      due.add("with " + step.insert().name());
    }
    if (entry.power() != step.power()) {
      due.add("at " + step.power().word() + " power");
    }
    return String.join(", ", due);
  }

  private String why(Entry.Debride entry) {
    for (Tooth tooth : entry.teeth()) {
      String status =
          facts.chart().tooth(tooth).map(charted -> charted.status().word()).orElse("not listed");
      if (facts.chart().tooth(tooth).filter(ToothChart::worked).isEmpty()) {
        return ": tooth " + findings.say().tooth(tooth) + " is " + status;
      }
    }
    return "";
  }

  private void matchHeldBack(List<Step> work) {
    for (HeldBack held : course.heldBack()) {
      Step step = open.stream().filter(s -> same(held, s)).findFirst().orElse(null);
      if (step != null) {
        open.remove(step);
        heldBack.add(step);
        boolean waits = facts.waitsForChart(step, work);
        if (!waits && !mayBeHeldBack(step, work)) {
          findings.course(
              Rule.WORK,
              "The step "
                  + findings.say().step(step)
                  + " is held back, but nothing that it waits for is missing.");
        } else if (waits
            ? !(held.reason() instanceof HeldBack.AwaitsChart)
            : !holds(held.reason(), step)) {
          findings.course(
              Rule.REPORT,
              "The step " + findings.say().step(step) + " is held back for another reason.");
        }
      } else {
        boolean known = work.stream().anyMatch(s -> same(held, s));
        findings.course(
            Rule.WORK,
            "The work held back ("
                + findings.say().area(held.area())
                + ", "
                + held.pass().word()
                + ", "
                + held.aspect().word()
                + ", "
                + findings.say().teeth(held.teeth())
                + ") "
                + (known ? "is done or held back elsewhere too." : "is not in the work."));
      }
    }
  }

  private static boolean same(HeldBack held, Step step) {
    return held.area().equals(step.area().ref())
        && held.pass() == step.pass()
        && held.aspect() == step.aspect()
        && held.teeth().equals(step.teeth());
  }

  /**
   * Without a history nobody knows what may be given, without a weight no dose can be bounded, and
   * without an agent that the patient's alerts and age leave nothing can be given; so nothing that
   * must be numb can be done, nor what goes with it or must follow it in its area.
   */
  private boolean mayBeHeldBack(Step step, List<Step> work) {
    boolean noAgent =
        !facts.patient().history().taken()
            || facts.patient().weightKg() == null
            || !facts.anyAgent();
    return (noAgent || noInjectionWished(step) || !SureAgent.serves(step.area(), work, facts))
        && work.stream()
            .filter(other -> other.area().equals(step.area()))
            .filter(other -> !facts.waitsForChart(other, work))
            .filter(
                other ->
                    facts.practice().appointments().passesTogether().sameVisit()
                        || goesWithOrBefore(other.pass(), step.pass()))
            .anyMatch(other -> !facts.needs(other.pass(), other.aspect(), other.teeth()).isEmpty());
  }

  private boolean noInjectionWished(Step step) {
    return facts.patient().wishes().stream()
        .anyMatch(
            wish ->
                wish.must()
                    && wish.ask() instanceof Wish.NoInjection
                    && wish.about(step.area().teeth()));
  }

  /** Whether a stated reason is the true one; words alone cannot be judged. */
  private boolean holds(HeldBack.Reason reason, Step step) {
    boolean weighed = facts.patient().weightKg() != null;
    if (reason instanceof HeldBack.Follows follows) {
      return holds(follows.waiting(), step);
    }
    if (reason instanceof HeldBack.WholeArea whole) {
      return holds(whole.waiting(), step);
    }
    boolean taken = facts.patient().history().taken();
    if (reason instanceof HeldBack.NoInjectionWished) {
      return taken && weighed && facts.anyAgent() && noInjectionWished(step);
    }
    if (reason instanceof HeldBack.NoAgentServes none) {
      List<String> allowed = facts.allowed().stream().map(Agent::name).toList();
      return taken && weighed && !allowed.isEmpty() && none.agents().equals(allowed);
    }
    if (reason instanceof HeldBack.NoHistory) {
      return !taken;
    }
    if (reason instanceof HeldBack.NoAgent none) {
      List<String> agents = none.agents().stream().map(HeldBack.Refused::agent).toList();
      return taken
          && weighed
          && !facts.anyAgent()
          && agents.equals(facts.practice().preferredAgents());
    }
    return reason instanceof HeldBack.AsWritten
        || (reason instanceof HeldBack.NoWeight && taken && !weighed);
  }

  private static boolean goesWithOrBefore(Pass other, Pass pass) {
    // Of the passes the care of implants comes last, and waits for none of the others.
    return pass == Pass.IMPLANT_CARE ? other == pass : other.compareTo(pass) <= 0;
  }

  private void reportMissing() {
    for (Step step : open) {
      missing.add(step);
      findings.course(
          Rule.WORK,
          "The step " + findings.say().step(step) + ", " + step.insert().name() + ", is missing.");
    }
  }
}
