package quadrille.plan.course;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Why a course is as it is.
 *
 * @param visits why each visit is one of its own
 * @param oneVisitFewer what one visit fewer would need; null where that was not sought
 */
public record Reasons(List<WhyVisit> visits, @Nullable OneVisitFewer oneVisitFewer) {

  /** Nothing is said. */
  public static final Reasons NONE = new Reasons(List.of(), null);

  public Reasons {
    visits = List.copyOf(visits);
  }

  /** Why one visit is one of its own. */
  public List<WhyVisit> of(int visit) {
    return visits.stream().filter(why -> why.visit() == visit).toList();
  }
}
