package quadrille.plan.staging;

import ai.timefold.solver.core.api.score.analysis.ConstraintAnalysis;
import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
import ai.timefold.solver.core.api.solver.Solver;
import ai.timefold.solver.core.api.solver.SolverConfigOverride;
import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.config.localsearch.LocalSearchPhaseConfig;
import ai.timefold.solver.core.config.localsearch.decider.acceptor.AcceptorType;
import ai.timefold.solver.core.config.localsearch.decider.acceptor.LocalSearchAcceptorConfig;
import ai.timefold.solver.core.config.localsearch.decider.forager.LocalSearchForagerConfig;
import ai.timefold.solver.core.config.score.director.ScoreDirectorFactoryConfig;
import ai.timefold.solver.core.config.solver.EnvironmentMode;
import ai.timefold.solver.core.config.solver.PreviewFeature;
import ai.timefold.solver.core.config.solver.SolverConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.plan.course.HardRule;

/**
 * Seeks the best course for a case. The same case gives the same course: the search is seeded, runs
 * on one thread, and stops by moves and not by the clock.
 */
public final class Stager {
  private static final int POLISH_WIDTH = 1000;

  // Chosen by measurement; see docs/search.md.
  private static final String STARTING_TEMPERATURE = "300hard/200soft";
  private static final String CAREFUL_TEMPERATURE = "1hard/30soft";

  /** A course that breaks more than this is not mended by better orders. */
  private static final long MENDABLE = -300;

  private final Effort effort;
  private final SearchStop stop;
  private final SolverFactory<CourseSolution> solvers;
  private final SolverFactory<CourseSolution> carefulSolvers;
  private final SolutionManager<CourseSolution, HardSoftLongScore> scores;

  /** Always seeks to the end. */
  public Stager(Effort effort) {
    this(effort, new SearchStop());
  }

  /**
   * @param stop ends every search of this stager early once it is asked; what is found then may
   *     differ from one run to the next
   */
  public Stager(Effort effort, SearchStop stop) {
    this.effort = effort;
    this.stop = stop;
    this.solvers = SolverFactory.create(config());
    this.carefulSolvers = SolverFactory.create(config(CAREFUL_TEMPERATURE));
    this.scores = SolutionManager.create(solvers);
  }

  static SolverConfig config() {
    return config(STARTING_TEMPERATURE);
  }

  private static SolverConfig config(String temperature) {
    LocalSearchPhaseConfig search =
        new LocalSearchPhaseConfig()
            .withAcceptorConfig(
                new LocalSearchAcceptorConfig()
                    .withAcceptorTypeList(List.of(AcceptorType.SIMULATED_ANNEALING))
                    .withSimulatedAnnealingStartingTemperature(temperature))
            .withForagerConfig(new LocalSearchForagerConfig().withAcceptedCountLimit(1));
    search.setNeighborhoodProviderClass(StagingMoves.class);
    return new SolverConfig()
        .withSolutionClass(CourseSolution.class)
        .withEntityClasses(VisitSlot.class)
        .withPreviewFeature(PreviewFeature.NEIGHBORHOODS)
        .withScoreDirectorFactory(
            new ScoreDirectorFactoryConfig().withConstraintProviderClass(StagingRules.class))
        .withEnvironmentMode(EnvironmentMode.NO_ASSERT)
        .withRandomSeed(0L)
        .withPhases(search);
  }

  /** The best course found, whether or not it keeps every hard rule. */
  public Staged stage(StagingCase staging) {
    if (staging.steps().isEmpty()) {
      throw new IllegalArgumentException("There is nothing to stage.");
    }
    Staged best = sought(staging);
    // Where at most one visit may change there is nothing to seek.
    boolean done = staging.freeVisits().size() <= 1 || best.provenBest() || !stop.asked();
    return done ? best : best.cut();
  }

  private Staged sought(StagingCase staging) {
    if (EveryCourse.few(staging)) {
      Optional<Staged> best =
          EveryCourse.best(staging, scores, stop).stream()
              .map(course -> rated(staging, course))
              .filter(Staged::feasible)
              .min(Comparator.comparingLong(Staged::seconds));
      if (best.isPresent()) {
        return best.get();
      }
    }
    Staged best = null;
    for (CourseSolution start : FirstCourse.best(staging, scores, effort.starts())) {
      Staged staged = rated(staging, searched(staging, start, solvers, effort.movesPerBlock()));
      if (best == null || staged.betterThan(best)) {
        best = staged;
      }
      if (best.provenBest() || stop.asked()) {
        break;
      }
    }
    return bettered(Objects.requireNonNull(best));
  }

  /**
   * Looks around a course once more with careful orders. Quick ones misjudge some visits by a
   * minute, more than the course found and a better one may lie apart.
   */
  private Staged bettered(Staged best) {
    boolean pointless = best.hard() < MENDABLE || best.provenBest();
    if (effort.carefulMovesPerBlock() == 0 || pointless || stop.asked()) {
      return best;
    }
    StagingCase staging = best.staging();
    CourseSolution start = new CourseSolution(staging);
    for (int i = 0; i < best.layouts().size(); i++) {
      start.fill(i, best.layouts().get(i).order());
    }
    scores.update(start);
    staging.orderCarefully(true);
    try {
      CourseSolution found =
          searched(staging, start, carefulSolvers, effort.carefulMovesPerBlock());
      Staged staged = rated(staging, found);
      return staged.betterThan(best) ? staged : best;
    } finally {
      staging.orderCarefully(false);
    }
  }

