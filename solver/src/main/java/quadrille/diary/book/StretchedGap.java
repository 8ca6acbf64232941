package quadrille.diary.book;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A gap that is longer than its plan allows, since a clinician allowed it.
 *
 * @param caseName of the course
 * @param before number of the visit before the gap
 * @param visit number of the visit after it
 * @param days of the calendar between them
 * @param usual the longest gap of the plan
 * @param allowedBy who allowed more
 */
public record StretchedGap(
    String caseName, int before, int visit, int days, int usual, String allowedBy) {

  /** The days over the plan's longest gap. */
  public int more() {
    return days - usual;
  }

  /** Those of a course, as its visits stand in a diary. */
  public static List<StretchedGap> of(Diary diary, CourseRequest course) {
    LongerGaps longer = course.longerGaps();
    List<StretchedGap> stretched = new ArrayList<>();
    for (int place = 1; longer != null && place < course.visits().size(); place++) {
      VisitRequest before = course.visits().get(place - 1);
      VisitRequest visit = course.visits().get(place);
      Optional<LocalDate> from = day(diary, course, before);
      Optional<LocalDate> to = day(diary, course, visit);
      if (from.isPresent() && to.isPresent()) {
        int days = (int) ChronoUnit.DAYS.between(from.get(), to.get());
        if (days > visit.gapMaxDays()) {
          stretched.add(
              new StretchedGap(
                  course.caseName(),
                  before.number(),
                  visit.number(),
                  days,
                  visit.gapMaxDays(),
                  longer.allowedBy()));
        }
      }
    }
    return stretched;
  }

  private static Optional<LocalDate> day(Diary diary, CourseRequest course, VisitRequest visit) {
    return diary
        .standing(course.caseName(), visit.number())
        .map(one -> one.start().atZone(diary.zone()).toLocalDate());
  }
}
