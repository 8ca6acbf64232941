package quadrille.plan.staging;

import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.seeking.SearchStop;

/**
 * Looks at every course of a case that has few: each way to put its blocks into visits, the visits
 * in a good order. A search may miss the best of them, since the way there can lead through visits
 * that would be numb on both sides.
 */
final class EveryCourse {

  /** No more courses than a search would look at anyway. */
  private static final int FEW = 1100;

  /** Up to so many steps, orders are sought so widely that they are as good as the best. */
  private static final int SMALL = 12;

  private static final int WIDE = 200;

  /** How many of the best are kept, as a better order of their visits may yet decide. */
  private static final int BEST = 12;

  private EveryCourse() {}

  /** Whether there are few enough of them. */
  static boolean few(StagingCase staging) {
    double all = Math.pow(staging.freeVisits().size(), staging.freeUnits().size());
    return all <= FEW;
  }

  /**
   * The best courses that keep every hard rule, best first; none where there is none.
   *
   * @param stop once asked, the best of those looked at so far
   */
  static List<CourseSolution> best(
      CaseEvaluator evaluator,
      SolutionManager<CourseSolution, HardSoftLongScore> scores,
      SearchStop stop) {
    List<Rated> legal = new ArrayList<>();
    StagingCase staging = evaluator.staging();
    CaseEvaluator orders = staging.steps().size() <= SMALL ? evaluator.ofWidth(WIDE) : evaluator;
    List<Integer> free = staging.freeVisits();
    int[] visitOf = new int[staging.freeUnits().size()];
    do {
      StepSet[] sets = sets(staging, free, visitOf);
      if (Arrays.stream(sets)
          .noneMatch(set -> set.isEmpty() || evaluator.visits().set(set).hopeless(staging))) {
        CourseSolution course = new CourseSolution(evaluator);
        for (int i : free) {
          course.fill(i, orders.order(sets[i], i + 1));
        }
        HardSoftLongScore score = Objects.requireNonNull(scores.update(course));
        if (score.hardScore() == 0) {
          legal.add(new Rated(course, score.softScore()));
        }
      }
    } while (next(visitOf, free.size()) && !stop.asked());
    return legal.stream()
        .sorted(Comparator.comparingLong(Rated::soft).reversed())
        .limit(BEST)
        .map(Rated::course)
        .toList();
  }

  private record Rated(CourseSolution course, long soft) {}

  private static StepSet[] sets(StagingCase staging, List<Integer> free, int[] visitOf) {
    StepSet[] sets = new StepSet[staging.visits()];
    for (int visit = 0; visit < sets.length; visit++) {
      sets[visit] = staging.pinned(visit);
    }
    List<StepSet> units = staging.freeUnits();
    for (int i = 0; i < visitOf.length; i++) {
      int visit = free.get(visitOf[i]);
      sets[visit] = sets[visit].union(units.get(i));
    }
    return sets;
  }

  /** Counts one further; false after the last. */
  private static boolean next(int[] visitOf, int visits) {
    for (int i = 0; i < visitOf.length; i++) {
      visitOf[i]++;
      if (visitOf[i] < visits) {
        return true;
      }
      visitOf[i] = 0;
    }
    return false;
  }
}
