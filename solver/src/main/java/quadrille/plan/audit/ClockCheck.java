package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Entry;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/** The minutes of one visit. */
final class ClockCheck {

  private final VisitParts visit;
  private final Facts facts;
  private final Practice practice;
  private final List<Frame.Task> frame;
  private final boolean numbFirst;
  private final Say say;
  private final List<String> faults = new ArrayList<>();

  private ClockCheck(
      VisitParts visit, Facts facts, List<Frame.Task> frame, boolean numbFirst, Say say) {
    this.visit = visit;
    this.facts = facts;
    this.practice = facts.practice();
    this.frame = frame;
    this.numbFirst = numbFirst;
    this.say = say;
  }

  /**
   * Reports what is wrong; answers whether the visit's clock holds.
   *
   * @param frame what is due around the work, in order
   * @param numbFirst whether nothing is touched before it is numb
   */
  static boolean holds(
      VisitParts visit, Facts facts, List<Frame.Task> frame, boolean numbFirst, Findings findings) {
    ClockCheck check = new ClockCheck(visit, facts, frame, numbFirst, findings.say());
    check.checkEnds();
    check.checkFrame();
    check.checkLengths();
    check.checkBetweenSteps();
    if (check.faults.isEmpty()) {
      // An entry of the wrong length also leaves a gap; one finding is enough for both.
      check.checkJoints();
    }
    check.faults.forEach(fault -> findings.visit(Rule.CLOCK, visit.place(), fault));
    boolean timed = visit.shots().stream().allMatch(shot -> shot.entry() != null);
    return check.faults.isEmpty() && timed;
  }

  private List<Entry> sequence() {
    return visit.visit().sequence();
  }

  private Minutes minutes() {
    return practice.minutes();
  }

  private void checkEnds() {
    int setUp = wholeSeconds(minutes().setUpMinutes().value());
    int close = wholeSeconds(minutes().closeMinutes().value());
    int last = sequence().size() - 1;
    checkEnd("set-up", Entry.SetUp.class, setUp, 0, "starts");
    checkEnd("close", Entry.Close.class, close, last, "ends");
  }

  private void checkEnd(String what, Class<? extends Entry> type, int due, int index, String verb) {
    List<Integer> at = new ArrayList<>();
    for (int i = 0; i < sequence().size(); i++) {
      if (type.isInstance(sequence().get(i))) {
        at.add(i);
      }
    }
    List<Integer> wanted = due == 0 ? List.of() : List.of(index);
    if (!at.equals(wanted)) {
      faults.add(
          due == 0
              ? "The visit has a " + what + ", for which the practice takes no time."
              : "The visit must have one " + what + ", with which it " + verb + ".");
    } else if (due > 0) {
      checkLength("The " + what, sequence().get(index), due);
    }
  }

  /** All of the frame that is due and nothing else, in order, each part where it belongs. */
  private void checkFrame() {
    List<Frame.Task> found = new ArrayList<>();
    boolean worked = false;
    for (Entry entry : sequence()) {
      if (entry instanceof Entry.OfFrame part) {
        found.add(part.task());
        checkLength("The " + part.kind().word(), part, practice.frame().seconds(part.task()));
        boolean after = practice.frame().afterWork(part.task());
        if (worked != after && !visit.done().isEmpty()) {
          faults.add(
              "The "
                  + part.kind().word()
                  + " at minute "
                  + Say.minutes(part.startSecond())
                  + " comes "
                  + (after ? "before" : "after")
                  + " the work has begun.");
        }
      } else {
        worked |= !(entry instanceof Entry.SetUp || entry instanceof Entry.Close);
      }
    }
    if (!found.equals(frame)) {
      faults.add(
          "Around the work are due " + words(frame) + ", but the visit has " + words(found) + ".");
    }
  }

  private static String words(List<Frame.Task> tasks) {
    return tasks.isEmpty() ? "nothing" : Say.list(tasks.stream().map(Frame.Task::word).toList());
  }

  private void checkLengths() {
    for (Shot shot : visit.shots()) {
      Entry.Inject entry = shot.entry();
      if (entry != null) {
        checkLength("The injection " + say.injection(shot.given().ref()), entry, giveSeconds(shot));
      }
    }
    for (Entry entry : sequence()) {
      if (entry instanceof Entry.Look) {
        checkLength("The look", entry, wholeSeconds(minutes().lookMinutes().value()));
      }
    }
    for (GelUse use : visit.gels()) {
      checkLength(use.words(say), use.entry(), practice.gel().applySeconds().asInt());
    }
    for (Done done : visit.done()) {
      Step step = done.step();
      if (step != null) {
        checkLength("The step " + done.words(say), done.entry(), step.seconds());
      }
    }
  }

