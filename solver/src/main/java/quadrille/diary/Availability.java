package quadrille.diary;

import java.util.List;
import quadrille.calendar.Interval;

/**
 * When a patient can come.
 *
 * @param weekly only within these hours; empty for any time
 * @param off days or hours that do not suit
 * @param busy times taken, such as those of the patient's own calendar
 */
public record Availability(List<WeeklyHours> weekly, List<TimeOff> off, List<Interval> busy) {

  /** Any time. */
  public static final Availability ANY = new Availability(List.of(), List.of(), List.of());

  public Availability {
    weekly = List.copyOf(weekly);
    off = List.copyOf(off);
    busy = List.copyOf(busy);
  }

  public boolean any() {
    return weekly.isEmpty() && off.isEmpty() && busy.isEmpty();
  }
}
