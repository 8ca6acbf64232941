package quadrille.diary.booking;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.VisitRequest;

/** Puts what was offered into a diary. */
public final class Taking {

  private Taking() {}

  /**
   * The diary with a course among its courses, in place of what it asked before; a new one waits
   * behind those that are there.
   */
  public static Diary asking(Diary diary, CourseRequest request) {
    List<CourseRequest> courses = new ArrayList<>(diary.courses());
    Optional<CourseRequest> known = diary.course(request.caseName());
    if (known.isPresent()) {
      courses.set(courses.indexOf(known.get()), request);
    } else {
      courses.add(request);
    }
    return diary.withCourses(courses);
  }

  /**
   * The diary with visits booked: promised to their patients, and only held where the course's plan
   * is provisional.
   *
   * @param diary knows the courses
   * @throws IllegalArgumentException if it does not
   */
  public static Diary booked(Diary diary, List<OfferedVisit> visits) {
    return booked(diary, visits, null);
  }

  /**
   * The same.
   *
   * @param until when they are held and not promised; null where they are promised
   */
  public static Diary booked(Diary diary, List<OfferedVisit> visits, @Nullable Instant until) {
    Diary booked = diary;
    for (OfferedVisit visit : visits) {
      CourseRequest course = diary.course(visit.caseName()).orElse(null);
      VisitRequest request =
          Optional.ofNullable(course)
              .flatMap(asking -> asking.visit(visit.visit()))
              .orElseThrow(
                  () ->
                      new IllegalArgumentException(
                          "The diary has no visit "
                              + visit.visit()
                              + " of ("
                              + visit.caseName()
                              + ")."));
      List<Booking> bookings = new ArrayList<>(booked.bookings());
      bookings.add(
          new Booking(
              booked.freshId(visit.caseName(), visit.visit()),
              visit.caseName(),
              visit.visit(),
              visit.start(),
              visit.minutes(),
              visit.clinician(),
              visit.chair(),
              request.sets(),
              request.needs(),
              until == null ? status(course) : BookingStatus.HELD,
              0,
              until,
              visit.injectors()));
      booked = booked.withBookings(bookings);
    }
    return booked;
  }

  /** What a course's bookings are when they are made. */
  public static BookingStatus status(@Nullable CourseRequest course) {
    return course != null && course.provisional() ? BookingStatus.HELD : BookingStatus.PROMISED;
  }
}