  private int giveSeconds(Shot shot) {
    Injection kind = shot.kind();
    Figure own = kind == null ? null : kind.mlPerMinute();
    double rate = (own == null ? practice.numbing().mlPerMinute() : own).value();
    return (int) Math.round(60 * shot.given().ml() / rate)
        + practice.numbing().handlingSeconds().asInt();
  }

  private void checkLength(String what, Entry entry, int due) {
    if (entry.seconds() != due) {
      faults.add(
          what
              + " at minute "
              + Say.minutes(entry.startSecond())
              + " takes "
              + entry.seconds()
              + " s, but "
              + due
              + " s are due.");
    }
  }

  private void checkBetweenSteps() {
    Done before = null;
    int from = 0;
    for (Done done : visit.done()) {
      checkGap(before, from, done, done.index());
      before = done;
      from = done.index() + 1;
    }
    checkGap(before, from, null, sequence().size());
  }

  private void checkGap(@Nullable Done before, int from, @Nullable Done after, int to) {
    List<Entry> tips = new ArrayList<>();
    List<Entry> moves = new ArrayList<>();
    List<Entry> probes = new ArrayList<>();
    for (Entry entry : sequence().subList(from, to)) {
      if (entry instanceof Entry.ChangeTip tip) {
        tips.add(tip);
        checkTip(tip, after);
      } else if (entry.kind() == Entry.Kind.REPOSITION) {
        moves.add(entry);
        checkMove(entry, after);
      } else if (entry.kind() == Entry.Kind.WAIT) {
        checkWait(entry, after);
      } else if (entry instanceof Entry.Probe probe) {
        probes.add(probe);
        checkProbe(probe, after);
      }
    }
    String where = after == null ? "after the last step" : "before the step " + after.words(say);
    checkCount("tip change", tips, dueTips(before, after), where);
    checkCount("charting", probes, Set.of(dueCharting(after)), where);
    checkCount("repositioning", moves, dueMoves(before, after), where);
  }

  private void checkTip(Entry.ChangeTip tip, @Nullable Done after) {
    if (after == null) {
      return;
    }
    Step step = after.step();
    boolean fits =
        tip.to().equals(after.entry().insert())
            || step != null && tip.to().equals(step.insert().name());
    if (!fits) {
      faults.add(
          "The tip change at minute "
              + Say.minutes(tip.startSecond())
              + " is to "
              + tip.to()
              + ", but the step after it uses "
              + after.entry().insert()
              + ".");
    }
  }

  /** Seconds due, as the plan has its steps or as the work has them; 0 for none. */
  private Set<Integer> dueTips(@Nullable Done before, @Nullable Done after) {
    Set<Integer> due = new TreeSet<>();
    if (before == null || after == null) {
      due.add(0);
      return due;
    }
    int change = minutes().tipChangeSeconds().asInt();
    for (String one : insertsOf(before)) {
      for (String other : insertsOf(after)) {
        due.add(one.equals(other) || (hand(one) && hand(other)) ? 0 : change);
      }
    }
    return due;
  }

  private boolean hand(String name) {
    Insert insert = practice.inserts().get(name);
    return insert != null && insert.hand();
  }

  private static List<String> insertsOf(Done done) {
    Step step = done.step();
    return step == null
        ? List.of(done.entry().insert())
        : List.of(done.entry().insert(), step.insert().name());
  }

  private record Spot(AreaRef area, StepAspect aspect) {}

  private static List<Spot> spotsOf(Done done) {
    Spot stated = new Spot(done.entry().area(), done.entry().aspect());
    Step step = done.step();
    return step == null
        ? List.of(stated)
        : List.of(stated, new Spot(step.area().ref(), step.aspect()));
  }

  private Set<Integer> dueMoves(@Nullable Done before, @Nullable Done after) {
    Set<Integer> due = new TreeSet<>();
    if (before == null || after == null) {
      due.add(0);
      return due;
    }
    for (Spot one : spotsOf(before)) {
      for (Spot other : spotsOf(after)) {
        if (!one.area().equals(other.area())) {
          due.add(minutes().repositionAreaSeconds().asInt());
        } else {
          boolean same = one.aspect() == other.aspect();
          due.add(same ? 0 : minutes().repositionAspectSeconds().asInt());
        }
      }
    }
    return due;
  }

  /**
   * What is charted before a step: its teeth with sites not probed, before a fine pass. At the end
   * of a visit, where too much is unprobed: those of each area that had its gross pass.
   */
  private int dueCharting(@Nullable Done after) {
    boolean first = facts.chartFirst();
    if (after != null) {
      Step step = after.step();
      return first || step == null || step.pass() != Pass.FINE
          ? 0
          : facts.chartSeconds(facts.unprobedAspects(step.teeth(), step.aspect()));
    }
    return first
        ? grossAreas().stream()
            .mapToInt(
                area -> facts.chartSeconds(facts.unprobedAspects(area.teeth(), StepAspect.BOTH)))
            .sum()
        : 0;
  }

