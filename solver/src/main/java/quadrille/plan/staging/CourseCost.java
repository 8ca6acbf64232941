package quadrille.plan.staging;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.CourseTerm;
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
  static Map<CourseTerm, Long> of(StagingCase staging, List<VisitTimeline> visits) {
    long chair = 0;
    int longest = 0;
    int quadrants = 0;
    long late = 0;
    int injections = 0;
    int blocks = 0;
    int strong = 0;
    int cartridges = 0;
    int noRoom = 0;
    long returns = 0;
    long order = 0;
    long beforeLook = 0;
    long within = 0;
    for (int i = 0; i < visits.size(); i++) {
      VisitTimeline visit = visits.get(i);
      chair += visit.chairSeconds();
      longest = Math.max(longest, visit.chairSeconds());
      quadrants += visit.set().quadrantsWithFine();
      late += staging.lateCost(visit.set().areasByPass()[Pass.FINE.ordinal()], i);
      injections += visit.dosing().injections();
      blocks += visit.dosing().deepBlocks();
      strong += visit.dosing().strongBlockSeconds();
      cartridges += visit.dosing().cartridges();
      noRoom += visit.dosing().noRoomToRepeat();
      returns += (long) staging.returnSeconds() * visit.returns();
      order += visit.orderSeconds();
      beforeLook += visit.blocksBeforeLookSeconds();
      within += visit.needlesWithinAreaSeconds();
    }
    long[] areas = visits.stream().mapToLong(visit -> visit.set().areas()).toArray();
    Map<CourseTerm, Long> terms = new EnumMap<>(CourseTerm.class);
    terms.put(CourseTerm.CHAIR_TIME, chair);
    terms.put(CourseTerm.BALANCE, staging.balanceCost(longest - (double) chair / visits.size()));
    terms.put(CourseTerm.SPLIT_QUADRANT, staging.splitCost(quadrants));
    terms.put(CourseTerm.WORST_AREAS_LATE, late);
    terms.put(CourseTerm.INJECTIONS, staging.injectionCost(injections, blocks, strong));
    terms.put(CourseTerm.CARTRIDGES, staging.cartridgeCost(cartridges));
    terms.put(CourseTerm.NO_ROOM_TO_REPEAT, staging.noRoomCost(noRoom));
    terms.put(CourseTerm.RETURNS, returns);
    terms.put(CourseTerm.WORST_FIRST, order - returns - beforeLook - within);
    terms.put(CourseTerm.LEFT_OPEN, staging.leftOpenCost(areas));
    terms.put(CourseTerm.BLOCKS_BEFORE_LOOK, beforeLook);
    terms.put(CourseTerm.NEEDLES_WITHIN_AREA, within);
    terms.put(CourseTerm.VISITS, staging.visitCost(visits.size()));
    if (!staging.patient().wishes().isEmpty()) {
      terms.put(CourseTerm.WISHES, staging.wishes().cost(areas));
    }
    return terms;
  }

  static long sum(Map<CourseTerm, Long> terms) {
    return terms.values().stream().mapToLong(Long::longValue).sum();
  }
}
