package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.bound.LowerBound;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Reasons;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.exact.ExactCourses;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.work.Burden;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkNote;
import quadrille.seeking.SearchStop;

/** Plans the course of one mouth. */
public final class CoursePlanner {
  private static final int AT_ONCE = 2;

  /**
   * After so many cuts no other area is tried where there is a course without: each takes a table
   * of its own.
   */
  private static final int MOST_CUTS = 8;

  private final Stager stager;
  private final int threads;
  private final SearchStop stop;
  private final Progress progress;
  private final @Nullable PlanTables shared;

  /** Seeks on all cores. */
  public CoursePlanner(Effort effort) {
    this(effort, Runtime.getRuntime().availableProcessors());
  }

  /**
   * @param threads how many numbers of visits are sought side by side, 1 or more; the course is the
   *     same for any
   */
  public CoursePlanner(Effort effort, int threads) {
    this(effort, threads, new SearchStop(), Progress.UNHEARD);
  }

  /**
   * @param threads how many numbers of visits are sought side by side, 1 or more; the course is the
   *     same for any
   * @param stop once asked, the best course found so far is polished, audited and answered with;
   *     where none keeps every hard rule yet, what is left gets a first course and no search. Such
   *     a course says that the search was cut short, and may differ from one run to the next
   */
  public CoursePlanner(Effort effort, int threads, SearchStop stop, Progress progress) {
    this(new Stager(effort, stop), threads, stop, progress, null);
  }

  /**
   * The same for one of several planners of one mouth.
   *
   * @param tables what they share
   */
  public CoursePlanner(
      Effort effort, int threads, SearchStop stop, Progress progress, PlanTables tables) {
    this(new Stager(effort, stop), threads, stop, progress, tables);
  }

  private CoursePlanner(
      Stager stager, int threads, SearchStop stop, Progress progress, @Nullable PlanTables shared) {
    this.stager = stager;
    this.threads = threads;
    this.stop = stop;
    this.progress = progress;
    this.shared = shared;
  }

  /** Of a planner by itself, each mouth has tables of its own. */
  private PlanTables tables() {
    PlanTables known = shared;
    return known == null ? new PlanTables() : known;
  }

  /**
   * The best course within a range of visits, by cost; of equal ones the one with fewer visits.
   *
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   * @throws AuditFailedException if the course found breaks a rule on second reading: a fault of
   *     the program
   */
  public PlanOutcome plan(Chart chart, Practice practice, VisitRange visits)
      throws UnworkableException {
    NoPlan unknown = Wished.unknownInserts(chart, practice);
    if (unknown != null) {
      return unknown;
    }
    List<Search> ways = ways(chart, practice, tables());
    Search first = ways.get(0);
    if (first.task.holding().planned().isEmpty()) {
      return first.nothingPlanned();
    }
    if (first.tooManyPieces()) {
      return new Remedies(chart, practice, stop).tooManyPieces(visits);
    }
    VisitRange range = Wished.range(chart, visits);
    Search search = range == null ? first : best(ways, range, false);
    if (search.best != null) {
      return search.planned(visits, search.bound(ways), true);
    }
    NoPlan refused = first.wished(visits).refused();
    if (refused != null) {
      return refused;
    }
    Chart free = chart.withPatient(chart.patient().withWishes(List.of()));
    return search.cutShort
        ? new NoPlan(Remedies.clashes(visits, search.nearest), List.of(), true)
        : new Remedies(free, practice, stop).noPlan(visits, search.nearest);
  }

  /**
   * As {@link #plan}, but without an explanation where there is a course, and without remedies
   * where there is none: for those who compare many.
   *
   * @param grossFirst whether the gross pass of the whole mouth comes before any fine pass
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   * @throws AuditFailedException if the course found breaks a rule on second reading: a fault of
   *     the program
   */
  public PlanOutcome planOnly(Chart chart, Practice practice, VisitRange visits, boolean grossFirst)
      throws UnworkableException {
    VisitRange range = Wished.range(chart, visits);
    List<Search> ways =
        ways(chart, grossFirst ? Remedies.passesApart(practice) : practice, tables());
    PlanOutcome known = ways.get(0).withoutStaging();
    if (known == null && range == null) {
      return Objects.requireNonNull(ways.get(0).wished(visits).refused());
    }
    return known == null ? only(ways, Objects.requireNonNull(range), grossFirst) : known;
  }

