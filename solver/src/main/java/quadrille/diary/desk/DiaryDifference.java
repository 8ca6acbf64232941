package quadrille.diary.desk;

import java.util.ArrayList;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;

/** Something that differs between two readings of a diary. */
public sealed interface DiaryDifference {

  /**
   * A booking that was not there.
   *
   * @param booking id
   */
  record Booked(String booking) implements DiaryDifference {}

  /**
   * A booking that is another now.
   *
   * @param booking id
   */
  record Changed(String booking) implements DiaryDifference {}

  /**
   * A booking that is there no more.
   *
   * @param booking id
   */
  record Gone(String booking) implements DiaryDifference {}

  /** Hours, absence, stock, a calendar: anything but bookings and courses. */
  record Other() implements DiaryDifference {}

  /** One for each booking that is new, other or gone, and one for anything else. */
  static List<DiaryDifference> between(Diary before, Diary after) {
    List<DiaryDifference> differences = new ArrayList<>();
    for (Booking booking : after.bookings()) {
      if (before.booking(booking.id()).isEmpty()) {
        differences.add(new Booked(booking.id()));
      } else if (!before.bookings().contains(booking)) {
        differences.add(new Changed(booking.id()));
      }
    }
    for (Booking booking : before.bookings()) {
      if (after.booking(booking.id()).isEmpty()) {
        differences.add(new Gone(booking.id()));
      }
    }
    Diary same =
        after
            .withBookings(before.bookings())
            .withCourses(before.courses())
            .withJournal(before.journal());
    if (differences.isEmpty() || !same.equals(before)) {
      differences.add(new Other());
    }
    return differences;
  }
}
