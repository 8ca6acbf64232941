package quadrille.diary.book;

import java.time.LocalDate;
import java.time.LocalTime;

/**
 * Hours worked on one day beside the usual week.
 *
 * @param to after {@code from} on the same day; {@code 00:00} is midnight at the day's end
 */
public record ExtraHours(LocalDate date, LocalTime from, LocalTime to) {}
