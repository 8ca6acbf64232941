package quadrille.plan.course;

import java.util.List;

/**
 * What a course of one visit fewer would need.
 *
 * @param visits how many it would have
 * @param remedies the smallest single changes, each of which would do; empty where none that was
 *     tried would
 */
public record OneVisitFewer(int visits, List<Remedy> remedies) {
  public OneVisitFewer {
    remedies = List.copyOf(remedies);
  }
}
