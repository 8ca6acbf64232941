package quadrille.diary.book;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;

/**
 * Time that something else takes. It has no title: what others do is nobody's business here.
 *
 * @param clinician id; null if no one clinician is meant
 * @param chair id; null if no one chair is meant. Where both are null, everybody and every chair is
 * @param sets names of sterile sets used
 * @param calendar the iCalendar file that it comes from; null if the diary itself says it
 */
public record BusyTime(
    Interval time,
    @Nullable String clinician,
    @Nullable String chair,
    List<String> sets,
    @Nullable String calendar) {

  public BusyTime {
    sets = List.copyOf(sets);
  }

  /** Whether it takes this clinician's time. */
  public boolean takesClinician(String id) {
    return id.equals(clinician) || clinician == null && chair == null;
  }

  /** Whether it takes this chair's time. */
  public boolean takesChair(String id) {
    return id.equals(chair) || clinician == null && chair == null;
  }
}
