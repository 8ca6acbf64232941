package quadrille.diary.booking;

import ai.timefold.solver.core.api.score.buildin.hardmediumsoftlong.HardMediumSoftLongScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
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
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.seeking.SearchStop;

/**
 * Simulated annealing (Kirkpatrick, Gelatt, Vecchi 1983) over a large neighbourhood (Shaw 1998),
 * for many courses at once. The construction heuristic books each course by the exact search in
 * order of arrival; the local search then ruins and recreates ({@link RebookMove}). The same diary
 * and courses give the same bookings: the search is seeded, runs on one thread, and stops by moves
 * and not by the clock.
 */
public final class BatchBooker {

  private static final int MOVES_A_VISIT = 600;
  private static final int MOST_MOVES = 40_000;

  /**
   * How bookings are improved. The usual figures are assumptions; docs/booking.md compares some
   * others.
   *
   * @param temperature points by which a worse booking may be at first to be taken one time in e
   * @param ruins ways of taking courses out
   */
  record Search(int temperature, List<Ruin> ruins) {

    static final Search USUAL = new Search(120, Ruin.USUAL);

    Search {
      ruins = List.copyOf(ruins);
    }
  }

  private final BookingCase booking;
  private final BookingSolution start;
  private final Search search;
  private final int moves;
  private final Watch watch;

  private BatchBooker(
      BookingCase booking, BookingSolution start, Search search, int moves, Watch watch) {
    this.booking = booking;
    this.start = start;
    this.search = search;
    this.moves = moves;
    this.watch = watch;
  }

  /**
   * Who looks on from outside.
   *
   * @param stop ends the search early; it keeps the best that it has
   * @param heard is told how many moves have been tried, and of how many, by the thread that seeks
   */
  public record Watch(SearchStop stop, Heard heard) {

    /** Nobody. */
    public static Watch nobody() {
      return new Watch(new SearchStop(), (tried, of) -> {});
    }
  }

  /** Hears how a search goes on. */
  @FunctionalInterface
  public interface Heard {
    /** So many moves of so many have been tried. */
    void tried(int moves, int of);
  }

  /**
   * What was booked.
   *
   * @param visits in order of arrival of their courses, each course's in order
   * @param left cases of courses for which no place was found
   * @param points what the bookings cost; what waits without a place is not in it
   */
  public record Booked(List<OfferedVisit> visits, List<String> left, long points) {
    public Booked {
      visits = List.copyOf(visits);
      left = List.copyOf(left);
    }
  }

  /**
   * Books what courses still lack.
   *
   * @param requests cases differ
   * @param first day on which something may be booked
   * @param last such day
   */
  public static Booked book(
      Diary diary,
      List<CourseRequest> requests,
      BookingWeights weights,
      LocalDate first,
      LocalDate last) {
    return book(diary, requests, weights, first, last, Watch.nobody());
  }

  /**
   * The same, with somebody who looks on. Each course is booked once, whenever the end is asked
   * for; how far that is improved by then differs from run to run.
   */
  public static Booked book(
      Diary diary,
      List<CourseRequest> requests,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      Watch watch) {
    int visits = requests.stream().mapToInt(request -> request.visits().size()).sum();
    int moves = requests.size() < 2 ? 0 : moves(visits);
    return book(diary, requests, weights, first, last, Search.USUAL, moves, watch);
  }

  /** Moves for so many visits, all courses' together. */
  static int moves(int visits) {
    return Math.min(MOST_MOVES, MOVES_A_VISIT * visits);
  }

  /** The same with so many moves. */
  static Booked book(
      Diary diary,
      List<CourseRequest> requests,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      int moves) {
    return book(diary, requests, weights, first, last, Search.USUAL, moves, Watch.nobody());
  }

