package quadrille.plan.staging;

import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.plan.visit.Block;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;

/**
 * A course to start the search from: the quadrants in a sensible order, cut into as many stretches
 * as there are visits, each about as long as the others. Several orders of quadrants are tried and
 * the best is taken.
 */
final class FirstCourse {
  private static final List<List<Quadrant>> ORDERS =
      List.of(
          List.of(Quadrant.UR, Quadrant.LR, Quadrant.UL, Quadrant.LL),
          List.of(Quadrant.LR, Quadrant.UR, Quadrant.LL, Quadrant.UL),
          List.of(Quadrant.UL, Quadrant.LL, Quadrant.UR, Quadrant.LR),
          List.of(Quadrant.LL, Quadrant.UL, Quadrant.LR, Quadrant.UR));

  private FirstCourse() {}

  /**
   * Courses to start from, best first.
   *
   * @param most how many at the most
   */
  static List<CourseSolution> best(
      CaseEvaluator evaluator,
      SolutionManager<CourseSolution, HardSoftLongScore> scores,
      int most) {
    List<CourseSolution> courses = new ArrayList<>();
    for (List<Quadrant> order : ORDERS) {
      CourseSolution course = stretched(evaluator, order);
      scores.update(course);
      courses.add(course);
    }
    courses.sort(Comparator.comparing(course -> Objects.requireNonNull(course.score())));
    Collections.reverse(courses);
    return courses.subList(0, Math.min(most, courses.size()));
  }

  private static CourseSolution stretched(CaseEvaluator evaluator, List<Quadrant> order) {
    StagingCase staging = evaluator.staging();
    CourseSolution course = new CourseSolution(evaluator);
    List<Load> parts = parts(staging, order);
    long all = parts.stream().mapToLong(FirstCourse::seconds).sum();
    List<Integer> free = staging.freeVisits();
    int visits = free.size();
    if (visits == 0) {
      return course;
    }
    List<StepSet> sets = new ArrayList<>();
    for (int i = 0; i < visits; i++) {
      sets.add(StepSet.EMPTY);
    }
    long before = 0;
    for (Load part : parts) {
      long middle = before + seconds(part) / 2;
      int visit = all == 0 ? 0 : (int) Math.min(visits - 1, middle * visits / all);
      sets.set(visit, sets.get(visit).union(part.steps()));
      before += seconds(part);
    }
    for (int i = 0; i < visits; i++) {
      course.fill(free.get(i), evaluator.order(sets.get(i), free.get(i) + 1));
    }
    return course;
  }

  /**
   * The areas in the order of their quadrants; all that is gross first, where the case asks for it.
   */
  private static List<Load> parts(StagingCase staging, List<Quadrant> order) {
    StepSet free = staging.allSteps().minus(staging.pinnedSteps());
    if (!staging.grossFirst()) {
      return parts(staging, order, free);
    }
    StepSet gross = StepSet.EMPTY;
    for (Block block : staging.blocks()) {
      if (block.pass() == Pass.GROSS) {
        gross = gross.union(block.steps());
      }
    }
    List<Load> parts = new ArrayList<>(parts(staging, order, gross.intersection(free)));
    parts.addAll(parts(staging, order, free.minus(gross)));
    return parts;
  }

  private static List<Load> parts(StagingCase staging, List<Quadrant> order, StepSet wanted) {
    List<Load> parts = new ArrayList<>();
    for (Quadrant quadrant : order) {
      for (Area area : staging.areas()) {
        StepSet part = staging.stepsOf(area::equals).intersection(wanted);
        if (area.quadrant() == quadrant && !part.isEmpty()) {
          parts.add(Load.of(staging, part, true));
        }
      }
    }
    return parts;
  }

  private static long seconds(Load load) {
    return load.facts().stream().mapToLong(step -> step.step().seconds()).sum();
  }
}
