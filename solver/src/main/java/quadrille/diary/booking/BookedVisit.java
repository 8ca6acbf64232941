package quadrille.diary.booking;

import ai.timefold.solver.core.api.domain.entity.PlanningEntity;
import ai.timefold.solver.core.api.domain.entity.PlanningPin;
import ai.timefold.solver.core.api.domain.lookup.PlanningId;
import ai.timefold.solver.core.api.domain.variable.PlanningVariable;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.Commitment;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.VisitCase;

/**
 * A visit as the solver places it: the planning entity. A visit that stands in the diary is pinned.
 */
@PlanningEntity
public class BookedVisit implements Commitment {

  @PlanningId private int id;
  private @Nullable CourseCase course;
  private @Nullable VisitCase visit;
  @PlanningPin private boolean pinned;

  @PlanningVariable(allowsUnassigned = true)
  private @Nullable Slot slot;

  // All visits beside this one, for moves that need to see what is taken; not for constraints.
  private @Nullable BookingSolution within;

  /** For the solver, which copies visits. */
  public BookedVisit() {}

  BookedVisit(int id, CourseCase course, VisitCase visit) {
    this.id = id;
    this.course = course;
    this.visit = visit;
    this.slot = visit.fixed();
    this.pinned = visit.fixed() != null;
  }

  /** Its place among all visits. */
  int id() {
    return id;
  }

  CourseCase course() {
    return Objects.requireNonNull(course);
  }

  @Override
  public VisitCase visit() {
    return Objects.requireNonNull(visit);
  }

  BookingSolution within() {
    return Objects.requireNonNull(within);
  }

  void within(BookingSolution solution) {
    within = solution;
  }

  @Override
  public boolean pinned() {
    return pinned;
  }

  @Override
  public @Nullable Slot slot() {
    return slot;
  }

  void slot(@Nullable Slot other) {
    slot = other;
  }

  boolean booked() {
    return slot != null;
  }

  private Slot place() {
    return Objects.requireNonNull(slot);
  }

  @Override
  public int start() {
    return place().start();
  }

  @Override
  public int end() {
    return start() + visit().minutes();
  }

  int clinician() {
    return place().clinician();
  }

  int chair() {
    return place().chair();
  }

  int day() {
    return course().booking().time().day(start());
  }

  int courseNumber() {
    return course().number();
  }

  int visitPlace() {
    return visit().place();
  }

  int placeAfter() {
    return visit().place() + 1;
  }

  boolean first() {
    return visitPlace() == 0;
  }

  boolean last() {
    return visitPlace() == course().visits().size() - 1;
  }

  /** Minutes shared with another visit. */
  int sharedWith(BookedVisit other) {
    return shared(start(), end(), other.start(), other.end());
  }

  /** Of its minutes, those in which its clinician does not work or has something else. */
  int minutesOutOfHours() {
    return course().booking().clinicianShut(clinician()).within(start(), end());
  }

  /** Of its minutes, those in which its chair is out of use. */
  int minutesWithoutChair() {
    return course().booking().chairShut(chair()).within(start(), end());
  }

  /** Of its minutes, those in which the patient cannot come. */
  int minutesPatientAway() {
    return course().patientShut().within(start(), end());
  }

  /** Whether its clinician may treat it, with those who come to inject where that is needed. */
  boolean allowed() {
    return visit().may().get(clinician())
        && (!visit().aided().get(clinician())
            || visit().request().needles().stream()
                .allMatch(
                    needle -> place().calls().stream().anyMatch(call -> injects(call, needle))));
  }

  private boolean injects(Slot.Call call, NeedleTime needle) {
    return call.from() <= start() + needle.from()
        && call.to() >= start() + needle.to()
        && course().booking().diary().clinicians().get(call.clinician()).mayInject();
  }

  boolean called() {
    return !place().calls().isEmpty();
  }

  /** Minutes for which others come only to inject. */
  int callMinutes() {
    return place().callMinutes();
  }

  /** Of those, the minutes in which they do not work or have something else. */
  int callMinutesOutOfHours() {
    return place().calls().stream()
        .mapToInt(
            call ->
                course().booking().clinicianShut(call.clinician()).within(call.from(), call.to()))
        .sum();
  }

  /** Minutes in which someone who comes only to inject is with both patients. */
  int callMinutesSharedWith(BookedVisit other) {
    int shared = 0;
    for (Slot.Call call : place().calls()) {
      shared +=
          call.clinician() == other.clinician()
              ? shared(call.from(), call.to(), other.start(), other.end())
              : 0;
      for (Slot.Call theirs : other.place().calls()) {
        shared +=
            call.clinician() == theirs.clinician()
                ? shared(call.from(), call.to(), theirs.from(), theirs.to())
                : 0;
      }
    }
    for (Slot.Call theirs : other.place().calls()) {
      shared +=
          theirs.clinician() == clinician()
              ? shared(theirs.from(), theirs.to(), start(), end())
              : 0;
    }
    return shared;
  }

  private static int shared(int from, int to, int otherFrom, int otherTo) {
    return Math.max(0, Math.min(to, otherTo) - Math.max(from, otherFrom));
  }

  /** Days by which it misses the window after the visit before. */
  int daysOffGap(BookedVisit before) {
    int days = day() - before.day();
    return Math.max(
        0, Math.max(visit().request().gapMinDays() - days, days - course().gapMaxDays(visit())));
  }

  /** What the days over the longest gap of its plan cost, which a clinician allowed. */
  long gapCost(BookedVisit before) {
    return course().gapCost(visit(), day() - before.day());
  }

  /** Days by which it comes too late to end what another visit of its course began. */
  int daysLateAfter(BookedVisit begins) {
    return course().deadlines().stream()
        .filter(one -> one.from() == begins.visitPlace() && one.to() == visitPlace())
        .mapToInt(one -> Math.max(0, day() - begins.day() - one.days()))
        .sum();
  }

  /**
   * That a visit has a counted set out on a day.
   *
   * @param set place in the stock
   */
  record SetUse(BookedVisit visit, int set, int day) {}

  /** What it has out of the counted sets, until they are back, and on which days. */
  List<SetUse> uses() {
    List<SetUse> uses = new ArrayList<>();
    BookingCase booking = course().booking();
    int back = end() + booking.diary().stock().reprocessingMinutes();
    if (back <= 0 || start() >= booking.time().length()) {
      return uses;
    }
    int first = booking.time().day(Math.max(0, start()));
    int last = booking.time().day(Math.min(back, booking.time().length()) - 1);
    for (int set = 0; set < visit().uses().sets(); set++) {
      for (int day = first; visit().uses().of(set) > 0 && day <= last; day++) {
        uses.add(new SetUse(this, set, day));
      }
    }
    return uses;
  }

  long timeCost() {
    return course().timeCost(Math.max(0, start()), visit().minutes());
  }

  @Override
  public String toString() {
    return course().request().caseName() + "/" + visit().request().number();
  }
}
