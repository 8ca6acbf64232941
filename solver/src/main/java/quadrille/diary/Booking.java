package quadrille.diary;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import quadrille.calendar.Interval;

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
    BookingStatus status) {

  public Booking {
    sets = List.copyOf(sets);
    needs = List.copyOf(needs);
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

  /** The same booking with another status. */
  public Booking with(BookingStatus other) {
    return new Booking(id, caseName, visit, start, minutes, clinician, chair, sets, needs, other);
  }

  /** The same booking at another time and place. */
  public Booking at(Instant otherStart, String otherClinician, String otherChair) {
    return new Booking(
        id, caseName, visit, otherStart, minutes, otherClinician, otherChair, sets, needs, status);
  }
}
