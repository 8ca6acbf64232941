package quadrille.diary.desk;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
    Map<String, Booking> gone = new LinkedHashMap<>();
    before.bookings().forEach(booking -> gone.put(booking.id(), booking));
    for (Booking booking : after.bookings()) {
      Booking was = gone.remove(booking.id());
      if (was == null) {
        differences.add(new Booked(booking.id()));
      } else if (!was.equals(booking)) {
        differences.add(new Changed(booking.id()));
      }
    }
    gone.keySet().forEach(id -> differences.add(new Gone(id)));
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
