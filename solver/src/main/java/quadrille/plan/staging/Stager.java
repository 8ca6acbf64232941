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
import ai.timefold.solver.core.config.solver.monitoring.MonitoringConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Appointments;
import quadrille.plan.bound.LowerBound;
import quadrille.plan.course.HardRule;
import quadrille.plan.exact.ExactCourses;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.SetEvaluation;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitTimeline;
import quadrille.seeking.SearchStop;

/**
 * Seeks the best course for a case. The same case gives the same course: the search is seeded, runs
 * on one thread, and stops by moves and not by the clock.
 */
public final class Stager {
  private static final int CAREFUL_WIDTH = 100;
  private static final int POLISH_WIDTH = 1000;

  /** Longer than any visit. */
  private static final int DAY_MINUTES = 24 * 60;

  // Chosen by measurement; see docs/search.md.
  private static final String STARTING_TEMPERATURE = "300hard/200soft";
  private static final String CAREFUL_TEMPERATURE = "1hard/30soft";

  /** A course that breaks more than this is not mended by better orders. */
  private static final long MENDABLE = -300;

  /** The longest visit that is looked at where shorter ones will not do. */
  public static final int LONGEST_MINUTES = 480;

  private final Effort effort;
  private final SearchStop stop;
  private @Nullable Machinery machinery;

