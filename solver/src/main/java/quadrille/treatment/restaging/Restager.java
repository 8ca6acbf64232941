package quadrille.treatment.restaging;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Before;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.planning.AreaCutter;
import quadrille.plan.planning.AuditFailedException;
import quadrille.plan.planning.Clash;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.DeferredWork;
import quadrille.plan.planning.Progress;
import quadrille.plan.planning.Remedies;
import quadrille.plan.planning.Telling;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.Commitments;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.work.Burden;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;
import quadrille.seeking.SearchStop;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.TeethInDoubt;
import quadrille.treatment.record.VisitDone;

/**
 * Stages again what a course under way has left. What is done is not planned again; what is planned
 * stays where it can, and the first of these that keeps every hard rule is taken:
 *
 * <ol>
 *   <li>the visits to come as they are, less what was done early;
 *   <li>all of them as they are but one, which takes what was left over; the cheapest such one;
 *   <li>as many visits, put together anew within the lengths and sides of those that are booked;
 *   <li>the visits as they are, and one more for what was left over;
 *   <li>one or two more visits, put together anew within the lengths and sides of those booked;
 *   <li>any number of visits, bookings or not; the cheapest.
 * </ol>
 *
 * <p>Areas that were begun and not finished (H11) come first: of the first three, one is taken in
 * which the last of them is finished in the earliest visit that may be.
 */
public final class Restager {
  private static final int MOST_MORE = 3;

  private final Stager stager;
  private final SearchStop stop;
  private final Progress progress;

  /** Always seeks to the end. */
  public Restager(Effort effort) {
    this(effort, new SearchStop(), Progress.UNHEARD);
  }

  /**
   * @param stop once asked, the best course found so far is taken, audited and answered with; where
   *     none keeps every hard rule yet, what is left to try gets a first course and no search. A
   *     course that might have been another without it says that the search was cut short, and may
   *     differ from one run to the next
   */
  public Restager(Effort effort, SearchStop stop, Progress progress) {
    this.stager = new Stager(effort, stop);
    this.stop = stop;
    this.progress = progress;
  }

  /** What re-staging came to. */
  public sealed interface Outcome {

    /** A course that passed the audit. */
    record Again(Restaged restaged) implements Outcome {}

    /**
     * What was done may be recorded at other teeth than were meant; a person must look first.
     *
     * @param statements that nobody has confirmed; at least one
     */
    record Unconfirmed(List<TeethInDoubt.Statement> statements) implements Outcome {
      public Unconfirmed {
        statements = List.copyOf(statements);
      }
    }

    /**
     * No course keeps every hard rule.
     *
     * @param clashes what stands in the way
     * @param cutShort whether a longer search might have found one
     */
    record NoCourse(List<Clash> clashes, boolean cutShort) implements Outcome {
      public NoCourse {
        clashes = List.copyOf(clashes);
      }
    }
  }

  /**
   * Stages a course again.
   *
   * @param practice its figures hold; the log's own, or others such as calibrated ones
   * @param day the day of the next visit, where something was given earlier on that day; null for a
   *     day on which nothing was given
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   * @throws AuditFailedException if the course found breaks a rule on second reading: a fault of
   *     the program
   */
  public Outcome restage(CourseLog log, Practice practice, @Nullable LocalDate day)
      throws UnworkableException {
    List<TeethInDoubt.Statement> doubtful = TeethInDoubt.of(log);
    if (!doubtful.isEmpty()) {
      return new Outcome.Unconfirmed(doubtful);
    }
    Outcome outcome = new Run(log, practice, day, true).run();
    boolean wished = wishes(log).stream().anyMatch(one -> stays(one) && one.wish().must());
    // Of what is left, not all may be kept that could be kept of the whole.
    return wished && outcome instanceof Outcome.NoCourse
        ? new Run(log, practice, day, false).run()
        : outcome;
  }

