package quadrille.plan.staging;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.facts.practice.Pass;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.VisitTimeline;

/**
 * The cost of a course term by term, reckoned from its visits; the same figures that the rule book
 * gives, which a test holds it to. Plans show these, so that they do not hang on how the solver
 * explains itself.
 */
final class CourseCost {

  private CourseCost() {}

  /**
   * @param visits in order; the first has number 1
   */
  static Map<String, Long> of(StagingCase staging, List<VisitTimeline> visits) {
    long chair = 0;
    int longest = 0;
    int quadrants = 0;
    long late = 0;
    int injections = 0;
    int cartridges = 0;
    for (int i = 0; i < visits.size(); i++) {
      VisitTimeline visit = visits.get(i);
      chair += visit.chairSeconds();
      longest = Math.max(longest, visit.chairSeconds());
      quadrants += visit.set().quadrantsWithFine();
      late += staging.lateCost(visit.set().areasByPass()[Pass.FINE.ordinal()], i);
      injections += visit.set().injections();
      cartridges += visit.dosing().cartridges();
    }
    Map<String, Long> terms = new LinkedHashMap<>();
    terms.put("chair time", chair);
    terms.put("balance", staging.balanceCost(longest - (double) chair / visits.size()));
    terms.put("split quadrant", staging.splitCost(quadrants));
    terms.put("worst areas late", late);
    terms.put("injections", staging.injectionCost(injections));
    terms.put("cartridges", staging.cartridgeCost(cartridges));
    return terms;
  }

  static long sum(Map<String, Long> terms) {
    return terms.values().stream().mapToLong(Long::longValue).sum();
  }
}