  /**
   * As {@link #planOnly} for each number of visits of a range by itself.
   *
   * @param heard is told of each outcome as it comes, from any thread
   * @return by number of visits, ascending
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   * @throws AuditFailedException if a course found breaks a rule on second reading: a fault of the
   *     program
   */
  public List<PlanOutcome> planEach(
      Chart chart,
      Practice practice,
      VisitRange visits,
      boolean grossFirst,
      Consumer<PlanOutcome> heard)
      throws UnworkableException {
    List<Search> ways =
        ways(chart, grossFirst ? Remedies.passesApart(practice) : practice, tables());
    List<Integer> numbers = IntStream.rangeClosed(visits.fewest(), visits.most()).boxed().toList();
    PlanOutcome known = ways.get(0).withoutStaging();
    return SideBySide.map(
        numbers,
        number -> {
          PlanOutcome outcome =
              known == null
                  ? only(
                      ways.stream().map(Search::new).toList(),
                      VisitRange.exactly(number),
                      grossFirst)
                  : known;
          heard.accept(outcome);
          return outcome;
        },
        threads);
  }

  private PlanOutcome only(List<Search> ways, VisitRange visits, boolean grossFirst) {
    Search search = best(ways, visits, grossFirst);
    return search.best == null
        ? new NoPlan(Remedies.obstacles(visits, search.nearest), List.of(), search.cutShort)
        : search.planned(visits, search.bound(ways), false);
  }

  /**
   * A search for each way to keep or leave wishes about how the work is done.
   *
   * @throws UnworkableException if the practice owns no insert that may do some of the work even
   *     where all that need not be kept are left
   */
  private List<Search> ways(Chart chart, Practice practice, PlanTables tables)
      throws UnworkableException {
    List<Search> ways = new ArrayList<>();
    UnworkableException unworkable = null;
    for (Chart way : Wished.ways(chart)) {
      try {
        ways.add(new Search(way, chart, practice, tables));
      } catch (UnworkableException none) {
        unworkable = none;
      }
    }
    if (ways.isEmpty() && unworkable != null) {
      throw unworkable;
    }
    return ways;
  }

  /** The same, none where the search is to end, or some of the work cannot be done. */
  private List<Search> others(Chart chart, Practice practice, PlanTables tables) {
    try {
      return stop.asked() ? List.of() : ways(chart, practice, tables);
    } catch (UnworkableException none) {
      return List.of();
    }
  }

  /** The search that finds the best course, each run. */
  private static Search best(List<Search> ways, VisitRange visits, boolean grossFirst) {
    Search best = ways.get(0);
    for (Search search : ways) {
      if (!search.tooManyPieces()) {
        search.run(visits, grossFirst);
      }
      Found found = search.best;
      if (found != null
          && (best.best == null || found.staged().seconds() < best.best.staged().seconds())) {
        best = search;
      }
    }
    return best;
  }

  /** What is to be staged: the work with its areas, and what of it waits. */
  private record Task(WorkList work, DeferredWork holding) {}

  /** A course found, what it stages, and the exact method for it. */
  private record Found(Task task, Staged staged, ExactCourses exact) {}

  /** One search over a range of visits. */
  private final class Search {
    private final Chart chart;
    private final Chart asked;
    private final Practice practice;
    private final PlanTables tables;
    private final Map<Integer, Long> bounds = new TreeMap<>();
    private final AreaCutter cutter;
    private final Task task;
    private @Nullable Found best;
    private @Nullable Staged nearest;
    private int fewest = Integer.MAX_VALUE;
    private boolean cutShort;

    /**
     * @param chart with those wishes kept that this search keeps
     * @param asked the chart as it is
     * @param tables what is known already; this search adds to it
     */
    Search(Chart chart, Chart asked, Practice practice, PlanTables tables)
        throws UnworkableException {
      this.chart = chart;
      this.asked = asked;
      this.practice = practice;
      this.tables = tables;
      this.cutter = new AreaCutter(chart, practice, stager);
      this.task = task(cutter.work());
    }

