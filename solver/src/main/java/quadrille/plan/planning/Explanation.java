package quadrille.plan.planning;

import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.HardRule;

/**
 * Why each area of a course is where it is. Worked out when first asked for, since it takes about
 * as long as planning; for use by one thread.
 */
public final class Explanation {
  private final Supplier<List<OfArea>> source;
  private @Nullable List<OfArea> areas;

  private Explanation(Supplier<List<OfArea>> source) {
    this.source = source;
  }

  /** An explanation that says nothing. */
  static Explanation none() {
    return new Explanation(List::of);
  }

  /** An explanation that is worked out when asked for. */
  static Explanation later(Supplier<List<OfArea>> source) {
    return new Explanation(source);
  }

  /**
   * One area.
   *
   * @param visits numbers of the visits in which it is worked on
   * @param elsewhere what each other visit would come to
   */
  public record OfArea(Area area, SortedSet<Integer> visits, List<Elsewhere> elsewhere) {
    public OfArea {
      elsewhere = List.copyOf(elsewhere);
    }
  }

  /**
   * The course with all of an area in one visit.
   *
   * @param visit its number
   * @param broken the hard rules that it would break; none where it could be done
   * @param moreSeconds what it would cost more, below 0 for less
   * @param changes by how many seconds each term of the cost would change; only those that would
   */
  public record Elsewhere(
      int visit, List<HardRule> broken, long moreSeconds, Map<CourseTerm, Long> changes) {}

  /** The areas, in order; none where the course has one visit or none. */
  public List<OfArea> areas() {
    List<OfArea> known = areas;
    if (known == null) {
      known = List.copyOf(source.get());
      areas = known;
    }
    return known;
  }
}
