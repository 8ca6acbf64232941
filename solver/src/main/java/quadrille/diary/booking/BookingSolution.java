package quadrille.diary.booking;

import ai.timefold.solver.core.api.domain.solution.PlanningEntityCollectionProperty;
import ai.timefold.solver.core.api.domain.solution.PlanningScore;
import ai.timefold.solver.core.api.domain.solution.PlanningSolution;
import ai.timefold.solver.core.api.domain.solution.ProblemFactCollectionProperty;
import ai.timefold.solver.core.api.domain.valuerange.CountableValueRange;
import ai.timefold.solver.core.api.domain.valuerange.ValueRangeProvider;
import ai.timefold.solver.core.api.score.buildin.hardmediumsoftlong.HardMediumSoftLongScore;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.SetStock;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.VisitCase;

/** Everybody's visits as the solver improves them: the planning solution. */
@PlanningSolution
public class BookingSolution {

  @ProblemFactCollectionProperty private List<CourseCase> courses;
  @ProblemFactCollectionProperty private List<SetStock> stocks;
  @ProblemFactCollectionProperty private List<Ruin> ruins;
  @ValueRangeProvider private CountableValueRange<Slot> slots;
  @PlanningEntityCollectionProperty private List<BookedVisit> visits;
  @PlanningScore private @Nullable HardMediumSoftLongScore score;

  // What is taken now, brought up to date by each move: one solver works on it at a time.
  private @Nullable Scratch scratch;

  /** For the solver, which copies solutions. */
  public BookingSolution() {}

  /** Nothing booked but what stands in the diary. */
  BookingSolution(BookingCase booking, List<CourseCase> courses) {
    this(booking, courses, Ruin.USUAL);
  }

  /**
   * The same, with ways of taking courses out.
   *
   * @param ruins those that take out more courses than there are are passed over
   */
  BookingSolution(BookingCase booking, List<CourseCase> courses, List<Ruin> ruins) {
    this.courses = List.copyOf(courses);
    this.stocks = SetStock.of(booking, courses);
    this.slots = new AnySlot(booking);
    this.visits = new ArrayList<>();
    for (CourseCase course : courses) {
      for (VisitCase visit : course.visits()) {
        BookedVisit booked = new BookedVisit(visits.size(), course, visit);
        booked.within(this);
        visits.add(booked);
      }
    }
    this.ruins = ruins.stream().filter(ruin -> ruin.courses() <= courses.size()).toList();
    this.scratch = new Scratch(Occupancy.of(booking), visits.size());
  }

  /** The courses, in the order in which they asked. */
  public List<CourseCase> courses() {
    return courses;
  }

  /** Counted sets, day by day. */
  public List<SetStock> stocks() {
    return stocks;
  }

  /** Where a visit may stand, for whoever asks whether there are such places at all. */
  public CountableValueRange<Slot> slots() {
    return slots;
  }

  /** Ways of taking courses out. */
  public List<Ruin> ruins() {
    return ruins;
  }

  /** All visits: those of one course stand together, in order. */
  public List<BookedVisit> visits() {
    return visits;
  }

  public @Nullable HardMediumSoftLongScore score() {
    return score;
  }

  Scratch scratch() {
    return Objects.requireNonNull(scratch);
  }
}
