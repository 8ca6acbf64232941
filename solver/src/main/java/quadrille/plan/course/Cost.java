package quadrille.plan.course;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * What a course costs, in seconds of chair time.
 *
 * @param seconds the sum of the terms
 * @param lowerBoundSeconds no course of this many visits can cost less
 * @param provenBest whether it is said that none costs less, as where the cost meets the bound
 * @param terms in the order of the rule book; a term of nothing may be left out
 */
public record Cost(
    long seconds, long lowerBoundSeconds, boolean provenBest, Map<CourseTerm, Long> terms) {

  public Cost {
    Map<CourseTerm, Long> ordered = new EnumMap<>(CourseTerm.class);
    ordered.putAll(terms);
    terms = Collections.unmodifiableMap(ordered);
  }

  /** A cost that is proven best where it meets its lower bound. */
  public Cost(long seconds, long lowerBoundSeconds, Map<CourseTerm, Long> terms) {
    this(seconds, lowerBoundSeconds, seconds <= lowerBoundSeconds, terms);
  }
}