  /**
   * All ways in which a course may go on: the usual one of {@link #restage} first, then those that
   * change appointments, by how many and by the minutes. Each has passed its audit.
   *
   * @param usual what {@link #restage} came to for the same log, practice and day
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   */
  public List<WayOn> ways(CourseLog log, Practice practice, @Nullable LocalDate day, Restaged usual)
      throws UnworkableException {
    CourseState state = CourseState.of(log);
    List<WayOn> others = new ArrayList<>();
    for (WayOn.Kind kind : WayOn.Kind.values()) {
      Restaged other = new Run(log, practice, day, true).by(kind);
      if (other != null && !alike(other, usual)) {
        Restaged found = other;
        if (others.stream().noneMatch(way -> alike(found, way.restaged()))) {
          others.add(WayOn.of(kind, state, found));
        }
      }
    }
    others.sort(
        Comparator.comparingInt((WayOn way) -> way.calls().size()).thenComparing(WayOn::minutes));
    List<WayOn> ways = new ArrayList<>(List.of(WayOn.of(WayOn.Kind.USUAL, state, usual)));
    ways.addAll(others);
    return List.copyOf(ways);
  }

  private static boolean alike(Restaged one, Restaged other) {
    return visits(one).equals(visits(other));
  }

  private static Map<Integer, Set<BlockName>> visits(Restaged restaged) {
    Map<Integer, Set<BlockName>> visits = new TreeMap<>();
    for (Visit visit : restaged.course().visits()) {
      Set<BlockName> blocks = new LinkedHashSet<>();
      visit.steps().forEach(step -> blocks.add(BlockName.of(step)));
      visits.put(visit.number(), blocks);
    }
    return visits;
  }

  /** What was wished of the course, as its last plan has it. */
  private static List<WishOutcome> wishes(CourseLog log) {
    return CourseState.of(log).course().wishes();
  }

  /** Visits are numbered anew in the mind of whoever stages again. */
  private static boolean stays(WishOutcome outcome) {
    return outcome.state() != WishOutcome.State.DROPPED
        && !(outcome.wish().ask() instanceof Wish.InVisit);
  }

  /** Whether an entry of a plan is a step of the work. */
  static boolean same(Entry.Debride entry, Step step) {
    return entry.area().equals(step.area().ref())
        && entry.pass() == step.pass()
        && entry.aspect() == step.aspect()
        && entry.insert().equals(step.insert().name())
        && entry.power() == step.power()
        && entry.teeth().stream().anyMatch(step.teeth()::contains);
  }

  /** One pass of one area, which stays together. */
  private record BlockName(AreaRef area, Pass pass) {
    static BlockName of(Step step) {
      return new BlockName(step.area().ref(), step.pass());
    }

    static BlockName of(Entry.Debride step) {
      return new BlockName(step.area(), step.pass());
    }
  }

  private final class Run {
    private final List<WishOutcome> dropped;
    private final CourseState state;
    private final Practice practice;
    private final Chart chart;
    private final Chart asked;
    private final Patient patient;
    private final Before before;
    private final List<Integer> usedNumbers = new ArrayList<>();
    private WorkList work;
    private DeferredWork holding;
    private List<Step> steps;
    private List<Visit> kept = List.of();
    private List<List<Integer>> sets = List.of();
    private List<Integer> leftOver = List.of();
    private @Nullable Staged nearest;
    private @Nullable StagingCase infeasible;
    private int finishBy = Integer.MAX_VALUE;
    private boolean cutShort;
    private Telling telling = new Telling(progress, 1);
    private final Practice practiceBefore;
    private final List<Area> areas;
    private final boolean stagedSinceLastVisit;

    /**
     * @param wished whether what was wished holds on, but for visits' numbers
     */
    Run(CourseLog log, Practice practice, @Nullable LocalDate day, boolean wished)
        throws UnworkableException {
      List<WishOutcome> all = wishes(log);
      List<WishOutcome> held = all.stream().filter(one -> wished && stays(one)).toList();
      this.dropped =
          all.stream()
              .filter(one -> !held.contains(one))
              .map(one -> new WishOutcome(one.wish(), WishOutcome.State.DROPPED))
              .toList();
      this.state = CourseState.of(log);
      this.practice = practice;
      this.practiceBefore = log.practice();
      Chart now = state.chart();
      this.asked =
          now.withPatient(now.patient().withWishes(held.stream().map(WishOutcome::wish).toList()));
      this.chart =
          now.withPatient(
              now.patient().withWishes(held.stream().map(WishOutcome::asKept).toList()));
      this.before = state.before(day);
      this.patient = patientUnderWay();
      List<Course> plans = new ArrayList<>();
      boolean sinceLastVisit = false;
      for (LogEntry entry : log.entries()) {
        if (entry.event() instanceof Event.Planned planned) {
          plans.add(0, planned.course());
        } else if (entry.event() instanceof Event.Replanned replanned) {
          plans.add(0, replanned.course());
          sinceLastVisit = true;
        } else if (entry.event() instanceof VisitDone || entry.event() instanceof Corrected) {
          sinceLastVisit = false;
        }
      }
      this.stagedSinceLastVisit = sinceLastVisit;
      plans.forEach(plan -> plan.visits().forEach(visit -> usedNumbers.add(visit.number())));
      this.areas = NamedAreas.of(chart, plans);
      this.work = WorkPlanner.plan(chart, practice, areas, state.done());
      this.holding = DeferredWork.of(work.steps(), practice, chart, patient);
      this.steps = holding.planned();
    }