    /** The same mouth, nothing sought yet. */
    Search(Search other) {
      this.chart = other.chart;
      this.asked = other.asked;
      this.practice = other.practice;
      this.tables = other.tables;
      this.cutter = other.cutter;
      this.task = other.task;
    }

    /** What can be told without staging; null where staging must tell. */
    @Nullable PlanOutcome withoutStaging() {
      NoPlan unknown = Wished.unknownInserts(asked, practice);
      if (unknown != null) {
        return unknown;
      }
      if (task.holding().planned().isEmpty()) {
        return nothingPlanned();
      }
      return tooManyPieces()
          ? new NoPlan(List.of(Remedies.pieces(chart, practice)), List.of())
          : null;
    }

    private Task task(WorkList work) {
      return new Task(work, DeferredWork.of(work.steps(), practice, chart, chart.patient()));
    }

    private StagingCase staging(Task some, int visits, boolean grossFirst) {
      return new StagingCase(
          chart.patient(),
          practice,
          some.holding().planned(),
          Burden.each(some.work().areas(), chart, practice.minutes()),
          visits,
          grossFirst);
    }

    PlanOutcome nothingPlanned() {
      List<HeldBack> held = task.holding().held();
      return held.isEmpty()
          ? new Planned(
              nothingLeft(chart, practice, task.holding(), task.work()), Explanation.none())
          : new NoPlan(List.of(new Clash.EverythingWaits(held.get(0).root())), List.of());
    }

    /** Whether visits are so short that areas were cut into more pieces than can be staged. */
    boolean tooManyPieces() {
      return task.holding().planned().size() > StepSet.CAPACITY;
    }

    /**
     * The exact method for a case of the mouth.
     *
     * @param upTo whether it need not answer for more visits than the case has; else the same
     *     serves any number
     */
    private ExactCourses exact(Task some, StagingCase staging, boolean upTo) {
      return tables.of(
          some,
          upTo ? staging.visits() : Integer.MAX_VALUE,
          staging.numbFirst(),
          staging.grossFirst(),
          practice,
          far -> {
            StagingCase farthest = far.equals(practice) ? staging : staging(some, far, staging);
            return upTo ? stager.exactWithin(farthest) : stager.exact(farthest);
          });
    }

    private StagingCase staging(Task some, Practice far, StagingCase like) {
      return new StagingCase(
          chart.patient(),
          far,
          some.holding().planned(),
          Burden.each(some.work().areas(), chart, practice.minutes()),
          like.visits(),
          like.grossFirst());
    }

    void run(VisitRange visits, boolean grossFirst) {
      List<LowerBound> cases = new ArrayList<>();
      for (int number = visits.fewest(); number <= visits.most(); number++) {
        StagingCase staging = staging(task, number, grossFirst);
        // The last one is sought even where it cannot be: its clashes are what people are told.
        boolean worthSeeking =
            !staging.provablyInfeasible() || (cases.isEmpty() && number == visits.most());
        if (number <= staging.units() && worthSeeking) {
          cases.add(new LowerBound(staging));
        }
      }
      if (cases.isEmpty()) {
        return;
      }
      ExactCourses exact = exact(task, cases.get(0).staging(), false);
      Telling telling = new Telling(progress, cases.size());
      for (int from = 0; from < cases.size(); from += AT_ONCE) {
        // Waves of a fixed size, so that what is left out does not hang on the number of cores.
        List<LowerBound> wave = cases.subList(from, Math.min(cases.size(), from + AT_ONCE));
        List<LowerBound> open =
            wave.stream().filter(one -> exact.answers() || mayBeBest(one)).toList();
        if (best != null && !open.isEmpty() && stop.asked()) {
          cutShort = true;
          return;
        }
        List<Optional<Staged>> found =
            SideBySide.map(open, one -> told(telling, stager.stage(one, exact)), threads);
        for (int i = 0; i < open.size(); i++) {
          bounds.put(
              open.get(i).staging().visits(),
              found.get(i).map(one -> one.bound().seconds()).orElse(Long.MAX_VALUE));
          found.get(i).ifPresent(staged -> take(staged, exact));
        }
      }
      if (exact.answers()) {
        spareAVisit(visits, exact);
      }
      if (best == null && nearest == null) {
        take(stager.nearest(cases.get(cases.size() - 1).staging(), exact), exact);
      }
    }

