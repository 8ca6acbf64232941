package quadrille.diary.calendar;

import org.jspecify.annotations.Nullable;

/**
 * An event to be written to a calendar.
 *
 * @param uid the same for the same event for ever, and for no other
 * @param time in whole seconds
 * @param title what a calendar shows at a glance, also to others who look at the screen
 * @param description may have several lines; null for none
 * @param location one line; null for none
 * @param status whether it takes place
 * @param sequence 0 at first, and higher after each change
 */
public record CalendarEntry(
    String uid,
    Interval time,
    String title,
    @Nullable String description,
    @Nullable String location,
    Status status,
    int sequence) {

  /** As RFC 5545 section 3.8.1.11 names it. */
  public enum Status {
    /** Its time is taken; nobody has been promised it. */
    TENTATIVE,
    /** Takes place. */
    CONFIRMED,
    /** Called off; its time is free. */
    CANCELLED
  }
}