    /** The complaint that the course was to start with has been seen to once it was begun. */
    private Patient patientUnderWay() {
      Patient all = chart.patient();
      Quadrant start = all.startWith();
      return start == null || !state.done().startedIn(start) ? all : all.withStartWith(null);
    }

    Outcome run() throws UnworkableException {
      for (GivenInjection given : before.given()) {
        if (!practice.agents().containsKey(given.agent())) {
          return new Outcome.NoCourse(List.of(new Clash.UnknownAgentGiven(given.agent())), false);
        }
      }
      if (steps.isEmpty()) {
        return again(null, List.of());
      }
      if (steps.size() > StepSet.CAPACITY) {
        return new Outcome.NoCourse(List.of(new Clash.TooManyPiecesLeft()), false);
      }
      findHomes();
      telling = new Telling(progress, most());
      // What was staged since the last visit stands while it can: planned again, nothing changes.
      Attempt found = stagedSinceLastVisit ? asPlanned() : null;
      // As early as may be, but no visit more for it.
      int latest = begun().isEmpty() ? 1 : kept.size();
      for (int last = 1; found == null && last <= latest; last++) {
        finishBy = last < latest ? last : Integer.MAX_VALUE;
        found = withinTheVisits();
      }
      // A visit more comes last, which only appointments justify where something was begun.
      boolean mayComeLast = begun().isEmpty() || !state.booked().isEmpty();
      if (found == null && !kept.isEmpty() && !leftOver.isEmpty() && mayComeLast) {
        found = oneVisitMore();
      }
      for (int more = 1; found == null && !state.booked().isEmpty() && more <= 2; more++) {
        found = anew(kept.size() + more, true);
      }
      if (found == null) {
        found = free();
      }
      if (found == null && nearest == null && infeasible != null) {
        nearest = stager.nearest(infeasible, stager.exact(infeasible));
      }
      if (found == null) {
        return new Outcome.NoCourse(
            Remedies.obstacles(VisitRange.exactly(Math.max(1, kept.size())), nearest), cutShort);
      }
      return again(found.staged(), found.numbers());
    }

    /** The course by one way, appointments or not; null where there is none. */
    @Nullable Restaged by(WayOn.Kind kind) {
      boolean known =
          before.given().stream().allMatch(one -> practice.agents().containsKey(one.agent()));
      if (!known || steps.isEmpty() || steps.size() > StepSet.CAPACITY) {
        return null;
      }
      findHomes();
      Attempt found =
          switch (kind) {
            case USUAL -> null;
            case LONGER_VISIT -> leftOver.isEmpty() ? null : aLongerVisitTakesWhatIsLeft();
            case VISITS_JOINED -> joined();
            case VISIT_ADDED -> leftOver.isEmpty() || kept.isEmpty() ? null : oneVisitMore();
          };
      return found == null ? null : restaged(found.staged(), found.numbers());
    }

    /** What was begun is finished as early as may be; else the cheapest. */
    private @Nullable Attempt aLongerVisitTakesWhatIsLeft() {
      Attempt best = null;
      for (int taker = 0; taker < kept.size() && goesOn(best); taker++) {
        List<Commitments.Slot> slots = pinned(orders(sets), taker);
        slots.set(taker, new Commitments.Slot(null, null, slots.get(taker).side()));
        best = cheaper(best, tried(slots, kept.size()));
        if (best != null && !begun().isEmpty()) {
          break;
        }
      }
      return best;
    }

