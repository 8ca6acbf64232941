package quadrille.plan.work;

import java.util.Comparator;
import quadrille.facts.chart.Tooth;

/**
 * One thing that must be numb: a pulp, the spared root of an upper first molar, or the gingiva of
 * one aspect.
 */
public record Target(Tooth tooth, Kind kind) implements Comparable<Target> {

  private static final Comparator<Target> ORDER =
      Comparator.comparing(Target::tooth).thenComparing(Target::kind);

  /** What of a tooth must be numb. */
  public enum Kind {
    PULP,
    /**
     * The mesiobuccal root of an upper first molar, which the posterior superior alveolar block may
     * spare.
     */
    MESIOBUCCAL_ROOT,
    /** Facial gingiva. */
    FACIAL,
    /** Lingual or palatal gingiva. */
    LINGUAL;

    /** Whether pulp rather than soft tissue. */
    public boolean pulpal() {
      return this == PULP || this == MESIOBUCCAL_ROOT;
    }
  }

  @Override
  public int compareTo(Target other) {
    return ORDER.compare(this, other);
  }
}
