package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;

/**
 * A way in which a course under way may go on, and what it costs beside its plan.
 *
 * @param restaged the course, which has passed its audit
 * @param calls appointments to be made or changed for it
 * @param minutes booked for all visits to come: of an appointment that is long enough its own
 * @param more minutes than the visits to come had before; below 0 where they are fewer
 */
public record WayOn(Kind kind, Restaged restaged, List<Call> calls, int minutes, int more) {

  /** What it does with what was left over. */
  public enum Kind {
    /** What is done where nobody says otherwise: appointments are kept as far as may be. */
    USUAL,
    /** A visit to come takes it, for as long as that needs. */
    LONGER_VISIT,
    /** Two visits to come, short and of one side, become one. */
    VISITS_JOINED,
    /** It gets a visit of its own. */
    VISIT_ADDED
  }

  /** An appointment to be made or changed, for which somebody calls. */
  public sealed interface Call {

    /** The number of the visit. */
    int visit();

    /** A visit that was not planned before. */
    record Make(int visit, int minutes) implements Call {}

    /** An appointment that is too short. */
    record Lengthen(int visit, int booked, int minutes) implements Call {}

    /** An appointment that is not needed any more. */
    record CallOff(int visit) implements Call {}
  }

  public WayOn {
    calls = List.copyOf(calls);
  }

  static WayOn of(Kind kind, CourseState state, Restaged restaged) {
    List<Call> calls = new ArrayList<>();
    int minutes = 0;
    for (Visit visit : restaged.course().visits()) {
      int needs = visit.bookedMinutes();
      Event.@Nullable Appointment booked = state.booked().get(visit.number());
      if (booked != null && booked.minutes() < needs) {
        calls.add(new Call.Lengthen(visit.number(), booked.minutes(), needs));
      } else if (state.toCome().stream().noneMatch(old -> old.number() == visit.number())) {
        calls.add(new Call.Make(visit.number(), needs));
      }
      minutes += booked == null ? needs : Math.max(needs, booked.minutes());
    }
    int before = 0;
    for (Visit old : state.toCome()) {
      Event.@Nullable Appointment booked = state.booked().get(old.number());
      before += booked == null ? old.bookedMinutes() : booked.minutes();
      if (booked != null
          && restaged.course().visits().stream()
              .noneMatch(visit -> visit.number() == old.number())) {
        calls.add(new Call.CallOff(old.number()));
      }
    }
    return new WayOn(kind, restaged, calls, minutes, minutes - before);
  }
}
