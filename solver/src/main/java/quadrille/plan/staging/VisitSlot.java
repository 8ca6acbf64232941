package quadrille.plan.staging;

import ai.timefold.solver.core.api.domain.entity.PlanningEntity;
import ai.timefold.solver.core.api.domain.entity.PlanningPin;
import ai.timefold.solver.core.api.domain.lookup.PlanningId;
import ai.timefold.solver.core.api.domain.variable.PlanningListVariable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.Commitments;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitTimeline;

/**
 * A visit as the solver fills it: the planning entity. Its steps stand in the order in which they
 * are taken.
 */
@PlanningEntity
public class VisitSlot {
  private static final int REMEMBERED = 4;

  @PlanningId private int number;
  private @Nullable CaseEvaluator evaluator;

  /** Whether its steps and their order stay as they are. */
  @PlanningPin private boolean pinned;

  @PlanningListVariable private List<StepFact> steps = new ArrayList<>();

  // A move and its undoing visit the same few orders again and again.
  private final @Nullable VisitTimeline[] remembered = new VisitTimeline[REMEMBERED];
  private int oldest;

  /** For the solver, which copies visits. */
  public VisitSlot() {}

  /**
   * @param number 1, 2, 3 …
   */
  public VisitSlot(int number, CaseEvaluator evaluator) {
    this.number = number;
    this.evaluator = evaluator;
    this.pinned = stands().pinned() != null;
  }

  public int number() {
    return number;
  }

  public List<StepFact> steps() {
    return steps;
  }

  boolean pinned() {
    return pinned;
  }

  /** What stands of it, as the case says. */
  Commitments.Slot stands() {
    return staging().standing().slot(number - 1);
  }

  StagingCase staging() {
    return evaluator().staging();
  }

  private CaseEvaluator evaluator() {
    return Objects.requireNonNull(evaluator);
  }

  /** A good order for some steps. */
  int[] order(StepSet of) {
    return evaluator().order(of, number);
  }

  StepSet stepSet() {
    StepSet set = StepSet.EMPTY;
    for (StepFact step : steps) {
      set = set.with(step.index());
    }
    return set;
  }

  /** The visit on its clock, for the steps as they stand now. */
  VisitTimeline layout() {
    for (VisitTimeline layout : remembered) {
      if (layout != null && isOf(layout)) {
        return layout;
      }
    }
    int[] order = new int[steps.size()];
    for (int i = 0; i < order.length; i++) {
      order[i] = steps.get(i).index();
    }
    VisitTimeline layout = evaluator().visit(number).layout(order);
    remembered[oldest] = layout;
    oldest = (oldest + 1) % REMEMBERED;
    return layout;
  }

  /**
   * Takes a layout of these steps in this order for the visit's, whatever the clock would choose.
   */
  void take(VisitTimeline layout) {
    Arrays.fill(remembered, layout);
  }

  private boolean isOf(VisitTimeline layout) {
    int[] order = layout.order();
    if (order.length != steps.size()) {
      return false;
    }
    for (int i = 0; i < order.length; i++) {
      if (steps.get(i).index() != order[i]) {
        return false;
      }
    }
    return true;
  }

  @Override
  public String toString() {
    return "visit " + number;
  }
}
