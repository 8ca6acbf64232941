package quadrille.plan.staging;

import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
import ai.timefold.solver.core.api.solver.SolverFactory;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.InjectionCover;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.VisitTimeline;
import quadrille.plan.work.Burden;
import quadrille.plan.work.InsertSelection;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/** Where a plan's time goes. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class HotPaths {
  private static final int VISITS = 4;

  private Chart chart;
  private Practice practice;
  private WorkList work;
  private StagingCase staging;
  private CaseEvaluator evaluator;
  private CourseSolution course;
  private Stager stager;
  private SolutionManager<CourseSolution, HardSoftLongScore> scores;
  private Set<Target> targets;
  private Area area;
  private List<ToothChart> sweep;
  private Map<String, Double> burdens;

  /** A mouth about to be treated. */
  @Setup
  public void setUp() throws Exception {
    practice = PracticeReader.defaults();
    chart = MouthGenerator.mouth(2001, Profile.TREATMENT);
    work = WorkPlanner.plan(chart, practice, Area.of(chart));
    burdens = new LinkedHashMap<>();
    for (Area each : work.areas()) {
      burdens.put(each.name(), Burden.of(each, chart, practice.minutes()));
    }
    staging = new StagingCase(chart.patient(), practice, work.steps(), burdens, VISITS);
    evaluator = new CaseEvaluator(staging);
    scores = SolutionManager.create(SolverFactory.<CourseSolution>create(Stager.config()));
    course = FirstCourse.best(evaluator, scores, 1).get(0);
    stager = new Stager(Effort.QUICK);
    System.out.printf(
        "%d steps, %d blocks, %d visits%n",
        staging.steps().size(), staging.blocks().size(), staging.visits());
    targets = new LinkedHashSet<>();
    work.steps().forEach(step -> targets.addAll(step.needs()));
    area = work.areas().get(0);
    sweep = chart.teeth().stream().filter(t -> area.teeth().contains(t.tooth())).toList();
  }

  /**
   * The whole search of quick effort, its polish included: by its {@link Effort#movesPerBlock} for
   * each block and visit, how fast moves are made and scored.
   */
  @Benchmark
  public Staged quickSearch() {
    return stager.stage(staging);
  }

  /** The score of a whole course from nothing; its visits have been laid out before. */
  @Benchmark
  public HardSoftLongScore score() {
    return scores.update(course);
  }

  /** The clock of every visit of a course, in a given order. */
  @Benchmark
  public List<VisitTimeline> layouts() {
    List<VisitTimeline> layouts = new ArrayList<>();
    for (VisitSlot visit : course.visits()) {
      layouts.add(evaluator.visits().layout(visit.layout().order()));
    }
    return layouts;
  }

  /** The cheapest injections for everything in the mouth at once. */
  @Benchmark
  public Cover injectionCover() {
    return new InjectionCover(practice, chart.patient()).cheapest(targets);
  }

  /** The inserts for one sweep of the fine pass. */
  @Benchmark
  public InsertSelection.Selection insertSelection() {
    return new InsertSelection(practice).choose(area, Pass.FINE, StepAspect.FACIAL, sweep);
  }

  /** All work of the mouth: passes, inserts, minutes, numbing. */
  @Benchmark
  public WorkList workList() throws Exception {
    return WorkPlanner.plan(chart, practice, Area.of(chart));
  }
}
