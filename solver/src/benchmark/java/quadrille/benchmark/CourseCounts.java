package quadrille.benchmark;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.PreparedMouth;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitTimeline;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;
import quadrille.plan.work.UnworkableException;

/** What a careful reader counts in a course. */
final class CourseCounts {
  private static final int SHORT_SECONDS = 300;

  private final Course course;
  private final PreparedMouth mouth;
  private final StagingCase staging;
  private final Staged staged;
  private final Stager stager = new Stager(Effort.QUICK);
  private int shortInjections;
  private int needlessInjections;

  /**
   * @param course of one visit or more
   */
  CourseCounts(PreparedMouth whole, Course course) throws UnworkableException {
    this.course = course;
    this.mouth = whole.cutAs(course);
    this.staging = mouth.inVisits(course.visits().size());
    List<List<Integer>> orders =
        course.visits().stream()
            .map(visit -> visit.steps().stream().map(step -> index(mouth.steps(), step)).toList())
            .toList();
    this.staged = stager.rateAsOrdered(staging, orders);
    for (int visit = 0; visit < course.visits().size(); visit++) {
      if (injections(visit).size() != course.visits().get(visit).injections().size()) {
        throw new IllegalStateException("Read again, the course is another: " + course.caseName());
      }
      for (PlacedInjection injection : injections(visit)) {
        count(visit, injection);
      }
    }
  }

  private static int index(List<Step> steps, Entry.Debride wanted) {
    return IntStream.range(0, steps.size())
        .filter(i -> steps.get(i).area().ref().equals(wanted.area()))
        .filter(i -> steps.get(i).aspect() == wanted.aspect())
        .filter(i -> steps.get(i).pass() == wanted.pass())
        .filter(i -> steps.get(i).teeth().equals(wanted.teeth()))
        .filter(i -> steps.get(i).insert().name().equals(wanted.insert()))
        .findFirst()
        .orElseThrow();
  }

  private List<PlacedInjection> injections(int visit) {
    return staged.layouts().get(visit).dosing().cover().injections();
  }

  /** Areas that are begun in one visit and finished in another. */
  int halfDone() {
    Set<AreaRef> met = new TreeSet<>();
    Set<AreaRef> halfDone = new TreeSet<>();
    for (Visit visit : course.visits()) {
      visit.areas().stream().filter(met::contains).forEach(halfDone::add);
      met.addAll(visit.areas());
    }
    return halfDone.size();
  }

  /** How often a visit comes back to a quadrant that it has left. */
  int returns() {
    int returns = 0;
    for (Visit visit : course.visits()) {
      List<Quadrant> met = new ArrayList<>();
      for (Entry.Debride step : visit.steps()) {
        Quadrant here = step.area().quadrant();
        boolean stays = !met.isEmpty() && met.get(met.size() - 1) == here;
        returns += !stays && met.contains(here) ? 1 : 0;
        met.add(here);
      }
    }
    return returns;
  }

  /** Injections that serve less than five minutes of work. */
  int shortInjections() {
    return shortInjections;
  }

  /**
   * Those of them that could be left out: another visit numbs the same, and could take the areas
   * that they serve, with fewer injections in all.
   */
  int needlessInjections() {
    return needlessInjections;
  }

  private void count(int visit, PlacedInjection injection) {
    VisitTimeline here = staged.layouts().get(visit);
    Set<Target> served = new TreeSet<>();
    Set<AreaRef> areas = new TreeSet<>();
    int seconds = 0;
    for (int index : here.order()) {
      Step step = staging.steps().get(index).step();
      List<Target> targets = step.needs().stream().filter(injection::numbs).toList();
      if (!targets.isEmpty()) {
        served.addAll(targets);
        areas.add(step.area().ref());
        seconds += step.seconds();
      }
    }
    if (seconds >= SHORT_SECONDS) {
      return;
    }
    shortInjections++;
    for (int other = 0; other < staged.layouts().size(); other++) {
      List<PlacedInjection> there = injections(other);
      boolean numb =
          served.stream().allMatch(target -> there.stream().anyMatch(i -> i.numbs(target)));
      if (other != visit && numb && couldTake(visit, other, areas)) {
        needlessInjections++;
        return;
      }
    }
  }

  private boolean couldTake(int from, int to, Set<AreaRef> areas) {
    StepSet moved =
        staging
            .stepsOf(area -> areas.contains(area.ref()))
            .intersection(staged.layouts().get(from).set().steps());
    List<StepSet> sets = new ArrayList<>();
    for (int visit = 0; visit < staged.layouts().size(); visit++) {
      StepSet set = staged.layouts().get(visit).set().steps();
      StepSet after = visit == to ? set.union(moved) : visit == from ? set.minus(moved) : set;
      if (!after.isEmpty()) {
        sets.add(after);
      }
    }
    Staged after = stager.rate(mouth.inVisits(sets.size()), sets);
    int injections =
        after.layouts().stream().mapToInt(layout -> layout.dosing().injections()).sum();
    return after.feasible() && injections < course.injections();
  }
}
