package quadrille.diary.calendar;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An event as its component says it, without other components of the same UID.
 *
 * @param uid empty where the file gives none
 * @param length of each occurrence
 * @param rules beside the start itself
 * @param without rules whose times are left out
 * @param more further times
 * @param fewer times left out
 * @param instead which occurrence of the event it takes the place of; null for the event itself
 * @param onwards whether it takes the place of all later occurrences too
 * @param takesTime whether it is neither cancelled nor transparent
 * @param sequence the higher takes the place of the lower
 */
record CalendarEvent(
    String uid,
    CalendarTime start,
    CalendarTimes.Length length,
    List<RecurrenceRule> rules,
    List<RecurrenceRule> without,
    List<More> more,
    List<CalendarTime> fewer,
    @Nullable CalendarTime instead,
    boolean onwards,
    boolean takesTime,
    int sequence) {

  /** A further time, with a length of its own where it is a period. */
  record More(CalendarTime start, CalendarTimes.@Nullable Length length) {}

  /** Longest that an occurrence can last, in whole days, rounded up, and one to spare. */
  long mostDays() {
    long most = days(length);
    for (More one : more) {
      CalendarTimes.Length own = one.length();
      most = own == null ? most : Math.max(most, days(own));
    }
    return most;
  }

  private static long days(CalendarTimes.Length length) {
    return length.days() + length.exact().toDays() + 2;
  }

  /** How far the start has been moved from the occurrence that it takes the place of. */
  Duration shift() {
    return instead == null ? Duration.ZERO : Duration.between(instead.wall(), start.wall());
  }
}
