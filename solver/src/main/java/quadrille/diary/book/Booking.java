package quadrille.diary.book;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;

/**
 * A visit of a course in the diary.
 *
 * @param id unique in the diary
 * @param caseName of the course
 * @param visit its number in the course
 * @param start when it starts
 * @param minutes that pass until its end, 1 or more
 * @param clinician id
 * @param chair id
 * @param sets names of sterile sets used, one of each; a name twice for two
 * @param needs what its clinician must be allowed to do
 * @param status what became of it
 * @param changes how often it has been moved or called off since it was made; what is written for
 *     calendars counts them (RFC 5545 section 3.8.7.4)
 * @param until of one that is held: when it is called off by itself; null where nobody said so
 * @param injectors who comes only to inject, where the clinician may not; in order of time
 */
public record Booking(
    String id,
    String caseName,
    int visit,
    Instant start,
    int minutes,
    String clinician,
    String chair,
    List<String> sets,
    List<Capability> needs,
    BookingStatus status,
    int changes,
    @Nullable Instant until,
    List<InjectorCall> injectors) {

  /** As many changes as are counted; no booking is moved so often. */
  static final int MOST_CHANGES = 1_000_000;

  public Booking {
    sets = List.copyOf(sets);
    needs = List.copyOf(needs);
    injectors = List.copyOf(injectors);
    if (changes < 0 || changes > MOST_CHANGES) {
      throw new IllegalArgumentException(
          "The changes (" + changes + ") are not within 0 to " + MOST_CHANGES + ".");
    }
  }

  /** One that has never been changed, is held until no time, and whose clinician injects. */
  public Booking(
      String id,
      String caseName,
      int visit,
      Instant start,
      int minutes,
      String clinician,
      String chair,
      List<String> sets,
      List<Capability> needs,
      BookingStatus status) {
    this(
        id, caseName, visit, start, minutes, clinician, chair, sets, needs, status, 0, null,
        List.of());
  }

  public Instant end() {
    return start.plus(Duration.ofMinutes(minutes));
  }

  public Interval time() {
    return Interval.of(start, minutes);
  }

  public boolean injections() {
    return needs.contains(Capability.INJECT);
  }

  /**
   * The same booking with another status; it is a change where its time becomes free, and where it
   * is promised or held only from now on.
   */
  public Booking with(BookingStatus other) {
    boolean coming = other == BookingStatus.HELD || other == BookingStatus.PROMISED;
    boolean told = status != other && (coming || status.takesTime() && !other.takesTime());
    return now(other, told ? oneMore() : changes, other == BookingStatus.HELD ? until : null);
  }

  /**
   * The same booking at another time and place, which is a change; itself where it stays. Who comes
   * to inject comes there.
   */
  public Booking at(Instant otherStart, String otherClinician, String otherChair) {
    return at(otherStart, otherClinician, otherChair, injectors);
  }

  /**
   * The same.
   *
   * @param calls who comes only to inject there
   */
  public Booking at(
      Instant otherStart, String otherClinician, String otherChair, List<InjectorCall> calls) {
    if (start.equals(otherStart)
        && clinician.equals(otherClinician)
        && chair.equals(otherChair)
        && injectors.equals(calls)) {
      return this;
    }
    return new Booking(
        id,
        caseName,
        visit,
        otherStart,
        minutes,
        otherClinician,
        otherChair,
        sets,
        needs,
        status,
        oneMore(),
        until,
        calls);
  }

  /** When it takes a clinician's time: all of it, or the minutes in which they only inject. */
  public List<Interval> taken(String id) {
    return clinician.equals(id)
        ? List.of(time())
        : injectors.stream()
            .filter(call -> call.clinician().equals(id))
            .map(call -> call.time(start))
            .toList();
  }

  /**
   * The same booking, held until a time.
   *
   * @param other null where it is held until somebody says otherwise
   */
  public Booking heldUntil(@Nullable Instant other) {
    return now(BookingStatus.HELD, with(BookingStatus.HELD).changes, other);
  }

  /**
   * The same booking, no longer held until a time that is over: whoever moves one that began before
   * its hold ended wants it held there, not called off at once.
   */
  public Booking withoutHoldOver(Instant now) {
    return until == null || until.isAfter(now) ? this : now(status, changes, null);
  }

  /** Held or promised: it is still to come. */
  public boolean coming() {
    return status == BookingStatus.HELD || status == BookingStatus.PROMISED;
  }

  /**
   * Whether it is another time, place or length than one of the same name, or needs other things.
   */
  public boolean elsewhere(Booking other) {
    return !start.equals(other.start)
        || minutes != other.minutes
        || !clinician.equals(other.clinician)
        || !chair.equals(other.chair)
        || !sets.equals(other.sets)
        || !needs.equals(other.needs)
        || !injectors.equals(other.injectors)
        || status.takesTime() && !other.status.takesTime();
  }

  private Booking now(BookingStatus other, int counted, @Nullable Instant heldUntil) {
    return new Booking(
        id, caseName, visit, start, minutes, clinician, chair, sets, needs, other, counted,
        heldUntil, injectors);
  }

  private int oneMore() {
    return Math.min(changes + 1, MOST_CHANGES);
  }
}