  private CourseSolution searched(
      StagingCase staging,
      CourseSolution start,
      SolverFactory<CourseSolution> factory,
      int movesPerBlock) {
    if (staging.freeVisits().size() <= 1) {
      // Nothing can be carried anywhere; the order is the sequencer's.
      return start;
    }
    long moves = (long) movesPerBlock * staging.freeBlocks().size() * staging.freeVisits().size();
    SolverConfigOverride<CourseSolution> limit =
        new SolverConfigOverride<CourseSolution>()
            .withTerminationConfig(new TerminationConfig().withMoveCountLimit(moves));
    if (provenBest(staging, start.score())) {
      return start;
    }
    Solver<CourseSolution> solver = factory.buildSolver(limit);
    // Not a termination of the solver's: how near that is would change how the search cools.
    solver.addEventListener(
        found -> {
          if (provenBest(staging, found.getNewBestSolution().score())) {
            solver.terminateEarly();
          }
        });
    return stop.during(() -> solver.solve(start), () -> start);
  }

  private static boolean provenBest(StagingCase staging, @Nullable HardSoftLongScore score) {
    return score != null && score.isFeasible() && -score.softScore() <= staging.lowerBound();
  }

  /**
   * Rates a course whose visits' steps are given, each put into a good order; nothing is sought.
   */
  public Staged rate(StagingCase staging, List<StepSet> visits) {
    CourseSolution course = new CourseSolution(staging);
    for (int i = 0; i < visits.size(); i++) {
      course.fill(i, staging.sequencer().sequence(visits.get(i)).order());
    }
    return rated(staging, course);
  }

  /** Whether all steps of a case can be done in one visit that is not too long. */
  public boolean fitsOneVisit(StagingCase staging) {
    int[] quick = staging.sequencer().sequence(staging.allSteps()).order();
    return staging.reckoner().layout(quick).overrunSeconds() == 0
        || rate(staging, List.of(staging.allSteps())).layouts().get(0).overrunSeconds() == 0;
  }

  /**
   * Rates a course whose visits and orders are given, as a rule of thumb has them: nothing is
   * sought, no order is bettered, and all injections of a visit are given before its first step.
   *
   * @param visits for each visit of the case, indexes of its steps in the order in which they are
   *     taken
   */
  public Staged rateOrders(StagingCase staging, List<List<Integer>> visits) {
    CourseSolution course = new CourseSolution(staging);
    for (int i = 0; i < visits.size(); i++) {
      int[] order = visits.get(i).stream().mapToInt(Integer::intValue).toArray();
      course.fill(i, order);
      course.visits().get(i).take(staging.reckoner().layoutNumbedFirst(order));
    }
    return judged(staging, course);
  }

  /**
   * Rates a course whose visits and orders are given; nothing is sought but where the injections
   * go.
   *
   * @param visits for each visit of the case, indexes of its steps in the order in which they are
   *     taken
   */
  Staged rateAsOrdered(StagingCase staging, List<List<Integer>> visits) {
    CourseSolution course = new CourseSolution(staging);
    for (int i = 0; i < visits.size(); i++) {
      course.fill(i, visits.get(i).stream().mapToInt(Integer::intValue).toArray());
    }
    return judged(staging, course);
  }

  private Staged rated(StagingCase staging, CourseSolution course) {
    polish(staging, course);
    return judged(staging, course);
  }

  private Staged judged(StagingCase staging, CourseSolution course) {
    HardSoftLongScore score = Objects.requireNonNull(scores.update(course));
    List<VisitTimeline> layouts = course.visits().stream().map(VisitSlot::layout).toList();
    return new Staged(
        staging,
        layouts,
        score.hardScore(),
        score.hardScore() == 0 ? List.of() : brokenRules(course),
        CourseCost.of(staging, layouts),
        false);
  }

  /** Puts each visit into an order at least as good, with a much wider search. */
  private static void polish(StagingCase staging, CourseSolution course) {
    Sequencer wide = new Sequencer(staging, POLISH_WIDTH);
    for (VisitSlot visit : course.visits()) {
      if (visit.pinned()) {
        continue;
      }
      VisitTimeline now = visit.layout();
      VisitTimeline better =
          staging.reckoner(visit.number()).layout(wide.sequence(visit.stepSet()).order());
      if (better.betterThan(now)) {
        course.fill(visit.number() - 1, better.order());
      }
    }
  }

  private List<HardRule> brokenRules(CourseSolution course) {
    List<HardRule> broken = new ArrayList<>();
    for (ConstraintAnalysis<HardSoftLongScore> rule :
        scores.analyze(course).constraintMap().values()) {
      if (rule.score().hardScore() < 0) {
        broken.add(HardRule.valueOf(rule.constraintName()));
      }
    }
    return broken.stream().sorted().toList();
  }
}
