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
 * @param cancelled whether it is called off
 * @param sequence 0 at first, and higher after each change
 */
public record CalendarEntry(
    String uid,
    Interval time,
    String title,
    @Nullable String description,
    @Nullable String location,
    boolean cancelled,
    int sequence) {}
