package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Finding;
import quadrille.plan.audit.Rule;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.GivenCourse;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.PlanTables;
import quadrille.plan.planning.Progress;
import quadrille.plan.planning.Telling;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;
import quadrille.seeking.SearchStop;

/**
 * Compares courses of one mouth: every number of visits of a range, under the practice as it is and
 * under changed conditions, and beside them the rules of thumb. The courses are sought side by side
 * on several threads, each by itself, so that the result is the same on any machine.
 */
public final class Comparer {
  private final Effort effort;
  private final int threads;
  private final SearchStop stop;
  private final Progress progress;

  /**
   * @param threads how many courses are sought at once, 1 or more
   */
  public Comparer(Effort effort, int threads) {
    this(effort, threads, new SearchStop(), Progress.UNHEARD);
  }

  /**
   * @param threads how many courses are sought at once, 1 or more
   * @param stop once asked, each row has the best course found so far, or its first course where no
   *     search has begun; the comparison says so, and the rows may differ from one run to the next
   */
  public Comparer(Effort effort, int threads, SearchStop stop, Progress progress) {
    if (threads < 1) {
      throw new IllegalArgumentException("The threads (" + threads + ") must be 1 or more.");
    }
    this.effort = effort;
    this.threads = threads;
    this.stop = stop;
    this.progress = progress;
  }

  /** What one search came to, before it is a row. */
  private record Found(@Nullable Course course, List<Obstacle> obstacles, boolean cutShort) {
    static Found none(List<? extends Obstacle> obstacles) {
      return new Found(null, List.copyOf(obstacles), false);
    }
  }

  /**
   * Compares.
   *
   * @param whatIfs changed conditions beside the practice as it is, which is always there
   * @throws UnworkableException if the practice, as it is, owns no insert that may do some of the
   *     work
   * @throws IllegalArgumentException if a what-if has faults for the practice; see {@link
   *     WhatIf#faults}
   */
  public Comparison compare(Chart chart, Practice practice, VisitRange visits, List<WhatIf> whatIfs)
      throws UnworkableException {
    Set<WhatIf> all = new LinkedHashSet<>();
    all.add(WhatIf.AS_IT_IS);
    all.addAll(whatIfs);
    List<WhatIf> conditions = List.copyOf(all);
    List<Practice> practices = conditions.stream().map(one -> one.applyTo(practice)).toList();

    // Sets of areas that were priced serve those with the same mouth, patient and all.
    List<Chart> charts = conditions.stream().map(one -> one.applyTo(chart)).toList();
    Map<Chart, PlanTables> tables = new HashMap<>();
    for (Chart one : charts) {
      tables.computeIfAbsent(
          one,
          same ->
              new PlanTables(
                  IntStream.range(0, charts.size())
                      .filter(i -> charts.get(i).equals(same))
                      .mapToObj(practices::get)
                      .toList()));
    }
    Telling telling =
        new Telling(progress, conditions.size() * (visits.most() - visits.fewest() + 1));
    ExecutorService pool = Executors.newFixedThreadPool(threads, Comparer::daemon);
    try {
      List<Future<List<Found>>> searches = new ArrayList<>();
      for (int i = 0; i < conditions.size(); i++) {
        WhatIf whatIf = conditions.get(i);
        Practice changed = practices.get(i);
        Chart patient = charts.get(i);
        PlanTables priced = Objects.requireNonNull(tables.get(patient));
        searches.add(pool.submit(() -> search(patient, changed, whatIf, visits, priced, telling)));
      }
      List<Future<Optional<GivenCourse>>> thumbs = new ArrayList<>();
      for (RuleOfThumb rule : RuleOfThumb.values()) {
        thumbs.add(pool.submit(() -> rule.course(chart, practice)));
      }

      List<Comparison.Group> groups = new ArrayList<>();
      boolean cutShort = false;
      Set<HeldBack.Reason> waiting = new LinkedHashSet<>();
      for (int i = 0; i < conditions.size(); i++) {
        List<Choice> choices = new ArrayList<>();
        List<Found> row = result(searches.get(i), i > 0, visits);
        for (int j = 0; j < row.size(); j++) {
          Found found = row.get(j);
          choices.add(choice(found, visits.fewest() + j, charts.get(i), practices.get(i)));
          cutShort |= found.cutShort();
          if (found.course() != null) {
            found.course().heldBack().stream().map(HeldBack::reason).forEach(waiting::add);
          }
        }
        choices.removeIf(choice -> choice.visits() == 0);
        groups.add(new Comparison.Group(conditions.get(i), choices));
      }
      List<Choice> rules = new ArrayList<>();
      for (int i = 0; i < thumbs.size(); i++) {
        Optional<GivenCourse> given = result(thumbs.get(i));
        if (given.isPresent()) {
          rules.add(choice(RuleOfThumb.values()[i], given.get(), chart, practice));
        }
      }
      return new Comparison(
              groups,
              rules,
              cutShort,
              List.copyOf(waiting),
              oneVisitFewer(
                  chart,
                  practice,
                  Objects.requireNonNull(tables.get(chart)),
                  groups.get(0).choices()))
          .marked();
    } finally {
      pool.shutdownNow();
    }
  }

  /** What one visit fewer would need than the fewest that will do. */
  private @Nullable OneVisitFewer oneVisitFewer(
      Chart chart, Practice practice, PlanTables tables, List<Choice> choices)
      throws UnworkableException {
    int fewest = choices.stream().filter(Choice::feasible).mapToInt(Choice::visits).min().orElse(0);
    if (fewest <= 1 || stop.asked()) {
      return null;
    }
    PlanOutcome outcome =
        new CoursePlanner(effort, 1, stop, Progress.UNHEARD, tables)
            .plan(chart, practice, VisitRange.exactly(fewest));
    return outcome instanceof Planned planned ? planned.course().reasons().oneVisitFewer() : null;
  }

