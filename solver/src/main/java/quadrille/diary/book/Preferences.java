package quadrille.diary.book;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a patient would like, and can do without.
 *
 * @param times hours of the week; empty where none is liked better
 * @param clinician id; null where none is liked better
 */
public record Preferences(List<WeeklyHours> times, @Nullable String clinician) {

  /** None. */
  public static final Preferences NONE = new Preferences(List.of(), null);

  public Preferences {
    times = List.copyOf(times);
  }
}
