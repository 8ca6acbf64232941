package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.RuleVersion;
import quadrille.plan.course.Before;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.work.Step;
import quadrille.plan.work.Unworkable;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkPlanner;

/**
 * Reads a finished course a second time, against the chart and the practice, and lists what it
 * breaks. An empty list means that no rule known here is broken; it clears no patient.
 *
 * <p>Numbness, doses, clock, booking and cost are worked out anew from the plain facts; of the
 * planning, only the list of steps with their inserts and seconds is shared. One fault gives one
 * finding, as far as that can be told: what merely follows from a finding is not listed again.
 *
 * <p>A plan that does not say by which rule it dealt the passes of an area to visits was made
 * before there was one, and is not held to it ({@link #heldToFinish}). It is read by the rules of
 * its release ({@link Course#rules}), and so against the practice as that release had it ({@link
 * quadrille.facts.practice.PracticeReader#defaults(RuleVersion)}).
 */
public final class Audit {

  private Audit() {}

  /** Audits a course. */
  public static List<Finding> audit(Course course, Chart chart, Practice practice) {
    return audit(course, null, Before.NOTHING, false, chart, practice);
  }

  /**
   * Audits a course that carries on another.
   *
   * @param before what was done and given before its first visit
   */
  public static List<Finding> audit(Course course, Before before, Chart chart, Practice practice) {
    return audit(course, null, before, true, chart, practice);
  }

  /** Audits a plan file: its course, and the sums that it states beside it. */
  public static List<Finding> audit(PlanFile plan, Chart chart, Practice practice) {
    return audit(plan.course(), plan, Before.NOTHING, false, chart, practice);
  }

  /**
   * Audits a plan file of a course that carries on another.
   *
   * @param before what was done and given before its first visit
   */
  public static List<Finding> audit(PlanFile plan, Before before, Chart chart, Practice practice) {
    return audit(plan.course(), plan, before, true, chart, practice);
  }

  /** Whether a course is held to finish in one visit what it begins there (H11). */
  public static boolean heldToFinish(Course course) {
    return course.passesTogether() != null && !course.grossFirst();
  }

  private static List<Finding> audit(
      Course course,
      @Nullable PlanFile plan,
      Before before,
      boolean carriesOn,
      Chart chart,
      Practice practice) {
    Findings findings = new Findings(course, chart.numbering());
    List<Wish> kept = course.wishes().stream().map(WishOutcome::asKept).toList();
    Chart wished = chart.withPatient(chart.patient().withWishes(kept));
    Facts facts = new Facts(wished, practice);
    List<Step> work;
    try {
      List<Area> areas = PlanAreas.of(chart, areas(course), findings);
      work = WorkPlanner.plan(wished, practice, areas, before.work()).steps();
    } catch (UnworkableException unworkable) {
      for (Unworkable one : unworkable.work()) {
        findings.course(Rule.WORK, unworkable(one, findings.say()));
      }
      return findings.list();
    }

    WorkCheck steps = WorkCheck.of(course, facts, work, findings);
    List<VisitParts> visits = new ArrayList<>();
    List<Done> done = new ArrayList<>();
    Set<Integer> soundClocks = new TreeSet<>();
    for (int i = 0; i < course.visits().size(); i++) {
      Visit visit = course.visits().get(i);
      List<Done> some = steps.done().get(i);
      done.addAll(some);
      VisitParts reading = VisitParts.of(i + 1, visit, some, practice, findings);
      visits.add(reading);
      boolean opens = i == 0 && before.visits().isEmpty();
      boolean sound =
          ClockCheck.holds(
              reading,
              facts,
              FrameCheck.due(facts, opens, i == course.visits().size() - 1),
              OpeningCheck.numbFirst(facts),
              findings);
      if (sound) {
        soundClocks.add(reading.place());
      }
      OpeningCheck.check(reading, facts, sound, findings);
      NumbCheck.check(reading, facts, sound, steps.missing(), findings);
    }
    if (!visits.isEmpty()) {
      NumbCheck.checkDay(visits.get(0), before, facts, findings);
    }
    List<Step> awaitingChart =
        steps.heldBack().stream().filter(step -> facts.waitsForChart(step, work)).toList();
    OrderCheck.check(
        course, done, steps.heldBack(), awaitingChart, practice.appointments(), findings);
    ToolCheck.check(course, visits, before, facts, findings);
    DoneCheck.check(visits, before, carriesOn, findings);
    DoseCheck.check(course, visits, before, facts, findings);
    List<Step> due = new ArrayList<>(work);
    due.removeAll(steps.heldBack());
    CourseCheck.check(course, visits, due, before, facts, findings);
    WishCheck.check(course, visits, chart.patient().wishes(), carriesOn, facts, findings);
    // Plans of the first rules had no place for what is asked.
    if (course.rules() != RuleVersion.FIRST) {
      CourseCheck.checkStopQuestions(course, facts, findings);
    }
    ReportCheck report =
        new ReportCheck(course, visits, soundClocks, steps.sound(), due, facts, findings);
    report.check();
    if (plan != null) {
      report.checkSums(plan);
    }
    return findings.list();
  }

  private static String unworkable(Unworkable work, Say say) {
    return say.area(work.area().ref())
        + ", "
        + work.pass().word()
        + ", "
        + work.aspect().word()
        + " ("
        + say.teeth(work.teeth())
        + "): the practice owns no insert that may be used.";
  }

  private static SortedSet<AreaRef> areas(Course course) {
    SortedSet<AreaRef> areas = new TreeSet<>();
    for (Visit visit : course.visits()) {
      for (Entry.Debride entry : visit.steps()) {
        areas.add(entry.area());
      }
    }
    for (HeldBack held : course.heldBack()) {
      areas.add(held.area());
    }
    return areas;
  }
}