    /** Two visits that numb one side at the most become the first of them; the cheapest pair. */
    private @Nullable Attempt joined() {
      Attempt best = null;
      for (int first = 0; first < kept.size(); first++) {
        for (int second = first + 1; second < kept.size() && goesOn(best); second++) {
          NumbSide one = kept.get(first).numbSide();
          NumbSide other = kept.get(second).numbSide();
          boolean oneSide = one == other || one == NumbSide.NONE || other == NumbSide.NONE;
          if (!oneSide || working(first) + working(second) > longestSeconds()) {
            continue;
          }
          List<Commitments.Slot> slots = pinned(orders(sets), first);
          NumbSide side = one == NumbSide.NONE ? other : one;
          slots.set(first, new Commitments.Slot(null, null, side));
          slots.remove(second);
          List<Integer> numbers = new ArrayList<>(kept.stream().map(Visit::number).toList());
          numbers.remove(second);
          Attempt attempt = tried(slots, slots.size());
          best = cheaper(best, attempt == null ? null : new Attempt(attempt.staged(), numbers));
        }
      }
      return best;
    }

    private int working(int place) {
      return sets.get(place).stream().mapToInt(index -> steps.get(index).seconds()).sum();
    }

    private int longestSeconds() {
      Integer own = patient.longestVisitMinutes();
      int practiceMost = practice.appointments().longestVisitMinutes().asInt();
      return 60 * (own == null ? practiceMost : Math.min(own, practiceMost));
    }

    private static @Nullable Attempt cheaper(@Nullable Attempt one, @Nullable Attempt other) {
      return one == null || other != null && other.staged().seconds() < one.staged().seconds()
          ? other
          : one;
    }

    /** The visits to come, with nothing changed but what must be. */
    private @Nullable Attempt withinTheVisits() {
      Attempt found = asPlanned();
      if (found == null && !kept.isEmpty()) {
        found = oneVisitTakesWhatIsLeft();
      }
      return found == null && !kept.isEmpty() ? anew(kept.size(), true) : found;
    }

    /** How many courses are sought at the most. */
    private int most() {
      int around = (kept.size() + 2) * (begun().isEmpty() ? 1 : kept.size());
      int anyNumber = mostVisits() * (begun().isEmpty() ? 2 : mostVisits() + 1) / 2;
      return around + (state.booked().isEmpty() ? 0 : 2) + anyNumber;
    }

    private int mostVisits() {
      return Math.min(VisitRange.LIMIT, Math.max(1, kept.size()) + MOST_MORE);
    }

    /** A course tried, and the numbers of its visits. */
    private record Attempt(Staged staged, List<Integer> numbers) {}

    /** The visits that keep some work, with their steps, and the steps that have no visit. */
    private void findHomes() {
      List<Visit> visits = new ArrayList<>();
      List<List<Integer>> homes = new ArrayList<>();
      List<Integer> open = new ArrayList<>(IntStream.range(0, steps.size()).boxed().toList());
      for (Visit visit : state.toCome()) {
        Set<BlockName> blocks = new LinkedHashSet<>();
        visit.steps().forEach(step -> blocks.add(BlockName.of(step)));
        List<Integer> own =
            open.stream().filter(index -> blocks.contains(BlockName.of(steps.get(index)))).toList();
        if (!own.isEmpty()) {
          visits.add(visit);
          homes.add(own);
          open.removeAll(own);
        }
      }
      kept = List.copyOf(visits);
      sets = List.copyOf(homes);
      leftOver = List.copyOf(open);
    }

    private @Nullable Attempt asPlanned() {
      if (kept.isEmpty() || !leftOver.isEmpty()) {
        return null;
      }
      return tried(pinned(orders(sets), -1), kept.size());
    }

    private @Nullable Attempt oneVisitTakesWhatIsLeft() {
      Attempt best = null;
      for (int taker = 0; taker < kept.size() && goesOn(best); taker++) {
        best = cheaper(best, tried(pinned(orders(sets), taker), kept.size()));
      }
      return best;
    }

    private @Nullable Attempt oneVisitMore() {
      return tried(pinned(orders(sets), -1), kept.size() + 1);
    }

    private @Nullable Attempt anew(int visits, boolean promised) {
      List<Commitments.Slot> slots = new ArrayList<>();
      if (promised) {
        kept.forEach(visit -> slots.add(promise(visit, null)));
      }
      return tried(slots, visits);
    }

