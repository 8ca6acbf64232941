package quadrille.diary.desk;

import java.time.LocalDate;
import java.util.List;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.plan.course.Course;

/**
 * What is to be booked.
 *
 * @param plans courses as planned; their cases differ
 * @param waiting whether also the courses that wait in the diary
 * @param patient of the plans
 * @param weights what a good booking is worth
 * @param first day on which something may be booked
 * @param last such day, not before the first
 * @param offers how many are wanted where one course is booked, 1 or more
 */
public record BookingOrder(
    List<Course> plans,
    boolean waiting,
    PatientWishes patient,
    BookingWeights weights,
    LocalDate first,
    LocalDate last,
    int offers) {

  public BookingOrder {
    plans = List.copyOf(plans);
    if (last.isBefore(first) || offers < 1) {
      throw new IllegalArgumentException(
          "Nothing can be booked from ("
              + first
              + ") to ("
              + last
              + ") in ("
              + offers
              + ") offers.");
    }
  }
}
