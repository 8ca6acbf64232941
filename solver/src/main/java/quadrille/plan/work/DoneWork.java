package quadrille.plan.work;

import java.util.Collections;
import java.util.Comparator;
import java.util.Objects;
import java.util.SortedMap;
import java.util.TreeMap;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;

/**
 * Work that has been done, tooth by tooth, so that it holds whatever steps the rest is cut into.
 *
 * @param shares by part: how much of it was done, above 0 and at most 1; what is not named is
 *     undone
 */
public record DoneWork(SortedMap<Part, Double> shares) {

  /** Nothing has been done. */
  public static final DoneWork NONE = new DoneWork(Collections.emptySortedMap());

  public DoneWork {
    shares = Collections.unmodifiableSortedMap(new TreeMap<>(shares));
    shares.forEach(
        (part, share) -> {
          if (!(share > 0 && share <= 1)) {
            throw new IllegalArgumentException(
                "The share done (" + share + ") of " + part + " must be above 0 and at most 1.");
          }
        });
  }

  /** One pass over one aspect of one tooth. */
  public record Part(Tooth tooth, Pass pass, Aspect aspect) implements Comparable<Part> {
    private static final Comparator<Part> ORDER =
        Comparator.comparing(Part::tooth).thenComparing(Part::pass).thenComparing(Part::aspect);

    @Override
    public int compareTo(Part other) {
      return ORDER.compare(this, other);
    }
  }

  /** How much of a part is left, 0 to 1. */
  public double left(Tooth tooth, Pass pass, Aspect aspect) {
    return 1 - Objects.requireNonNull(shares.getOrDefault(new Part(tooth, pass, aspect), 0.0));
  }

  /** Whether something of a tooth's pass is left, on the aspects that a step sweeps. */
  public boolean anyLeft(Tooth tooth, Pass pass, StepAspect aspect) {
    return aspect.aspects().stream().anyMatch(side -> left(tooth, pass, side) > 0);
  }

  /** Whether anything was done in a quadrant. */
  public boolean startedIn(Quadrant quadrant) {
    return shares.keySet().stream().anyMatch(part -> part.tooth().quadrant() == quadrant);
  }

  /** Whether anything was done at a tooth. */
  public boolean startedAt(Tooth tooth) {
    return shares.keySet().stream().anyMatch(part -> part.tooth().equals(tooth));
  }

  /**
   * With some more of a part done: a share of what was left of it.
   *
   * @param share 0 to 1
   */
  public DoneWork plus(Part part, double share) {
    double left = left(part.tooth(), part.pass(), part.aspect());
    // A last sliver below what a clock can show is none.
    double done = share >= 1 ? 1 : 1 - left * (1 - share);
    if (done <= 0) {
      return this;
    }
    SortedMap<Part, Double> more = new TreeMap<>(shares);
    more.put(part, done);
    return new DoneWork(more);
  }
}
