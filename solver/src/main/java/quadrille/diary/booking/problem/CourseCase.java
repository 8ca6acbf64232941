package quadrille.diary.booking.problem;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.FreeTimes;
import quadrille.diary.book.VisitRequest;

/**
 * The problem, of a course's side: its visits, when its patient can come, and what its terms cost.
 * Visits that stand in the diary are fixed, unless they are said to be movable.
 */
public final class CourseCase {

  private final int number;
  private final BookingCase booking;
  private final CourseRequest request;
  private final BookingWeights weights;
  private final List<VisitCase> visits;
  private final MinuteSet patientShut;
  private final @Nullable MinuteSet disliked;
  private final int preferredClinician;
  private final int asked;
  private final int earliest;
  private final List<CourseRequest.Deadline> deadlines;

  private CourseCase(
      int number,
      BookingCase booking,
      CourseRequest request,
      BookingWeights weights,
      List<VisitCase> visits) {
    this.number = number;
    this.booking = booking;
    this.request = request;
    this.weights = weights;
    this.visits = List.copyOf(visits);
    TimeLine time = booking.time();
    FreeTimes free = new FreeTimes(booking.diary());
    LocalDate first = time.first();
    LocalDate last = time.date(time.days() - 1);
    this.patientShut =
        request.availability().any()
            ? new MinuteSet(new BitSet())
            : time.shut(free.ofPatient(request.availability(), first, last));
    this.disliked =
        request.preferences().times().isEmpty()
            ? null
            : time.shut(free.preferred(request.preferences(), first, last));
    String liked = request.preferences().clinician();
    this.preferredClinician = liked == null ? -1 : booking.clinician(liked);
    this.asked = time.number(request.asked());
    this.earliest = time.number(request.earliest());
    this.deadlines =
        request.deadlines().stream()
            .map(
                one ->
                    new CourseRequest.Deadline(
                        request.place(one.from()), request.place(one.to()), one.days()))
            .filter(one -> one.from() >= 0 && one.to() >= 0)
            .filter(
                one ->
                    visits.get(one.from()).fixed() == null || visits.get(one.to()).fixed() == null)
            .toList();
  }

  /** A course whose visits stay where they stand in the diary. */
  public static CourseCase of(int number, BookingCase booking, CourseRequest request) {
    return of(number, booking, request, List.of(), 0, 0);
  }

  /**
   * A course of whose standing visits some may move.
   *
   * @param movable bookings that may leave their place
   * @param heldPoints what it costs to move one that is held
   * @param promisedPoints what it costs to move one that is promised
   */
  public static CourseCase of(
      int number,
      BookingCase booking,
      CourseRequest request,
      List<Booking> movable,
      long heldPoints,
      long promisedPoints) {
    List<VisitCase> visits = new ArrayList<>();
    for (VisitRequest visit : request.visits()) {
      Optional<Booking> standing = booking.diary().standing(request.caseName(), visit.number());
      Slot slot = standing.map(booking::slot).orElse(null);
      boolean moves = standing.map(movable::contains).orElse(false);
      boolean fixed = slot != null && !moves;
      visits.add(
          new VisitCase(
              visit,
              visits.size(),
              fixed ? standing.map(Booking::minutes).orElseThrow() : visit.minutes(),
              may(booking, visit),
              booking.diary().clinicians().stream().map(visit::aided).toList(),
              booking.uses(visit.sets()),
              fixed ? slot : null,
              slot == null ? 0 : booking.time().day(slot.start()),
              moves ? slot : null,
              standing
                  .map(
                      one ->
                          switch (one.status()) {
                            case HELD -> heldPoints;
                            case PROMISED, DONE, CANCELLED, MISSED -> promisedPoints;
                          })
                  .orElse(0L)));
    }
    return new CourseCase(number, booking, request, booking.weights(), visits);
  }

  private static List<Boolean> may(BookingCase booking, VisitRequest visit) {
    return booking.diary().clinicians().stream()
        .map((Clinician one) -> one.may(visit.needs()) || visit.aided(one))
        .toList();
  }

  /** The same course under other weights. */
  public CourseCase under(BookingWeights other) {
    return new CourseCase(number, booking, request, other, visits);
  }

  /** The course's place among those sought for together. */
  public int number() {
    return number;
  }

  public BookingCase booking() {
    return booking;
  }

  public CourseRequest request() {
    return request;
  }

  public BookingWeights weights() {
    return weights;
  }

  public List<VisitCase> visits() {
    return visits;
  }

  /**
   * Its deadlines, by places in place of numbers: those of which not both visits stand fixed
   * already, which is history.
   */
  public List<CourseRequest.Deadline> deadlines() {
    return deadlines;
  }

  /** Minutes in which the patient cannot come. */
  public MinuteSet patientShut() {
    return patientShut;
  }

  /** The first day on which it may start. */
  public int earliest() {
    return earliest;
  }

  /** What it costs to finish on a day. */
  public long finishCost(int day) {
    return (long) weights.finishDay() * Math.max(0, day - asked);
  }

  /** What it costs to start on a day. */
  public long waitCost(int day) {
    long days = Math.max(0, day - asked);
    return weights.waitDaySquared() * days * days;
  }

  /** What it costs that a visit with one clinician follows on one with another. */
  public long changeCost(int before, int after) {
    return before == after ? 0 : weights.clinicianChange();
  }

  /**
   * Most days between a visit and the one before it, with what a clinician allows over the plan.
   */
  public int gapMaxDays(VisitCase visit) {
    return request.gapMaxDays(visit.request());
  }

  /**
   * What so many days between a visit and the one before it cost: those over the plan's longest gap
   * that are allowed. What stands already costs nothing anew.
   */
  public long gapCost(VisitCase visit, int days) {
    boolean history =
        visit.place() == 0
            || visit.fixed() != null && visits.get(visit.place() - 1).fixed() != null;
    int most = Math.min(days, gapMaxDays(visit));
    return history
        ? 0
        : (long) weights.longerGapDay() * Math.max(0, most - visit.request().gapMaxDays());
  }

  public long clinicianCost(int clinician) {
    return preferredClinician < 0 || clinician == preferredClinician ? 0 : weights.otherClinician();
  }

  /** What it costs that another comes to inject. */
  public long injectorCost(int minutes) {
    return (long) weights.injectorMinute() * minutes;
  }

  public long timeCost(int start, int minutes) {
    if (disliked == null) {
      return 0;
    }
    int next = disliked.next(start);
    return next < 0 || next >= start + minutes ? 0 : weights.otherTime();
  }

  public boolean prefersClinician() {
    return preferredClinician >= 0;
  }

  public boolean prefersTimes() {
    return disliked != null;
  }
}
