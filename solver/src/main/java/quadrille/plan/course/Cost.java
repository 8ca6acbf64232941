package quadrille.plan.course;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What a course costs, in seconds of chair time.
 *
 * @param seconds the sum of the terms
 * @param lowerBoundSeconds no course of this many visits can cost less
 * @param provenBest whether it is said that none costs less, as where the cost meets the bound
 * @param terms by name, in the order of the rule book
 */
public record Cost(
    long seconds, long lowerBoundSeconds, boolean provenBest, Map<String, Long> terms) {

  public Cost {
    terms = Collections.unmodifiableMap(new LinkedHashMap<>(terms));
  }

  /** A cost that is proven best where it meets its lower bound. */
  public Cost(long seconds, long lowerBoundSeconds, Map<String, Long> terms) {
    this(seconds, lowerBoundSeconds, seconds <= lowerBoundSeconds, terms);
  }
}