  private List<Area> grossAreas() {
    return visit.done().stream()
        .map(Done::step)
        .filter(step -> step != null && step.pass() == Pass.GROSS)
        .map(step -> Objects.requireNonNull(step).area())
        .distinct()
        .sorted(Area.order())
        .toList();
  }

  private void checkProbe(Entry.Probe probe, @Nullable Done after) {
    List<AreaRef> due =
        after == null
            ? grossAreas().stream()
                .filter(area -> facts.unprobedAspects(area.teeth(), StepAspect.BOTH) > 0)
                .map(Area::ref)
                .sorted()
                .toList()
            : List.of(after.entry().area());
    StepAspect aspect = after == null ? StepAspect.BOTH : after.entry().aspect();
    if (!probe.areas().equals(due) || probe.aspect() != aspect) {
      faults.add(
          "The charting at minute "
              + Say.minutes(probe.startSecond())
              + " is of "
              + Say.list(probe.areas().stream().map(say::area).toList())
              + " "
              + probe.aspect().word()
              + ", but due is "
              + Say.list(due.stream().map(say::area).toList())
              + " "
              + aspect.word()
              + ".");
    }
  }

  private void checkMove(Entry entry, @Nullable Done after) {
    if (entry instanceof Entry.Reposition move
        && after != null
        && !spotsOf(after).contains(new Spot(move.area(), move.aspect()))) {
      faults.add(
          "The move at minute "
              + Say.minutes(move.startSecond())
              + " is to "
              + say.area(move.area())
              + " "
              + move.aspect().word()
              + ", but the step after it is "
              + after.words(say)
              + ".");
    }
  }

  private void checkCount(String what, List<Entry> found, Set<Integer> due, String where) {
    int seconds = found.stream().mapToInt(Entry::seconds).sum();
    if (found.size() > 1 || !due.contains(seconds)) {
      faults.add(
          "The "
              + what
              + " "
              + where
              + " takes "
              + seconds
              + " s, but "
              + Say.list(due.stream().map(String::valueOf).toList())
              + " s are due.");
    }
  }

  /** A wait ends no later than the last numbness that the next step may be waiting for. */
  private void checkWait(Entry entry, @Nullable Done after) {
    double latest = Double.NEGATIVE_INFINITY;
    if (after != null) {
      GelUse gel = visit.gel(after);
      if (gel != null) {
        latest = gel.entry().endSecond() + practice.gel().onsetSeconds().value();
      }
      for (Shot shot : visit.shots()) {
        for (Target target : awaits(after)) {
          if (shot.known() && shot.numbs(target)) {
            latest = Math.max(latest, shot.readySecond(target));
          } else if (!shot.known()) {
            return;
          }
        }
      }
    }
    if (entry.endSecond() >= latest + 1) {
      faults.add(
          "The wait at minute "
              + Say.minutes(entry.startSecond())
              + (latest < entry.startSecond()
                  ? " waits for nothing."
                  : " goes on until minute "
                      + Say.minutes(entry.endSecond())
                      + ", but all is numb at minute "
                      + Say.minutes(latest)
                      + "."));
    } else if (entry instanceof Entry.Wait one && after != null && !awaited(one, after)) {
      faults.add(
          "The wait at minute "
              + Say.minutes(entry.startSecond())
              + " is for something else than what the step "
              + after.words(say)
              + " waits for.");
    }
  }

  private Set<Target> awaits(Done step) {
    return numbFirst ? visit.needsIn(step.entry().area().quadrant()) : step.needs();
  }

  /** Whether a wait is for what the next step needs, and names all that is not numb yet. */
  private boolean awaited(Entry.Wait wait, Done after) {
    if (!(wait.awaited() instanceof Awaited.Numbness numbness)) {
      return wait.awaited().equals(new Awaited.Gel(practice.gel().name()))
          && visit.gel(after) != null;
    }
    Set<Quadrant> serving = EnumSet.noneOf(Quadrant.class);
    boolean all = true;
    for (Target target : awaits(after)) {
      boolean ready = false;
      boolean named = false;
      for (Shot shot : visit.shots()) {
        if (shot.numbs(target)) {
          serving.add(shot.given().quadrant());
          ready |= shot.readySecond(target) <= wait.startSecond();
          named |= numbness.quadrants().contains(shot.given().quadrant());
        }
      }
      all &= ready || named;
    }
    return all && serving.containsAll(numbness.quadrants());
  }

  private void checkJoints() {
    int end = 0;
    for (Entry entry : sequence()) {
      if (entry.startSecond() != end) {
        faults.add(
            "The "
                + entry.kind().word()
                + " entry starts at minute "
                + Say.minutes(entry.startSecond())
                + ", but the one before it ends at minute "
                + Say.minutes(end)
                + ".");
        return;
      }
      end = entry.endSecond();
    }
  }

  private static int wholeSeconds(double minutes) {
    return (int) Math.round(60 * minutes);
  }
}
