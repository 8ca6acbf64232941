package quadrille.diary.desk;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.document.Withers;
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
 * @param holdUntil until when what is taken is held and not promised; null where it is promised
 * @param only of the courses that wait, the only one that is meant, of which the patient's wishes
 *     are too; null for all
 * @param longerGaps that a clinician lets the gaps of the plans, or of the only one that waits,
 *     grow over their longest; null where nothing is said, and what the diary knows holds
 */
@Withers
public record BookingOrder(
    List<Course> plans,
    boolean waiting,
    PatientWishes patient,
    BookingWeights weights,
    LocalDate first,
    LocalDate last,
    int offers,
    @Nullable Instant holdUntil,
    @Nullable String only,
    @Nullable LongerGaps longerGaps)
    implements BookingOrderBuilder.With {

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

  /** A course with the longer gaps that are allowed now. */
  CourseRequest over(CourseRequest course) {
    return longerGaps == null ? course : course.withLongerGaps(longerGaps);
  }

  /** An order of plans, or of all who wait. */
  public BookingOrder(
      List<Course> plans,
      boolean waiting,
      PatientWishes patient,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      int offers,
      @Nullable Instant holdUntil) {
    this(plans, waiting, patient, weights, first, last, offers, holdUntil, null, null);
  }

  /** An order whose visits are promised. */
  public BookingOrder(
      List<Course> plans,
      boolean waiting,
      PatientWishes patient,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      int offers) {
    this(plans, waiting, patient, weights, first, last, offers, null);
  }
}
