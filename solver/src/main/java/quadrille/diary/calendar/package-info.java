/**
 * Spans of time on the one line that all clocks share, and iCalendar (RFC 5545) read into them and
 * written from them. Knows nothing of clinicians and visits; every room of the diary may use it.
 *
 * <p>Begin with {@link quadrille.diary.calendar.Interval} and {@link
 * quadrille.diary.calendar.CalendarReader}.
 */
@NullMarked
package quadrille.diary.calendar;

import org.jspecify.annotations.NullMarked;