    /**
     * Where an area that is begun must be finished (H11), that can cost a visit. Tries to spare it
     * by cutting an area between two teeth, each part of which is then finished in its visit.
     */
    private void spareAVisit(VisitRange visits, ExactCourses exact) {
      int number = Math.min(visits.most() + 1, fewest) - 1;
      if (number < visits.fewest() || staging(task, number, false).provablyInfeasible()) {
        return;
      }
      int tried = 0;
      for (Map.Entry<Area, List<List<Area>>> cut : cutter.cutOnce(task.work()).entrySet()) {
        boolean spared = best != null && !best.task().equals(task);
        if (spared || (best != null && tried >= MOST_CUTS)) {
          return;
        }
        if (exact.mayFitWithout(staging(task, number, false), cut.getKey())) {
          cut.getValue().forEach(areas -> tryCut(areas, number));
          tried += cut.getValue().size();
        }
      }
    }

    private void tryCut(List<Area> areas, int number) {
      Task cut = task(again(areas));
      if (stop.asked() || cut.holding().planned().size() > StepSet.CAPACITY) {
        return;
      }
      StagingCase staging = staging(cut, number, false);
      ExactCourses ofCut = exact(cut, staging, true);
      Staged staged = ofCut.answers() ? stager.stage(staging, ofCut) : null;
      if (staged != null && staged.feasible()) {
        take(cut, staged, ofCut);
      }
    }

    private WorkList again(List<Area> areas) {
      try {
        return cutter.again(areas);
      } catch (UnworkableException unworkable) {
        throw new IllegalStateException("What can be done whole can be done in parts.", unworkable);
      }
    }

    private static Optional<Staged> told(Telling telling, @Nullable Staged staged) {
      telling.tried(staged != null && staged.feasible() ? staged.seconds() : null);
      return Optional.ofNullable(staged);
    }

    private boolean mayBeBest(LowerBound bound) {
      return best == null || bound.seconds() < best.staged().seconds();
    }

    private void take(Staged staged, ExactCourses exact) {
      cutShort |= staged.cutShort();
      if (staged.feasible()) {
        fewest = Math.min(fewest, staged.layouts().size());
        take(task, staged, exact);
      } else if (nearest == null || staged.hard() > nearest.hard()) {
        nearest = staged;
      }
    }

    private void take(Task some, Staged staged, ExactCourses exact) {
      if (best == null || staged.seconds() < best.staged().seconds()) {
        best = new Found(some, staged, exact);
      }
    }

    /** What no course of as many visits as the best costs less than, whichever way it is. */
    long bound(List<Search> ways) {
      Staged staged = Objects.requireNonNull(best).staged();
      long bound = staged.cost().lowerBoundSeconds();
      for (Search way : ways) {
        if (way != this) {
          bound = Math.min(bound, way.bounds.getOrDefault(staged.layouts().size(), bound));
        }
      }
      return bound;
    }

    Wished wished(VisitRange visits) {
      // Such looks are no progress of the search that is watched.
      CoursePlanner quiet = new CoursePlanner(stager, threads, stop, Progress.UNHEARD, null);
      return new Wished(
          asked,
          practice,
          visits,
          new Wished.Seeker() {
            @Override
            public @Nullable Staged seek(Chart other, Practice same, VisitRange some) {
              VisitRange range = Wished.range(other, some);
              if (range == null) {
                return null;
              }
              List<Search> others = quiet.others(other, same, tables);
              Found found = others.isEmpty() ? null : best(others, range, false).best;
              return found == null ? null : found.staged();
            }

            @Override
            public boolean possible(Chart other, Practice changed, VisitRange some) {
              VisitRange range = Wished.range(other, some);
              if (range == null) {
                return false;
              }
              return quiet.others(other, changed, new PlanTables()).stream()
                  .anyMatch(search -> search.feasible(range));
            }
          },
          stop);
    }

    /** Whether there is a course that keeps the rules, whatever it costs. */
    boolean feasible(VisitRange visits) {
      for (int number = visits.fewest(); number <= visits.most() && !stop.asked(); number++) {
        StagingCase staging = staging(task, number, false);
        if (number > staging.units() || tooManyPieces() || staging.provablyInfeasible()) {
          continue;
        }
        ExactCourses exact = exact(task, staging, false);
        if (exact.answers()
            ? stager.some(staging, exact) != null
            : stager.searched(staging).feasible()) {
          return true;
        }
      }
      return false;
    }

