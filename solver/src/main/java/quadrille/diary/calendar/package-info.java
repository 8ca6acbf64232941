/**
 * Spans of time on the one line that all clocks share, and iCalendar (RFC 5545) read into them and
 * written from them. Knows nothing of clinicians and visits.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.calendar;
