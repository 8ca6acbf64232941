package quadrille.plan.staging;

import ai.timefold.solver.core.api.domain.solution.PlanningEntityCollectionProperty;
import ai.timefold.solver.core.api.domain.solution.PlanningScore;
import ai.timefold.solver.core.api.domain.solution.PlanningSolution;
import ai.timefold.solver.core.api.domain.solution.ProblemFactCollectionProperty;
import ai.timefold.solver.core.api.domain.solution.ProblemFactProperty;
import ai.timefold.solver.core.api.domain.valuerange.ValueRangeProvider;
import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.InsertStock;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;

/** A course as the solver improves it: the planning solution. */
@PlanningSolution
public class CourseSolution {

  @ProblemFactProperty private StagingCase staging;

  @ProblemFactCollectionProperty @ValueRangeProvider private List<StepFact> steps;

  @ProblemFactCollectionProperty private List<Load> loads;

  @ProblemFactCollectionProperty private List<InsertStock> stocks;

  @PlanningEntityCollectionProperty private List<VisitSlot> visits;

  @PlanningScore private @Nullable HardSoftLongScore score;

  /** For the solver, which copies courses. */
  public CourseSolution() {}

  /** An empty course of the case's number of visits. */
  public CourseSolution(CaseEvaluator evaluator) {
    this.staging = evaluator.staging();
    this.steps = staging.steps();
    this.loads = Load.all(staging);
    this.stocks = staging.stocks();
    this.visits =
        IntStream.rangeClosed(1, staging.visits())
            .mapToObj(number -> new VisitSlot(number, evaluator))
            .toList();
    for (int visit = 0; visit < staging.visits(); visit++) {
      List<Integer> pinned = staging.standing().slot(visit).pinned();
      if (pinned != null) {
        fill(visit, pinned.stream().mapToInt(Integer::intValue).toArray());
      }
    }
  }

  public StagingCase staging() {
    return staging;
  }

  /** What a move can carry at once. */
  public List<Load> loads() {
    return loads;
  }

  /** Sterile sets that may run short in a day. */
  public List<InsertStock> stocks() {
    return stocks;
  }

  public List<StepFact> steps() {
    return steps;
  }

  public List<VisitSlot> visits() {
    return visits;
  }

  /** Gives a visit its steps, in order, in place of what it held. */
  void fill(int visit, int[] order) {
    List<StepFact> into = visits.get(visit).steps();
    into.clear();
    for (int index : order) {
      into.add(staging.steps().get(index));
    }
  }

  public @Nullable HardSoftLongScore score() {
    return score;
  }
}
