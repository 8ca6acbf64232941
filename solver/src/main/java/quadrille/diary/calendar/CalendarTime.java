package quadrille.diary.calendar;

import java.time.Instant;
import java.time.LocalDateTime;

/**
 * A day or a time of a calendar.
 *
 * @param wall what its clock shows; midnight for a day
 * @param zone its clock; the reader's own for a day and for a time without zone
 * @param allDay whether it is a day
 */
record CalendarTime(LocalDateTime wall, Zone zone, boolean allDay) {

  Instant moment() {
    return allDay ? zone.midnight(wall.toLocalDate()) : zone.moment(wall);
  }

  CalendarTime at(LocalDateTime other) {
    return new CalendarTime(other, zone, allDay);
  }

  /** The moment so much later. */
  Instant after(CalendarTimes.Length length) {
    return at(wall.plusDays(length.days())).moment().plus(length.exact());
  }
}
