package quadrille.diary.book;

import java.time.LocalDate;
import java.time.LocalTime;
import org.jspecify.annotations.Nullable;

/**
 * Days, or the same hours of some days, on which nothing can be booked.
 *
 * @param first day
 * @param last day, included
 * @param from on each of the days; null for the whole day
 * @param to on each of the days, after {@code from}; {@code 00:00} is midnight at the day's end;
 *     null exactly where {@code from} is
 * @param because for people, may be null
 */
public record TimeOff(
    LocalDate first,
    LocalDate last,
    @Nullable LocalTime from,
    @Nullable LocalTime to,
    @Nullable String because) {

  /** One whole day. */
  public static TimeOff day(LocalDate date, @Nullable String because) {
    return new TimeOff(date, date, null, null, because);
  }
}
