package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;

/** What has changed between two readings of a diary, in words. */
final class DiaryChanges {

  private DiaryChanges() {}

  /** A line for each booking that is new, other or gone, and one for anything else. */
  static List<String> between(Diary before, Diary after) {
    List<String> changes = new ArrayList<>();
    for (Booking booking : after.bookings()) {
      if (before.booking(booking.id()).isEmpty()) {
        changes.add("- " + booking.id() + " has been booked.");
      } else if (!before.bookings().contains(booking)) {
        changes.add("- " + booking.id() + " has been changed.");
      }
    }
    for (Booking booking : before.bookings()) {
      if (after.booking(booking.id()).isEmpty()) {
        changes.add("- " + booking.id() + " is gone.");
      }
    }
    Diary same = after.withBookings(before.bookings()).withCourses(before.courses());
    if (changes.isEmpty() || !same.equals(before)) {
      changes.add("- Hours, absence, stock or a calendar have been changed.");
    }
    return changes;
  }
}