  private static Thread daemon(Runnable task) {
    Thread thread = new Thread(task, "compare");
    thread.setDaemon(true);
    return thread;
  }

  private List<Found> search(
      Chart chart,
      Practice practice,
      WhatIf whatIf,
      VisitRange visits,
      PlanTables tables,
      Telling telling)
      throws UnworkableException {
    List<Obstacle> forbidden = whatIf.oneDay() ? forbidOneDay(chart, practice) : List.of();
    List<Found> rows = new ArrayList<>();
    // One visit is on one day anyway.
    int most = forbidden.isEmpty() ? visits.most() : 1;
    if (visits.fewest() <= most) {
      new CoursePlanner(effort, threads, stop, Progress.UNHEARD, tables)
          .planEach(
              chart,
              practice,
              new VisitRange(visits.fewest(), most),
              whatIf.grossFirst(),
              outcome -> telling.tried(seconds(outcome)))
          .forEach(outcome -> rows.add(found(outcome, whatIf)));
    }
    while (rows.size() <= visits.most() - visits.fewest()) {
      telling.tried(null);
      rows.add(Found.none(forbidden));
    }
    return rows;
  }

  private static @Nullable Long seconds(PlanOutcome outcome) {
    return outcome instanceof Planned planned ? planned.course().cost().seconds() : null;
  }

  private static Found found(PlanOutcome outcome, WhatIf whatIf) {
    if (outcome instanceof NoPlan none) {
      List<Obstacle> obstacles = new ArrayList<>();
      none.clashes().forEach(clash -> obstacles.add(new Obstacle.NoCourse(clash)));
      if (none.cutShort()) {
        obstacles.add(new Obstacle.CutShort());
      }
      return new Found(null, obstacles, none.cutShort());
    }
    Course course = ((Planned) outcome).course();
    if (whatIf.grossFirst() && !grossFirst(course)) {
      throw new IllegalStateException(
          "A course asked to take the gross pass of the whole mouth first does not.");
    }
    return new Found(course, List.of(), course.cutShort());
  }

  private static List<Obstacle> forbidOneDay(Chart chart, Practice practice) {
    List<Obstacle> forbidden = new ArrayList<>();
    for (AlertRule rule : PatientRules.of(practice, chart.patient()).alerts()) {
      Figure gap = rule.minGapDays();
      if (rule.forbidsOneDay()) {
        forbidden.add(new Obstacle.DayForbidden(rule.alert()));
      } else if (gap != null && gap.value() > 0) {
        forbidden.add(new Obstacle.DaysAskedFor(rule.alert(), gap.asInt()));
      }
    }
    return forbidden;
  }

  /** A second reading of the order asked for, from the finished course alone. */
  static boolean grossFirst(Course course) {
    boolean later = false;
    for (Visit visit : course.visits()) {
      for (Entry.Debride step : visit.steps()) {
        if (step.pass() == Pass.GROSS && later) {
          return false;
        }
        later |= step.pass() == Pass.FINE || step.pass() == Pass.FINISHING;
      }
    }
    return true;
  }

  private static Choice choice(Found found, int number, Chart chart, Practice practice) {
    Course course = found.course();
    if (course == null) {
      return new Choice(null, number, null, null, found.obstacles(), List.of(), false);
    }
    return new Choice(
        null,
        course.visits().size(),
        CourseFigures.of(course),
        course,
        List.of(),
        AcuteLoad.hints(course, chart, practice),
        false);
  }

  /** A rule of thumb whose course breaks a hard rule is no choice; the row says what it breaks. */
  private static Choice choice(
      RuleOfThumb rule, GivenCourse given, Chart chart, Practice practice) {
    Course course = given.course();
    return given.legal()
        ? new Choice(
            rule,
            course.visits().size(),
            CourseFigures.of(course),
            course,
            List.of(),
            AcuteLoad.hints(course, chart, practice),
            false)
        : new Choice(
            rule, course.visits().size(), null, null, broken(given.findings()), List.of(), false);
  }

  /** Each rule once, with the first finding and how many more there are. */
  private static List<Obstacle> broken(List<Finding> findings) {
    Map<Rule, List<Finding>> byRule = new EnumMap<>(Rule.class);
    findings.forEach(
        finding -> byRule.computeIfAbsent(finding.rule(), rule -> new ArrayList<>()).add(finding));
    return byRule.values().stream()
        .<Obstacle>map(some -> new Obstacle.BreaksRule(some.get(0), some.size() - 1))
        .toList();
  }

  /**
   * @param changed whether work that no insert may do is the what-if's doing, and so an obstacle
   */
  private static List<Found> result(Future<List<Found>> future, boolean changed, VisitRange visits)
      throws UnworkableException {
    try {
      return result(future);
    } catch (UnworkableException unworkable) {
      if (changed) {
        Found none = Found.none(unworkable.work().stream().map(Obstacle.NoInsert::new).toList());
        return Collections.nCopies(visits.most() - visits.fewest() + 1, none);
      }
      throw unworkable;
    }
  }

  private static <T> T result(Future<T> future) throws UnworkableException {
    try {
      return future.get();
    } catch (ExecutionException e) {
      Throwable cause = Objects.requireNonNull(e.getCause());
      if (cause instanceof UnworkableException unworkable) {
        throw unworkable;
      }
      if (cause instanceof RuntimeException fault) {
        throw fault;
      }
      if (cause instanceof Error fault) {
        throw fault;
      }
      throw new IllegalStateException(cause);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The comparison was interrupted.", e);
    }
  }
}
