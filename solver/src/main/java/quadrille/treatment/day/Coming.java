package quadrille.treatment.day;

import java.time.LocalDateTime;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.BookingStatus;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;

/**
 * A visit that somebody comes for.
 *
 * @param visit its number in the course
 * @param start on the practice's wall clock
 * @param minutes booked
 * @param clinician id in the diary, or as the course's log has it; null where it is not settled
 * @param chair id in the diary; null where only the log knows of the visit
 * @param log the course's; null where there is none
 * @param course the plan that holds now; null where there is no log
 * @param planned the visit as planned; null where there is no log, or its plan has no such visit
 */
public record Coming(
    String caseName,
    int visit,
    LocalDateTime start,
    int minutes,
    @Nullable String clinician,
    @Nullable String chair,
    BookingStatus status,
    @Nullable CourseLog log,
    @Nullable Course course,
    @Nullable Visit planned) {

  public LocalDateTime end() {
    return start.plusMinutes(minutes);
  }

  /** Minutes that the plan asks for and the booking does not have; 0 where it is long enough. */
  public int minutesShort() {
    return planned == null ? 0 : Math.max(0, planned.bookedMinutes() - minutes);
  }
}