  /** The same with another search. */
  static Booked book(
      Diary diary,
      List<CourseRequest> requests,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      Search search,
      int moves,
      Watch watch) {
    BookingCase booking = new BookingCase(diary, weights, first, last);
    List<CourseCase> courses = new ArrayList<>();
    List<CourseRequest> arrived = new ArrayList<>(requests);
    arrived.sort(Comparator.comparing(CourseRequest::asked));
    for (CourseRequest request : arrived) {
      courses.add(CourseCase.of(courses.size(), booking, request));
    }
    return new BatchBooker(
            booking, new BookingSolution(booking, courses, search.ruins()), search, moves, watch)
        .book();
  }

  static SolverConfig config() {
    return config(Search.USUAL);
  }

  private static SolverConfig config(Search how) {
    LocalSearchPhaseConfig search =
        new LocalSearchPhaseConfig()
            .withAcceptorConfig(
                new LocalSearchAcceptorConfig()
                    .withAcceptorTypeList(List.of(AcceptorType.SIMULATED_ANNEALING))
                    .withSimulatedAnnealingStartingTemperature(
                        "0hard/0medium/" + how.temperature() + "soft"))
            .withForagerConfig(new LocalSearchForagerConfig().withAcceptedCountLimit(1));
    search.setNeighborhoodProviderClass(BookingMoves.class);
    return new SolverConfig()
        .withSolutionClass(BookingSolution.class)
        .withEntityClasses(BookedVisit.class)
        .withPreviewFeature(PreviewFeature.NEIGHBORHOODS)
        .withScoreDirectorFactory(
            new ScoreDirectorFactoryConfig().withConstraintProviderClass(BookingRules.class))
        .withEnvironmentMode(EnvironmentMode.NO_ASSERT)
        .withRandomSeed(0L)
        // No meters, which searches side by side would take from each other, with a warning.
        .withMonitoringConfig(new MonitoringConfig().withSolverMetricList(List.of()))
        .withPhases(search);
  }

  private Booked book() {
    Occupancy taken = Occupancy.of(booking);
    for (CourseCase course : start.courses()) {
      CourseSearch.best(course, taken, CourseSearch.Price.NONE)
          .ifPresent(found -> place(course, found, taken));
    }
    return read(
        moves == 0 ? scored(start) : watch.stop().during(this::improved, () -> scored(start)));
  }

  private void place(CourseCase course, CourseSearch.Found found, Occupancy taken) {
    for (BookedVisit visit : start.visits()) {
      if (visit.course() == course && !visit.pinned()) {
        Slot slot = found.slots().get(visit.visitPlace());
        visit.slot(slot);
        taken.place(slot, visit.visit().minutes(), visit.visit().uses());
      }
    }
  }

  private BookingSolution improved() {
    SolverConfig config =
        config(search)
            .withTerminationConfig(new TerminationConfig().withMoveCountLimit((long) moves));
    start.scratch().heard(tried -> watch.heard().tried(Math.min(tried, moves), moves));
    return SolverFactory.<BookingSolution>create(config).buildSolver().solve(start);
  }

  private static BookingSolution scored(BookingSolution solution) {
    SolutionManager.<BookingSolution, HardMediumSoftLongScore>create(
            SolverFactory.<BookingSolution>create(config()))
        .update(solution);
    return solution;
  }

  private Booked read(BookingSolution solution) {
    HardMediumSoftLongScore score = Objects.requireNonNull(solution.score());
    if (score.hardScore() < 0) {
      throw new IllegalStateException("The search broke a hard rule: " + score + ".");
    }
    List<OfferedVisit> visits = new ArrayList<>();
    List<String> left = new ArrayList<>();
    for (CourseCase course : solution.courses()) {
      List<Slot> slots = new ArrayList<>();
      for (BookedVisit visit : solution.visits()) {
        Slot slot = visit.slot();
        if (visit.courseNumber() == course.number() && slot != null) {
          slots.add(slot);
        }
      }
      if (slots.size() == course.visits().size()) {
        visits.addAll(Offers.sought(course, slots));
      } else {
        left.add(course.request().caseName());
      }
    }
    return new Booked(visits, left, -score.softScore());
  }
}