  /** What searches; made when the first search begins, since it takes long to make. */
  private record Machinery(
      SolverFactory<CourseSolution> solvers,
      SolverFactory<CourseSolution> carefulSolvers,
      SolutionManager<CourseSolution, HardSoftLongScore> scores) {}

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
  }

  private synchronized Machinery machinery() {
    Machinery known = machinery;
    if (known == null) {
      SolverFactory<CourseSolution> solvers = SolverFactory.create(config());
      known =
          new Machinery(
              solvers,
              SolverFactory.create(config(CAREFUL_TEMPERATURE)),
              SolutionManager.create(solvers));
      machinery = known;
    }
    return known;
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
        // No meters, which searches side by side would take from each other, with a warning.
        .withMonitoringConfig(new MonitoringConfig().withSolverMetricList(List.of()))
        .withPhases(search);
  }

  /** The best course found, whether or not it keeps every hard rule. */
  public Staged stage(StagingCase staging) {
    Staged best = stage(staging, exactWithin(staging));
    return best == null ? searched(staging) : best;
  }

  /**
   * The exact method for a mouth: for any number of visits, so that what it has priced for one
   * serves the others.
   */
  public ExactCourses exact(StagingCase staging) {
    return new ExactCourses(staging, staging.longestMinutes(), stop::asked);
  }

  /** The exact method for a mouth in no more visits than the case has. */
  public ExactCourses exactWithin(StagingCase staging) {
    return new ExactCourses(staging, stop::asked);
  }

  /**
   * The same for a caller who stages one mouth in several numbers of visits.
   *
   * @param exact of the same mouth; where it cannot answer, or knows no course, one is searched for
   * @return null where it is certain that no course of so many visits keeps every hard rule
   */
  public @Nullable Staged stage(StagingCase staging, ExactCourses exact) {
    return stage(new LowerBound(staging), exact);
  }

  /** The same for a caller who has a bound of the case already. */
  public @Nullable Staged stage(LowerBound bound, ExactCourses exact) {
    if (exact.answers()) {
      ExactCourses.Answer answer = exact.best(bound.staging());
      if (answer.infeasible()) {
        return null;
      }
      if (!answer.visits().isEmpty()) {
        Staged best = kept(new LowerBound(bound.staging(), answer.bound()), answer.visits());
        return best.provenBest() || !stop.asked() ? best : best.cut();
      }
    }
    return searched(bound);
  }

  /**
   * Some course that keeps every hard rule, whatever it costs, for those who ask whether there is
   * one.
   *
   * @param exact of the same mouth, which can answer
   * @return null where none is known
   */
  public @Nullable Staged some(StagingCase staging, ExactCourses exact) {
    List<VisitTimeline> visits = exact.any(staging).visits();
    return visits.isEmpty() ? null : kept(new LowerBound(staging, 0), visits);
  }

  /** A course that keeps every hard rule. */
  private static Staged kept(LowerBound bound, List<VisitTimeline> layouts) {
    StagingCase staging = bound.staging();
    return new Staged(
        staging, bound, layouts, 0, List.of(), CourseCost.of(staging, layouts), false);
  }

  /**
   * What comes nearest where it is certain that no course of so many visits keeps every hard rule,
   * so that people can be told what stands in the way.
   *
   * @param known of the same mouth
   */
  public Staged nearest(StagingCase staging, ExactCourses known) {
    if (staging.visits() == 1) {
      VisitTimeline all =
          layout(new CaseEvaluator(staging).ofWidth(POLISH_WIDTH), staging.allSteps());
      List<HardRule> broken = brokenWithin(staging, all);
      if (!broken.isEmpty()) {
        return broken(staging, List.of(all), broken);
      }
    }
    ExactCourses exact = known;
    int unit = staging.practice().appointments().unitMinutes().asInt();
    // Longer step by step: what fits eight hours would take minutes to price.
    for (int minutes = staging.longestMinutes() + unit;
        exact.answers() && !stop.asked() && minutes <= LONGEST_MINUTES;
        minutes += unit) {
      StagingCase longer = staging.within(minutes);
      exact = exact.loosened(longer);
      // Any course tells how long the longest visit must be: none fits the unit before.
      List<VisitTimeline> visits = exact.answers() ? exact.any(longer).visits() : List.of();
      if (!visits.isEmpty()) {
        return broken(staging, visits, List.of(HardRule.LENGTH));
      }
    }
    return searched(staging);
  }

  private static Staged broken(
      StagingCase staging, List<VisitTimeline> layouts, List<HardRule> broken) {
    LowerBound none = new LowerBound(staging, Long.MAX_VALUE);
    return new Staged(staging, none, layouts, -1, broken, CourseCost.of(staging, layouts), false);
  }

  /** The hard rules that a visit breaks by itself. */
  private static List<HardRule> brokenWithin(StagingCase staging, VisitTimeline visit) {
    SetEvaluation set = visit.set();
    Appointments limits = staging.practice().appointments();
    Map<HardRule, Boolean> broken = new EnumMap<>(HardRule.class);
    broken.put(HardRule.ONE_NUMB_SIDE, limits.oneNumbSide() && visit.dosing().secondSide() > 0);
    broken.put(HardRule.NO_DOUBLE_BLOCK, visit.dosing().doubleBlocks() > 0);
    broken.put(HardRule.DOSE, visit.dosing().excess() > 0);
    broken.put(HardRule.LENGTH, visit.overrunSeconds() > 0);
    broken.put(HardRule.IMPLANTS, set.wrongInsert() > 0);
    broken.put(HardRule.NUMBNESS_LASTS, visit.wornOffSeconds() > 0);
    broken.put(HardRule.KITS, set.distinctInserts() > limits.kitHolds().asInt());
    broken.put(HardRule.ALERTS, visit.dosing().unnumbable() > 0);
    return broken.entrySet().stream().filter(Map.Entry::getValue).map(Map.Entry::getKey).toList();
  }

  /** A course by search alone, whether or not it keeps every hard rule. */
  public Staged searched(StagingCase staging) {
    return searched(new LowerBound(staging));
  }

  private Staged searched(LowerBound bound) {
    StagingCase staging = bound.staging();
    if (staging.steps().isEmpty()) {
      throw new IllegalArgumentException("There is nothing to stage.");
    }
    Staged best = sought(new CaseEvaluator(staging), bound);
    // Where at most one visit may change there is nothing to seek.
    boolean done = staging.freeVisits().size() <= 1 || best.provenBest() || !stop.asked();
    return done ? best : best.cut();
  }

  private Staged sought(CaseEvaluator evaluator, LowerBound bound) {
    if (EveryCourse.few(evaluator.staging())) {
      Optional<Staged> best =
          EveryCourse.best(evaluator, machinery().scores(), stop).stream()
              .map(course -> rated(evaluator, bound, course))
              .filter(Staged::feasible)
              .min(Comparator.comparingLong(Staged::seconds));
      if (best.isPresent()) {
        return best.get();
      }
    }
    Staged best = null;
    for (CourseSolution start :
        FirstCourse.best(evaluator, machinery().scores(), effort.starts())) {
      CourseSolution found = searched(bound, start, machinery().solvers(), effort.movesPerBlock());
      Staged staged = rated(evaluator, bound, found);
      if (best == null || staged.betterThan(best)) {
        best = staged;
      }
      if (best.provenBest() || stop.asked()) {
        break;
      }
    }
    return bettered(evaluator, Objects.requireNonNull(best));
  }

  /**
   * Looks around a course once more with careful orders. Quick ones misjudge some visits by a
   * minute, more than the course found and a better one may lie apart.
   */
  private Staged bettered(CaseEvaluator evaluator, Staged best) {
    boolean pointless = best.hard() < MENDABLE || best.provenBest();
    if (effort.carefulMovesPerBlock() == 0 || pointless || stop.asked()) {
      return best;
    }
    CourseSolution start = new CourseSolution(evaluator.ofWidth(CAREFUL_WIDTH));
    for (int i = 0; i < best.layouts().size(); i++) {
      start.fill(i, best.layouts().get(i).order());
    }
    machinery().scores().update(start);
    CourseSolution found =
        searched(best.bound(), start, machinery().carefulSolvers(), effort.carefulMovesPerBlock());
    Staged staged = rated(evaluator, best.bound(), found);
    return staged.betterThan(best) ? staged : best;
  }

  private CourseSolution searched(
      LowerBound bound,
      CourseSolution start,
      SolverFactory<CourseSolution> factory,
      int movesPerBlock) {
    StagingCase staging = start.staging();
    if (staging.freeVisits().size() <= 1) {
      // Nothing can be carried anywhere; the order is the sequencer's.
      return start;
    }
    long moves = (long) movesPerBlock * staging.freeBlocks().size() * staging.freeVisits().size();
    SolverConfigOverride<CourseSolution> limit =
        new SolverConfigOverride<CourseSolution>()
            .withTerminationConfig(new TerminationConfig().withMoveCountLimit(moves));
    if (provenBest(bound, start.score())) {
      return start;
    }
    Solver<CourseSolution> solver = factory.buildSolver(limit);
    // Not a termination of the solver's: how near that is would change how the search cools.
    solver.addEventListener(
        found -> {
          if (provenBest(bound, found.getNewBestSolution().score())) {
            solver.terminateEarly();
          }
        });
    return stop.during(() -> solver.solve(start), () -> start);
  }

  private static boolean provenBest(LowerBound bound, @Nullable HardSoftLongScore score) {
    return score != null && score.isFeasible() && -score.softScore() <= bound.seconds();
  }

  /**
   * Rates a course whose visits' steps are given, each put into a good order; nothing is sought.
   */
  public Staged rate(StagingCase staging, List<StepSet> visits) {
    CaseEvaluator evaluator = new CaseEvaluator(staging);
    CourseSolution course = new CourseSolution(evaluator);
    for (int i = 0; i < visits.size(); i++) {
      course.fill(i, evaluator.order(visits.get(i), i + 1));
    }
    return rated(evaluator, new LowerBound(staging), course);
  }

  /** Whether all steps of a case can be done in one visit that is not too long. */
  public boolean fitsOneVisit(StagingCase staging) {
    CaseEvaluator evaluator = new CaseEvaluator(staging);
    int[] quick = evaluator.order(staging.allSteps(), 1);
    return evaluator.visit(1).layout(quick).overrunSeconds() == 0
        || layout(evaluator.ofWidth(POLISH_WIDTH), staging.allSteps()).overrunSeconds() == 0;
  }

  /**
   * Which rule no agent that the patient may have keeps where all steps of a case lie in one visit,
   * however long: that of doses or that of lasting; null where both are kept.
   */
  public static @Nullable HardRule unserved(StagingCase staging) {
    CaseEvaluator evaluator = new CaseEvaluator(staging.within(DAY_MINUTES));
    HardRule quick = unserved(evaluator.visit(1).layout(evaluator.order(staging.allSteps(), 1)));
    return quick == null
        ? null
        : unserved(layout(evaluator.ofWidth(POLISH_WIDTH), staging.allSteps()));
  }

  private static @Nullable HardRule unserved(VisitTimeline layout) {
    if (layout.dosing().excess() > 0) {
      return HardRule.DOSE;
    }
    return layout.wornOffSeconds() > 0 ? HardRule.NUMBNESS_LASTS : null;
  }

  private static VisitTimeline layout(CaseEvaluator evaluator, StepSet steps) {
    return evaluator.visit(1).layout(evaluator.order(steps, 1));
  }

  /**
   * Lays out a course whose visits and orders are given, as a rule of thumb has them: nothing is
   * sought, no order is bettered, and all injections of a visit are given before its first step.
   * Whether it keeps the rules is not judged.
   *
   * @param visits for each visit of the case, indexes of its steps in the order in which they are
   *     taken
   */
  public static Staged laidOut(StagingCase staging, List<List<Integer>> visits) {
    CaseEvaluator evaluator = new CaseEvaluator(staging);
    List<VisitTimeline> layouts = new ArrayList<>();
    for (List<Integer> visit : visits) {
      int[] order = visit.stream().mapToInt(Integer::intValue).toArray();
      layouts.add(evaluator.visit(layouts.size() + 1).layoutNumbedFirst(order));
    }
    return given(staging, layouts);
  }

  /** A course whose visits are laid out already. Whether it keeps the rules is not judged. */
  public static Staged given(StagingCase staging, List<VisitTimeline> layouts) {
    return new Staged(
        staging,
        new LowerBound(staging, 0),
        layouts,
        0,
        List.of(),
        CourseCost.of(staging, layouts),
        false);
  }

  /** The same course, judged by the rule book. */
  public Staged judged(Staged laidOut) {
    CourseSolution course = new CourseSolution(new CaseEvaluator(laidOut.staging()));
    for (int i = 0; i < laidOut.layouts().size(); i++) {
      course.fill(i, laidOut.layouts().get(i).order());
      course.visits().get(i).take(laidOut.layouts().get(i));
    }
    return judged(laidOut.bound(), course);
  }

  /**
   * Rates a course whose visits and orders are given; nothing is sought but where the injections
   * go.
   *
   * @param visits for each visit of the case, indexes of its steps in the order in which they are
   *     taken
   */
  public Staged rateAsOrdered(StagingCase staging, List<List<Integer>> visits) {
    return asOrdered(
        new LowerBound(staging),
        visits.stream().map(v -> v.stream().mapToInt(Integer::intValue).toArray()).toList());
  }

  private Staged asOrdered(LowerBound bound, List<int[]> orders) {
    CourseSolution course = new CourseSolution(new CaseEvaluator(bound.staging()));
    for (int i = 0; i < orders.size(); i++) {
      course.fill(i, orders.get(i));
    }
    return judged(bound, course);
  }

  private Staged rated(CaseEvaluator evaluator, LowerBound bound, CourseSolution course) {
    polish(evaluator, course);
    return judged(bound, course);
  }

  private Staged judged(LowerBound bound, CourseSolution course) {
    StagingCase staging = course.staging();
    HardSoftLongScore score = Objects.requireNonNull(machinery().scores().update(course));
    List<VisitTimeline> layouts = course.visits().stream().map(VisitSlot::layout).toList();
    return new Staged(
        staging,
        bound,
        layouts,
        score.hardScore(),
        score.hardScore() == 0 ? List.of() : brokenRules(course),
        CourseCost.of(staging, layouts),
        false);
  }

  /** Puts each visit into an order at least as good, with a much wider search. */
  private static void polish(CaseEvaluator evaluator, CourseSolution course) {
    CaseEvaluator wide = evaluator.ofWidth(POLISH_WIDTH);
    for (VisitSlot visit : course.visits()) {
      if (visit.pinned()) {
        continue;
      }
      VisitTimeline now = visit.layout();
      VisitTimeline better =
          evaluator.visit(visit.number()).layout(wide.order(visit.stepSet(), visit.number()));
      if (better.betterThan(now)) {
        course.fill(visit.number() - 1, better.order());
      }
    }
  }

  private List<HardRule> brokenRules(CourseSolution course) {
    List<HardRule> broken = new ArrayList<>();
    for (ConstraintAnalysis<HardSoftLongScore> rule :
        machinery().scores().analyze(course).constraintMap().values()) {
      if (rule.score().hardScore() < 0) {
        broken.add(HardRule.valueOf(rule.constraintName()));
      }
    }
    return broken.stream().sorted().toList();
  }
}
