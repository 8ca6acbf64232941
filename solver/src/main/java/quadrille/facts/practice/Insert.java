package quadrille.facts.practice;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/**
 * An ultrasonic insert that the practice owns, or a set of hand instruments.
 *
 * @param name a description in plain words, such as {@code slim curved right}
 * @param passes the passes it may be used for
 * @param powers the power levels it may be run at
 * @param sterileSets how many sterilised ones are ready at the start of a day, 1 or more
 * @param source what the allowed use rests on
 */
public record Insert(
    String name,
    InsertClass insertClass,
    Shank shank,
    Set<Pass> passes,
    Set<Power> powers,
    int sterileSets,
    String source) {

  public Insert {
    passes = passes.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(passes));
    powers = powers.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(powers));
  }

  /** Whether this is the sleeved insert, the only one of the unit that may touch an implant. */
  public boolean sleeved() {
    return insertClass == InsertClass.SLEEVED;
  }

  /** Whether it is worked with by hand, without the unit. */
  public boolean hand() {
    return insertClass.hand();
  }

  /** Whether it may touch implants, and nothing else. */
  public boolean forImplants() {
    return insertClass.forImplants();
  }
}
