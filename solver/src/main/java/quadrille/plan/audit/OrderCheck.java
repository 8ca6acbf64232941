package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;
import quadrille.plan.course.Course;
import quadrille.plan.work.Step;

/** H5, H6 and H11: the order of an area's passes, and what lies in one visit. */
final class OrderCheck {

  private static final List<Pass> ORDER = List.of(Pass.GROSS, Pass.FINE, Pass.FINISHING);

  private OrderCheck() {}

  /**
   * @param awaitingChart of what is held back, what may be left open in an area that is begun
   */
  static void check(
      Course course,
      List<Done> done,
      List<Step> heldBack,
      List<Step> awaitingChart,
      Appointments appointments,
      Findings findings) {
    checkRule(course, appointments, findings);
    if (course.grossFirst()) {
      checkGrossFirst(done, findings);
    }
    boolean finish = Audit.heldToFinish(course);
    Map<AreaRef, List<Done>> byArea = new TreeMap<>();
    for (Done one : done) {
      Step step = one.step();
      if (step != null) {
        byArea.computeIfAbsent(step.area().ref(), name -> new ArrayList<>()).add(one);
      }
    }
    byArea.forEach(
        (area, steps) -> {
          boolean sound = !splitPass(steps);
          checkTogether(area, steps, findings);
          sound &= checkOrder(area, steps, heldBack, findings);
          if (sound && finish) {
            List<Step> held = new ArrayList<>(heldBack);
            held.removeAll(awaitingChart);
            checkFinished(course.gapLeastDays(), area, steps, held, appointments, findings);
          }
        });
  }

  /** The rule that the plan says it was made by is the practice's. */
  private static void checkRule(Course course, Appointments appointments, Findings findings) {
    PassesTogether stated = course.passesTogether();
    PassesTogether right =
        course.grossFirst() ? PassesTogether.FREE : appointments.passesTogether();
    if (stated != null && !stated.equals(right)) {
      findings.course(
          Rule.REPORT,
          "The plan states as rule for the passes of an area "
              + stated.word()
              + "; asked for: "
              + right.word()
              + ".");
    }
  }

  private static void checkGrossFirst(List<Done> done, Findings findings) {
    Done first = null;
    for (Done one : done) {
      boolean later = is(one.step(), Pass.FINE) || is(one.step(), Pass.FINISHING);
      if (first == null && later) {
        first = one;
      }
      if (first != null && is(one.step(), Pass.GROSS)) {
        findings.visit(
            Rule.H5,
            first.place(),
            "A later pass starts before the gross pass of the whole mouth has ended, which was to"
                + " come first.");
        return;
      }
    }
  }

  private static void checkTogether(AreaRef area, List<Done> steps, Findings findings) {
    for (Pass pass : Pass.values()) {
      TreeSet<Integer> visits = new TreeSet<>();
      of(pass, steps).forEach(step -> visits.add(step.place()));
      if (visits.size() > 1) {
        findings.course(
            Rule.H6,
            "The "
                + pass.word()
                + " pass of "
                + findings.say().area(area)
                + " is split over the visits "
                + Say.list(visits.stream().map(String::valueOf).toList())
                + ".");
      }
    }
  }

  /** H11, by the visits and gaps that the plan has, not by when they are booked. */
  private static void checkFinished(
      int gap,
      AreaRef area,
      List<Done> steps,
      List<Step> heldBack,
      Appointments appointments,
      Findings findings) {
    Integer days = appointments.passesTogether().days();
    if (days == null) {
      return;
    }
    int first = steps.stream().mapToInt(Done::place).min().orElse(0);
    int last = steps.stream().mapToInt(Done::place).max().orElse(0);
    boolean split = first != last;
    if (days == 0 && heldBack.stream().anyMatch(step -> step.area().ref().equals(area))) {
      findings.visit(
          Rule.H11,
          first,
          "Work begins in " + findings.say().area(area) + ", of which a part is held back.");
    } else if (split && (days == 0 || (last - first) * gap > days)) {
      findings.course(
          Rule.H11,
          "The passes of "
              + findings.say().area(area)
              + " lie in the visits "
              + first
              + " to "
              + last
              + (days == 0 ? ", not in one." : ", which take more than " + days + " days."));
    }
  }

  /** Whether one pass is split, which is a finding of its own. */
  private static boolean splitPass(List<Done> steps) {
    return Arrays.stream(Pass.values())
        .anyMatch(pass -> of(pass, steps).stream().map(Done::place).distinct().count() > 1);
  }

  /** Whether it is in order. */
  private static boolean checkOrder(
      AreaRef area, List<Done> steps, List<Step> heldBack, Findings findings) {
    for (int late = 1; late < ORDER.size(); late++) {
      List<Done> later = of(ORDER.get(late), steps);
      if (later.isEmpty()) {
        continue;
      }
      Done first = later.get(0);
      for (int early = 0; early < late; early++) {
        Pass pass = ORDER.get(early);
        boolean held =
            heldBack.stream()
                .anyMatch(step -> step.area().ref().equals(area) && step.pass() == pass);
        Done last = of(pass, steps).stream().reduce((one, next) -> next).orElse(null);
        if (held || last != null && before(first, last)) {
          findings.visit(
              Rule.H5,
              first.place(),
              "In "
                  + findings.say().area(area)
                  + " the "
                  + ORDER.get(late).word()
                  + " pass starts before the "
                  + pass.word()
                  + " pass "
                  + (held ? "is done, which is held back." : "has ended."));
          return false;
        }
      }
    }
    return true;
  }

  /** In the order of the course. */
  private static List<Done> of(Pass pass, List<Done> steps) {
    return steps.stream().filter(done -> is(done.step(), pass)).toList();
  }

  private static boolean is(@org.jspecify.annotations.Nullable Step step, Pass pass) {
    return step != null && step.pass() == pass;
  }

  private static boolean before(Done one, Done other) {
    return one.place() < other.place()
        || one.place() == other.place() && one.index() < other.index();
  }
}
