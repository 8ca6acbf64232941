package quadrille.plan.staging;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Area;
import quadrille.plan.bound.LowerBound;
import quadrille.plan.course.Cost;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.Visit;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitTimeline;

/**
 * What a search came to.
 *
 * @param bound what no course of so many visits can cost less than
 * @param hard 0 where every hard rule is kept, else negative
 * @param brokenRules the hard rules that are broken, in their order
 * @param terms the cost, term by term, in seconds
 * @param cutShort whether the search was asked to end before it was done
 */
public record Staged(
    StagingCase staging,
    LowerBound bound,
    List<VisitTimeline> layouts,
    long hard,
    List<HardRule> brokenRules,
    Map<CourseTerm, Long> terms,
    boolean cutShort) {

  /** The same, of a search that was asked to end early. */
  Staged cut() {
    return new Staged(staging, bound, layouts, hard, brokenRules, terms, true);
  }

  /** Whether every hard rule is kept. */
  public boolean feasible() {
    return hard == 0;
  }

  /** Whether no visit is too long. */
  public boolean fits() {
    return layouts.stream().allMatch(layout -> layout.overrunSeconds() == 0);
  }

  /** Whether this keeps more of the hard rules, or as much at a lower cost. */
  boolean betterThan(Staged other) {
    return hard != other.hard ? hard > other.hard : seconds() < other.seconds();
  }

  /** Whether no course of so many visits can cost less. */
  public boolean provenBest() {
    return feasible() && seconds() <= bound.seconds();
  }

  /** The whole cost in seconds. */
  public long seconds() {
    return CourseCost.sum(terms);
  }

  /**
   * The cost with its terms and a bound below which no course of so many visits can cost that keeps
   * every hard rule. A course that breaks one may cost less than the bound, which says nothing of
   * it; it is then given no more than its cost.
   */
  public Cost cost() {
    long least = bound.seconds();
    return new Cost(seconds(), feasible() ? least : Math.min(least, seconds()), terms);
  }

  /** The visits of the course, without sites to watch and cautions. */
  public List<Visit> visits() {
    CourseAssembly assembly = new CourseAssembly(staging);
    List<Visit> visits = new ArrayList<>();
    for (VisitTimeline layout : layouts) {
      visits.add(assembly.visit(visits.size() + 1, layout));
    }
    return visits;
  }

  /** The longest booked length of a visit, in minutes. */
  public int longestBookedMinutes() {
    return layouts.stream().mapToInt(layout -> layout.bookedMinutes(staging)).max().orElse(0);
  }

  /** Numbers of the visits in which an area is worked on, ascending. */
  public SortedSet<Integer> visitsOf(Area area) {
    SortedSet<Integer> numbers = new TreeSet<>();
    StepSet steps = staging.stepsOf(area::equals);
    for (int i = 0; i < layouts.size(); i++) {
      if (!layouts.get(i).set().steps().intersection(steps).isEmpty()) {
        numbers.add(i + 1);
      }
    }
    return numbers;
  }

  /** Which steps each visit would take if all of an area were done in one of them. */
  public List<StepSet> setsWith(Area area, int visit) {
    StepSet steps = staging.stepsOf(area::equals);
    List<StepSet> sets = new ArrayList<>();
    for (int i = 0; i < layouts.size(); i++) {
      StepSet rest = layouts.get(i).set().steps().minus(steps);
      sets.add(i + 1 == visit ? rest.union(steps) : rest);
    }
    return sets;
  }

  /** Which steps each visit takes, by index. */
  public List<StepSet> sets() {
    return layouts.stream().map(layout -> layout.set().steps()).toList();
  }
}
