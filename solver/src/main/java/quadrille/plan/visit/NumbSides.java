package quadrille.plan.visit;

import java.util.List;
import quadrille.facts.chart.Side;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.course.NumbSide;

/** Which side of the mouth injections numb. */
public final class NumbSides {

  private NumbSides() {}

  /**
   * The side of those that bind a visit to one; where there are none, the one side on which front
   * teeth are infiltrated.
   */
  public static NumbSide of(Cover cover, boolean midlineInfiltration) {
    List<Side> sides = sides(cover.sided(midlineInfiltration));
    if (sides.size() > 1) {
      return NumbSide.BOTH;
    }
    List<Side> front = sides(cover.sided(false));
    return sides.size() == 1
        ? NumbSide.of(sides.get(0))
        : NumbSide.of(front.size() == 1 ? front.get(0) : null);
  }

  private static List<Side> sides(List<PlacedInjection> injections) {
    return injections.stream().map(injection -> injection.quadrant().side()).distinct().toList();
  }

  /**
   * How many injections break what a patient has been told.
   *
   * @param promised the side that was said to be the only one numbed, or none
   */
  public static long elsewhere(Cover cover, NumbSide promised, boolean midlineInfiltration) {
    if (promised == NumbSide.BOTH) {
      return 0;
    }
    if (promised == NumbSide.NONE) {
      return cover.injections().size();
    }
    NumbSide side = of(cover, midlineInfiltration);
    return side == promised || side == NumbSide.NONE
        ? 0
        : cover.sided(false).stream()
            .filter(injection -> NumbSide.of(injection.quadrant().side()) != promised)
            .filter(injection -> side != NumbSide.BOTH || !injection.acrossMidline())
            .count();
  }
}
