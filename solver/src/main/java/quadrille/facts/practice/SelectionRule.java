package quadrille.facts.practice;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Quadrant;

/**
 * One row of the insert selection table. Rows are tried in order; the first whose condition holds
 * decides.
 *
 * @param name a short name that plans quote
 * @param scope whether the condition is read for the whole aspect of an area (deepest site, worst
 *     deposit, any feature) or tooth by tooth
 * @param pass the pass it is for
 * @param when the condition
 * @param use names of inserts, best first; the first one owned, and allowed for the pass and the
 *     power, is taken
 * @param power the power level to use; none where the row is for work by hand
 * @param because the reason in a few words
 * @param source how the rule is known
 */
public record SelectionRule(
    String name,
    Scope scope,
    Pass pass,
    When when,
    List<String> use,
    Power power,
    String because,
    String source) {

  /** Whether it is for work by hand. */
  public boolean byHand() {
    return power == Power.NONE;
  }

  /** What a condition is read against. */
  public enum Scope {
    AREA("area"),
    TOOTH("tooth");

    private final String word;

    Scope(String word) {
      this.word = word;
    }

    /** As written in files. */
    public String word() {
      return word;
    }
  }

  /**
   * A condition; what is empty or null does not restrict.
   *
   * @param quadrants the quadrants it holds in
   * @param posterior true for premolars and molars, false for canine and incisors
   * @param aspects the aspects it holds for
   * @param deposits the deposit grades it holds for
   * @param depthAtLeastMm deepest site, at or above
   * @param depthBelowMm deepest site, below
   * @param furcationAtLeast worst furcation, at or above, 1 to 3
   * @param anyFeature at least one of these
   */
  public record When(
      Set<Quadrant> quadrants,
      @Nullable Boolean posterior,
      Set<Aspect> aspects,
      Set<Deposit> deposits,
      @Nullable Integer depthAtLeastMm,
      @Nullable Integer depthBelowMm,
      @Nullable Integer furcationAtLeast,
      Set<Feature> anyFeature) {}
}