    /** Bookings or not; areas that are too long for any visit are cut again. */
    private @Nullable Attempt free() throws UnworkableException {
      work = new AreaCutter(chart, practice, stager, state.done()).work(areas);
      holding = DeferredWork.of(work.steps(), practice, chart, patient);
      steps = holding.planned();
      Attempt best = null;
      int most = mostVisits();
      for (int visits = 1; visits <= most && goesOn(best); visits++) {
        Attempt attempt = null;
        int latest = begun().isEmpty() ? 1 : visits;
        for (int last = 1; attempt == null && last <= latest; last++) {
          finishBy = last < latest ? last : Integer.MAX_VALUE;
          attempt = anew(visits, false);
        }
        best = cheaper(best, attempt);
      }
      return best;
    }

    /** Whether to seek on, with a course in hand or none. */
    private boolean goesOn(@Nullable Attempt best) {
      boolean enough = best != null && stop.asked();
      cutShort |= enough;
      return !enough;
    }

    /** The order of each visit: as planned where its steps are the same, else a good one. */
    private List<List<Integer>> orders(List<List<Integer>> some) {
      List<List<Integer>> orders = new ArrayList<>();
      for (int i = 0; i < some.size(); i++) {
        List<Integer> order = plannedOrder(kept.get(i), some.get(i));
        orders.add(order == null ? goodOrder(some.get(i)) : order);
      }
      return orders;
    }

    private @Nullable List<Integer> plannedOrder(Visit visit, List<Integer> set) {
      List<Integer> open = new ArrayList<>(set);
      List<Integer> order = new ArrayList<>();
      for (Entry.Debride entry : visit.steps()) {
        for (int index : open) {
          if (same(entry, steps.get(index))) {
            order.add(index);
            open.remove(Integer.valueOf(index));
            break;
          }
        }
      }
      return open.isEmpty() ? order : null;
    }

    private List<Integer> goodOrder(List<Integer> set) {
      List<Step> some = set.stream().map(steps::get).toList();
      StagingCase alone =
          new StagingCase(patient.withWishes(List.of()), practice, some, Map.of(), 1);
      int[] order = stager.stage(alone).layouts().get(0).order();
      return Arrays.stream(order).mapToObj(set::get).toList();
    }

    /**
     * @param free place of the one visit that may change; -1 for none
     */
    private List<Commitments.Slot> pinned(List<List<Integer>> orders, int free) {
      List<Commitments.Slot> slots = new ArrayList<>();
      for (int i = 0; i < kept.size(); i++) {
        slots.add(promise(kept.get(i), i == free ? null : orders.get(i)));
      }
      return slots;
    }

    private Commitments.Slot promise(Visit visit, @Nullable List<Integer> order) {
      Event.@Nullable Appointment appointment = state.booked().get(visit.number());
      return appointment == null
          ? new Commitments.Slot(order, null, null)
          : new Commitments.Slot(order, appointment.minutes(), visit.numbSide());
    }

    /** H1 over the day: what was numbed earlier on it binds the first visit to its side. */
    private @Nullable NumbSide numbEarlier() {
      Set<Side> sides = EnumSet.noneOf(Side.class);
      for (GivenInjection given : before.given()) {
        Injection kind = practice.injections().get(given.injection());
        boolean across =
            kind != null
                && practice.appointments().midlineInfiltration()
                && new PlacedInjection(kind, given.quadrant(), given.tooth()).acrossMidline();
        if (!across && (kind == null || !kind.bothSides())) {
          sides.add(given.quadrant().side());
        }
      }
      return sides.isEmpty() || !practice.appointments().oneNumbSide()
          ? null
          : sides.size() > 1 ? NumbSide.NONE : NumbSide.of(sides.iterator().next());
    }

    /** What stands of the visits, the first of them bound by its day; null where it cannot be. */
    private @Nullable List<Commitments.Slot> onTheDay(List<Commitments.Slot> slots) {
      NumbSide earlier = numbEarlier();
      Commitments.Slot first = slots.isEmpty() ? Commitments.Slot.FREE : slots.get(0);
      NumbSide promised = first.side();
      if (earlier == null || promised == NumbSide.NONE) {
        return slots;
      }
      if (promised != null && promised != NumbSide.BOTH && promised != earlier) {
        return null;
      }
      List<Commitments.Slot> all = new ArrayList<>(slots);
      Commitments.Slot bound = new Commitments.Slot(first.pinned(), first.minutes(), earlier);
      if (all.isEmpty()) {
        all.add(bound);
      } else {
        all.set(0, bound);
      }
      return all;
    }

