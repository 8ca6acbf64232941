package quadrille.course;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What a course costs, in seconds of chair time.
 *
 * @param seconds the sum of the terms
 * @param lowerBoundSeconds no course of this many visits can cost less
 * @param terms by name, in the order of the rule book
 */
public record Cost(long seconds, long lowerBoundSeconds, Map<String, Long> terms) {

  public Cost {
    terms = Collections.unmodifiableMap(new LinkedHashMap<>(terms));
  }
}