    /**
     * @param visits those asked for
     * @param bound what no course of as many visits costs less than
     * @param explained whether the course is to be explained
     */
    PlanOutcome planned(VisitRange visits, long bound, boolean explained) {
      Found found = Objects.requireNonNull(best);
      Staged staged = found.staged();
      Course whole =
          course(asked, practice, found.task().work(), found.task().holding(), staged)
              .withCost(new Cost(staged.seconds(), bound, staged.terms()));
      if (explained) {
        whole =
            whole
                .withReasons(reasons(found, visits))
                .withWishes(wished(visits).explained(whole.wishes(), staged));
      }
      Course course = cutShort ? whole.withCutShort(true) : whole;
      List<Finding> findings = Audit.audit(course, asked, practice);
      if (!findings.isEmpty()) {
        throw new AuditFailedException(findings.stream().map(Finding::line).toList());
      }
      return new Planned(
          course,
          explained
              ? Explanation.later(() -> new Explainer(stager).explain(staged))
              : Explanation.none());
    }

    private Reasons reasons(Found found, VisitRange visits) {
      Map<AreaRef, Double> burdens =
          Burden.each(found.task().work().areas(), chart, practice.minutes());
      return new VisitReasons(found.staged(), burdens, found.exact(), stop).reasons(visits);
    }
  }

  /** A course without visits, where all that is left waits, or nothing is. */
  public static Course nothingLeft(
      Chart chart, Practice practice, DeferredWork holding, WorkList work) {
    return course(
        chart,
        practice,
        List.of(),
        new Cost(0, 0, Map.of()),
        holding,
        work.notes(),
        false,
        Wished.outcomes(chart, practice, null, List.of()));
  }

  /**
   * The course that a staging makes, not yet audited nor explained.
   *
   * @param work of which the staging holds what can be planned
   * @param holding what of it waits
   */
  public static Course course(
      Chart chart, Practice practice, WorkList work, DeferredWork holding, Staged staged) {
    WatchSites watch = new WatchSites(chart, practice);
    List<Visit> visits = new ArrayList<>();
    StagingCase staging = staged.staging();
    DayDose day =
        new DayDose(staging.earlierPermille() / 1000.0, staging.earlierMicrograms() / 1000.0);
    for (Visit visit : staged.visits()) {
      day = (visits.isEmpty() || staging.oneDay() ? day : new DayDose(0, 0)).plus(visit);
      visits.add(
          visit
              .withWatch(watch.of(visit))
              .withCautions(Cautions.ofVisit(visit, day, chart, practice))
              .withStopQuestions(Cautions.stopQuestions(chart, practice, holding.held())));
    }
    Cautions.addLeftOpen(visits, holding.held());
    return course(
        chart,
        practice,
        visits,
        staged.cost(),
        holding,
        work.notes(),
        staging.grossFirst(),
        Wished.outcomes(chart, practice, staged, holding.held()));
  }

  private static Course course(
      Chart chart,
      Practice practice,
      List<Visit> visits,
      Cost cost,
      DeferredWork holding,
      List<WorkNote> notes,
      boolean grossFirst,
      List<WishOutcome> wishes) {
    PatientRules rules = PatientRules.of(practice, chart.patient());
    return new Course(
        chart.caseName(),
        visits,
        rules.minGapDays(),
        rules.maxGapDays(),
        practice.appointments().reevaluateFromWeeks().asInt(),
        practice.appointments().reevaluateToWeeks().asInt(),
        cost,
        holding.held(),
        visits.isEmpty() ? List.of() : Assumptions.of(visits, practice),
        Cautions.ofCourse(chart, practice, visits.size(), notes),
        false,
        practice.appointments().passesTogether(),
        grossFirst,
        wishes,
        Reasons.NONE,
        practice.appointments().passesTogether().deadline()
            ? rules.leastGapDays()
            : rules.minGapDays(),
        rules.mostGapDays().isPresent() ? rules.mostGapDays().getAsInt() : null);
  }
}
