package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Hours that return every week, by the clock on the practice's wall.
 *
 * @param days on which they hold, at least one
 * @param from first moment
 * @param to first moment no longer within, after {@code from} on the same day; {@code 00:00} is
 *     midnight at the day's end
 * @param breaks within, may be empty
 * @param first day from which they hold; null from ever
 * @param last day on which they hold; null for ever
 */
public record WeeklyHours(
    List<DayOfWeek> days,
    LocalTime from,
    LocalTime to,
    List<Break> breaks,
    @Nullable LocalDate first,
    @Nullable LocalDate last) {

  public WeeklyHours {
    days = List.copyOf(days);
    breaks = List.copyOf(breaks);
  }

  /** Hours that hold from ever for ever. */
  public WeeklyHours(List<DayOfWeek> days, LocalTime from, LocalTime to, List<Break> breaks) {
    this(days, from, to, breaks, null, null);
  }

  /** Whether they hold on a day: one of their days of the week, within their dates. */
  public boolean on(LocalDate day) {
    return days.contains(day.getDayOfWeek())
        && (first == null || !day.isBefore(first))
        && (last == null || !day.isAfter(last));
  }

  /**
   * A break.
   *
   * @param from first moment
   * @param to first moment no longer within, after {@code from}
   */
  public record Break(LocalTime from, LocalTime to) {}
}
