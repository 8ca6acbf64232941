package quadrille.diary.book;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import quadrille.document.Withers;
import quadrille.plan.course.Course;
import quadrille.plan.course.Kit;
import quadrille.plan.course.Visit;

/**
 * What a course asks of the diary.
 *
 * @param caseName the chart's
 * @param asked the day from which it waits
 * @param earliest no visit before this day
 * @param visits in order, at least one; numbers rise
 * @param reevaluateFromWeeks earliest re-evaluation after the last visit
 * @param reevaluateToWeeks latest re-evaluation after the last visit
 */
@Withers
public record CourseRequest(
    String caseName,
    LocalDate asked,
    LocalDate earliest,
    List<VisitRequest> visits,
    int reevaluateFromWeeks,
    int reevaluateToWeeks,
    Availability availability,
    Preferences preferences)
    implements CourseRequestBuilder.With {

  public CourseRequest {
    visits = List.copyOf(visits);
  }

  /**
   * What a planned course asks for: each visit its booked minutes, a clinician who may inject where
   * it has injections, and of the sets that the practice counts those of every visit and of its
   * tray.
   *
   * @param asked the day from which it waits
   * @param earliest no visit before this day
   */
  public static CourseRequest of(
      Course course,
      SterileStock stock,
      LocalDate asked,
      LocalDate earliest,
      Availability availability,
      Preferences preferences) {
    List<VisitRequest> visits = new ArrayList<>();
    for (Visit visit : course.visits()) {
      boolean first = visits.isEmpty();
      visits.add(
          new VisitRequest(
              visit.number(),
              visit.bookedMinutes(),
              visit.injections().isEmpty() ? List.of() : List.of(Capability.INJECT),
              sets(visit, stock),
              first ? 0 : course.gapMinDays(),
              first ? 0 : gapMaxDays(course, visits.size())));
    }
    return new CourseRequest(
        course.caseName(),
        asked,
        earliest,
        visits,
        course.reevaluateFromWeeks(),
        course.reevaluateToWeeks(),
        availability,
        preferences);
  }

  /**
   * Most days before a visit, by its place. A deadline over several gaps is shared out among them
   * evenly, which keeps it whatever days are taken.
   */
  private static int gapMaxDays(Course course, int place) {
    List<Integer> numbers = course.visits().stream().map(Visit::number).toList();
    int most = course.gapMaxDays();
    for (Course.FinishWithin deadline : course.finishWithin()) {
      int from = numbers.indexOf(deadline.from());
      int to = numbers.indexOf(deadline.to());
      if (from < place && place <= to) {
        most = Math.min(most, deadline.days() / (to - from));
      }
    }
    return Math.max(most, course.gapMinDays());
  }

  private static List<String> sets(Visit visit, SterileStock stock) {
    List<String> inserts = Kit.inserts(visit);
    return stock.sets().stream()
        .filter(set -> set.everyVisit() || inserts.contains(set.name()))
        .map(SterileStock.SterileSet::name)
        .toList();
  }

  public Optional<VisitRequest> visit(int number) {
    return visits.stream().filter(one -> one.number() == number).findFirst();
  }

  /** The number of the last visit. */
  public int lastNumber() {
    return visits.get(visits.size() - 1).number();
  }
}