    private @Nullable Attempt tried(List<Commitments.Slot> wanted, int visits) {
      List<Commitments.Slot> slots = onTheDay(wanted);
      if (slots == null) {
        telling.tried(null);
        return null;
      }
      Commitments standing =
          new Commitments(
              slots,
              given(),
              before.gelCartridges(),
              before.setsOpened(),
              lastVisits(),
              !before.visits().isEmpty());
      StagingCase staging =
          new StagingCase(
              patient,
              practice,
              steps,
              Burden.each(work.areas(), chart, practice.minutes()),
              visits,
              false,
              standing);
      if (visits > staging.units()) {
        return null;
      }
      Staged staged = stager.stage(staging, stager.exact(staging));
      if (staged == null) {
        telling.tried(null);
        infeasible = staging;
        return null;
      }
      telling.tried(staged.feasible() ? staged.seconds() : null);
      cutShort |= staged.cutShort();
      if (staged.feasible()) {
        return inTime(staged) ? new Attempt(staged, numbers(visits)) : null;
      }
      if (nearest == null || staged.hard() > nearest.hard()) {
        nearest = staged;
      }
      return null;
    }

    /** H11: areas that were begun and not finished have a last visit. */
    private SortedMap<AreaRef, Integer> lastVisits() {
      SortedMap<AreaRef, Integer> last = new TreeMap<>();
      begun().forEach(area -> last.put(area, finishBy));
      return last;
    }

    /** Areas of which something was done, and something is left; none where passes lie apart. */
    private Set<AreaRef> begun() {
      Set<AreaRef> begun = new TreeSet<>();
      if (practice.appointments().passesTogether().sameVisit()) {
        for (Step step : steps) {
          if (step.area().teeth().stream().anyMatch(state.done()::startedAt)) {
            begun.add(step.area().ref());
          }
        }
      }
      return begun;
    }

    private boolean inTime(Staged staged) {
      SortedMap<AreaRef, Integer> last = lastVisits();
      return staged.staging().areas().stream()
          .filter(area -> last.containsKey(area.ref()))
          .allMatch(area -> staged.visitsOf(area).last() <= finishBy);
    }

    private List<Doses.Amount> given() {
      List<Doses.Amount> amounts = new ArrayList<>();
      for (GivenInjection given : before.given()) {
        Agent agent = Objects.requireNonNull(practice.agents().get(given.agent()));
        amounts.add(new Doses.Amount(agent, given.ml()));
      }
      return amounts;
    }

    /** Those of the visits that stay, then new ones; a course that has fewer drops the last. */
    private List<Integer> numbers(int visits) {
      List<Integer> numbers = new ArrayList<>(kept.stream().map(Visit::number).toList());
      int last =
          Math.max(
              usedNumbers.stream().mapToInt(Integer::intValue).max().orElse(0),
              before.visits().isEmpty() ? 0 : before.visits().last());
      while (numbers.size() < visits) {
        numbers.add(++last);
      }
      return numbers.subList(0, visits);
    }

    private Outcome again(@Nullable Staged staged, List<Integer> numbers) {
      return new Outcome.Again(restaged(staged, numbers));
    }

    private Restaged restaged(@Nullable Staged staged, List<Integer> numbers) {
      Course course =
          staged == null
              ? CoursePlanner.nothingLeft(asked, practice, holding, work)
              : CoursePlanner.course(asked, practice, work, holding, staged);
      List<Visit> visits = new ArrayList<>();
      RecordCautions cautions = new RecordCautions(state);
      for (int i = 0; i < course.visits().size(); i++) {
        visits.add(cautions.added(course.visits().get(i).withNumber(numbers.get(i))));
      }
      if (!visits.isEmpty()) {
        visits.set(0, RecordCautions.givenEarlier(visits.get(0), before));
      }
      course = cautions.added(course.withVisits(visits));
      List<WishOutcome> outcomes = new ArrayList<>(course.wishes());
      outcomes.addAll(dropped);
      course = course.withWishes(outcomes);
      if (cutShort) {
        course = course.withCutShort(true);
      }
      List<Finding> findings = Audit.audit(course, before, asked, practice);
      if (!findings.isEmpty()) {
        throw new AuditFailedException(findings.stream().map(Finding::line).toList());
      }
      return new Restaged(
          course,
          state.chart(),
          before,
          new PlanChanges(state, course).list(practiceBefore, practice));
    }
  }
}
