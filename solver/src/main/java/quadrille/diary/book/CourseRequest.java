package quadrille.diary.book;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.plan.course.Course;
import quadrille.plan.course.Kit;
import quadrille.plan.course.NumbSide;
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
 * @param deadlines how soon a visit that ends what another began must follow it
 * @param provisional whether its plan stands under a reserve, so that its visits are held and never
 *     promised
 * @param ended the day on which it was ended, so that it asks for nothing more; null while it is
 *     under way
 * @param longestGapDays an alert's own longest gap, over which no gap is let grow; null for none
 * @param longerGaps that a clinician lets gaps grow over the longest of the plan; null where nobody
 *     does
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
    Preferences preferences,
    List<Deadline> deadlines,
    boolean provisional,
    @Nullable LocalDate ended,
    @Nullable Integer longestGapDays,
    @Nullable LongerGaps longerGaps)
    implements CourseRequestBuilder.With {

  public CourseRequest {
    visits = List.copyOf(visits);
    deadlines = List.copyOf(deadlines);
  }

  /** A course that is under way. */
  public CourseRequest(
      String caseName,
      LocalDate asked,
      LocalDate earliest,
      List<VisitRequest> visits,
      int reevaluateFromWeeks,
      int reevaluateToWeeks,
      Availability availability,
      Preferences preferences,
      List<Deadline> deadlines,
      boolean provisional) {
    this(
        caseName,
        asked,
        earliest,
        visits,
        reevaluateFromWeeks,
        reevaluateToWeeks,
        availability,
        preferences,
        deadlines,
        provisional,
        null,
        null,
        null);
  }

  /** A course without deadlines that may be promised. */
  public CourseRequest(
      String caseName,
      LocalDate asked,
      LocalDate earliest,
      List<VisitRequest> visits,
      int reevaluateFromWeeks,
      int reevaluateToWeeks,
      Availability availability,
      Preferences preferences) {
    this(
        caseName,
        asked,
        earliest,
        visits,
        reevaluateFromWeeks,
        reevaluateToWeeks,
        availability,
        preferences,
        List.of(),
        false);
  }

  /**
   * A visit that ends what another began.
   *
   * @param from number of the visit that begins
   * @param to number of the one that ends, a later one
   * @param days of the calendar between them at the most, 1 to 365
   */
  public record Deadline(int from, int to, int days) {}

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
    return of(course, stock, asked, earliest, availability, preferences, null);
  }

  /**
   * The same.
   *
   * @param injectorMargin minutes around the needles for which another clinician may come in to
   *     inject; null where nobody comes in
   */
  public static CourseRequest of(
      Course course,
      SterileStock stock,
      LocalDate asked,
      LocalDate earliest,
      Availability availability,
      Preferences preferences,
      @Nullable Integer injectorMargin) {
    List<VisitRequest> visits = new ArrayList<>();
    for (Visit visit : course.visits()) {
      boolean first = visits.isEmpty();
      visits.add(
          new VisitRequest(
              visit.number(),
              visit.bookedMinutes(),
              visit.injections().isEmpty() ? List.of() : List.of(Capability.INJECT),
              sets(visit, stock),
              first ? 0 : gapMinDays(course, visits.size()),
              first ? 0 : Math.max(gapMinDays(course, visits.size()), course.gapMaxDays()),
              visit.stopQuestions(),
              injectorMargin == null ? List.of() : NeedleTime.of(visit, injectorMargin)));
    }
    return new CourseRequest(
        course.caseName(),
        asked,
        earliest,
        visits,
        course.reevaluateFromWeeks(),
        course.reevaluateToWeeks(),
        availability,
        preferences,
        course.finishWithin().stream()
            .map(one -> new Deadline(one.from(), one.to(), one.days()))
            .toList(),
        course.provisional(),
        null,
        course.gapMostDays(),
        null);
  }

  /**
   * Fewest days before a visit, by its place. A deadline goes over the practice's shortest gap,
   * shared out among its gaps evenly, and never over that of an alert.
   */
  private static int gapMinDays(Course course, int place) {
    List<Integer> numbers = course.visits().stream().map(Visit::number).toList();
    int fewest = course.gapMinDays();
    for (Course.FinishWithin deadline : course.finishWithin()) {
      int from = numbers.indexOf(deadline.from());
      int to = numbers.indexOf(deadline.to());
      if (from < place && place <= to) {
        fewest = Math.min(fewest, deadline.days() / (to - from));
      }
    }
    fewest = Math.max(fewest, course.gapLeastDays());
    return fewest == 0 && otherSide(course, place) ? 1 : fewest;
  }

  /**
   * H1 over the day: whether a visit that may lie on the day of those before it numbs another side
   * than they. A practice that numbs both sides at once is not held to it.
   */
  private static boolean otherSide(Course course, int place) {
    NumbSide side = course.visits().get(place).numbSide();
    return side != NumbSide.NONE
        && course.visits().stream().noneMatch(visit -> visit.numbSide() == NumbSide.BOTH)
        && course.visits().subList(0, place).stream()
            .map(Visit::numbSide)
            .anyMatch(earlier -> earlier != NumbSide.NONE && earlier != side);
  }

  private static List<String> sets(Visit visit, SterileStock stock) {
    List<String> inserts = Kit.inserts(visit);
    return stock.sets().stream()
        .filter(set -> set.everyVisit() || inserts.contains(set.name()))
        .map(SterileStock.SterileSet::name)
        .toList();
  }

  /**
   * Most days between a visit and the one before it: the plan's longest gap, and what a clinician
   * allows over it, though never over an alert's own longest gap.
   */
  public int gapMaxDays(VisitRequest visit) {
    int most = visit.gapMaxDays() + (longerGaps == null ? 0 : longerGaps.days());
    return Math.max(
        visit.gapMaxDays(), longestGapDays == null ? most : Math.min(most, longestGapDays));
  }

  public Optional<VisitRequest> visit(int number) {
    return visits.stream().filter(one -> one.number() == number).findFirst();
  }

  /** A visit's place among the visits, from 0; -1 where there is none of that number. */
  public int place(int number) {
    for (int i = 0; i < visits.size(); i++) {
      if (visits.get(i).number() == number) {
        return i;
      }
    }
    return -1;
  }

  /** The number of the last visit. */
  public int lastNumber() {
    return visits.get(visits.size() - 1).number();
  }
}
