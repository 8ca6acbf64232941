package quadrille.staging;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import quadrille.course.Cost;
import quadrille.course.Visit;

/**
 * What a search came to.
 *
 * @param hard 0 where every hard rule is kept, else negative
 * @param brokenRules names of the hard rules that are broken, sorted
 * @param terms the cost, term by term, in seconds
 */
public record Staged(
    StagingCase staging,
    List<Layout> layouts,
    long hard,
    List<String> brokenRules,
    Map<String, Long> terms) {

  /** Whether every hard rule is kept. */
  public boolean feasible() {
    return hard == 0;
  }

  /** The whole cost in seconds. */
  public long seconds() {
    return CourseTerms.sum(terms);
  }

  /** The cost with its terms and a bound below which no course of so many visits can cost. */
  public Cost cost() {
    return new Cost(seconds(), LowerBound.of(staging), terms);
  }

  /** The visits of the course, without sites to watch and cautions. */
  public List<Visit> visits() {
    CourseAssembly assembly = new CourseAssembly(staging);
    List<Visit> visits = new ArrayList<>();
    for (Layout layout : layouts) {
      visits.add(assembly.visit(visits.size() + 1, layout));
    }
    return visits;
  }

  /** Which steps each visit takes, by index. */
  public List<StepSet> sets() {
    return layouts.stream().map(layout -> layout.set().steps()).toList();
  }
}
