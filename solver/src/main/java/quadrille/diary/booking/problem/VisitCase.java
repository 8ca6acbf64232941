package quadrille.diary.booking.problem;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.VisitRequest;

/**
 * A visit of a course, as the problem has it.
 *
 * @param place in the course, from 0
 * @param minutes to book; of a fixed visit those that are booked
 * @param may which clinicians may treat it, by their place
 * @param aided which of them need another who comes to inject
 * @param uses of each counted set
 * @param fixed where it stands and stays; null if a slot is sought
 * @param fixedDay its day, if it is fixed
 * @param kept where it stands and may leave for a price; null if it stands nowhere
 * @param movingPoints what leaving costs
 */
public record VisitCase(
    VisitRequest request,
    int place,
    int minutes,
    List<Boolean> may,
    List<Boolean> aided,
    SetCounts uses,
    @Nullable Slot fixed,
    int fixedDay,
    @Nullable Slot kept,
    long movingPoints) {

  public VisitCase {
    may = List.copyOf(may);
    aided = List.copyOf(aided);
  }

  /** Minutes for which another comes to inject where a clinician treats it. */
  public int needleMinutes(int clinician) {
    int minutes = 0;
    // A loop, since the search asks for each slot that it looks at.
    if (aided.get(clinician)) {
      for (NeedleTime needle : request.needles()) {
        minutes += needle.minutes();
      }
    }
    return minutes;
  }
}
