package quadrille.staging;

import java.util.List;
import java.util.Map;

/**
 * What a search came to.
 *
 * @param hard 0 where every hard rule is kept, else negative
 * @param brokenRules names of the hard rules that are broken, sorted
 * @param terms the cost, term by term, in seconds
 */
public record Staged(
    StagingCase staging,
    List<Layout> visits,
    long hard,
    List<String> brokenRules,
    Map<String, Long> terms) {

  /** Whether every hard rule is kept. */
  public boolean feasible() {
    return hard == 0;
  }

  /** The whole cost in seconds. */
  public long cost() {
    return CourseTerms.sum(terms);
  }
}
