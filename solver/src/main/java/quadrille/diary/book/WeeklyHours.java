package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.LocalTime;
import java.util.List;

/**
 * Hours that return every week, by the clock on the practice's wall.
 *
 * @param days on which they hold, at least one
 * @param from first moment
 * @param to first moment no longer within, after {@code from} on the same day; {@code 00:00} is
 *     midnight at the day's end
 * @param breaks within, may be empty
 */
public record WeeklyHours(List<DayOfWeek> days, LocalTime from, LocalTime to, List<Break> breaks) {

  public WeeklyHours {
    days = List.copyOf(days);
    breaks = List.copyOf(breaks);
  }

  /**
   * A break.
   *
   * @param from first moment
   * @param to first moment no longer within, after {@code from}
   */
  public record Break(LocalTime from, LocalTime to) {}
}
