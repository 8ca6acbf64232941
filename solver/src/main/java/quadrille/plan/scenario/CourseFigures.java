package quadrille.plan.scenario;

import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;

/**
 * What a course comes to, in the figures by which courses are compared.
 *
 * @param visits how many
 * @param chairSeconds expected chair time of all visits
 * @param bookedMinutes of all visits
 * @param longestMinutes the longest booked visit
 * @param tipChanges between steps, over all visits
 * @param injections over all visits
 * @param cartridges opened over all visits, of injected agents
 * @param largestDoseShare the largest sum of dose shares of a visit; of the whole course where all
 *     visits are on one day; 1 is the maximum
 * @param overrunRisk chance that any visit runs over its booked time, 0 to 1, visits taken as
 *     independent (assumption)
 * @param spanDays days from the first visit to the last at the shortest gap; 0 on one day
 * @param costSeconds the whole cost
 * @param lowerBoundSeconds no course of so many visits can cost less
 */
public record CourseFigures(
    int visits,
    int chairSeconds,
    int bookedMinutes,
    int longestMinutes,
    int tipChanges,
    int injections,
    int cartridges,
    double largestDoseShare,
    double overrunRisk,
    int spanDays,
    long costSeconds,
    long lowerBoundSeconds) {

  /** The figures of a course. */
  public static CourseFigures of(Course course) {
    double inTime = 1;
    double dose = 0;
    int longest = 0;
    for (Visit visit : course.visits()) {
      inTime *= 1 - visit.overrunRisk();
      longest = Math.max(longest, visit.bookedMinutes());
      dose =
          course.gapMinDays() == 0 ? dose + visit.doseShare() : Math.max(dose, visit.doseShare());
    }
    return new CourseFigures(
        course.visits().size(),
        course.chairSeconds(),
        course.bookedMinutes(),
        longest,
        course.tipChanges(),
        course.injections(),
        course.cartridges(),
        dose,
        1 - inTime,
        Math.max(0, course.visits().size() - 1) * course.gapMinDays(),
        course.cost().seconds(),
        course.cost().lowerBoundSeconds());
  }

  /** Whether no course of so many visits can cost less. */
  public boolean provenBest() {
    return costSeconds <= lowerBoundSeconds;
  }

  /**
   * Whether another choice is at least as good in chair time, number of visits, longest visit and
   * dose, and better in one of them. Doses are told apart by thousandths of the maximum.
   */
  boolean beatenBy(CourseFigures other) {
    int[] own = front();
    int[] others = other.front();
    boolean better = false;
    for (int i = 0; i < own.length; i++) {
      if (others[i] > own[i]) {
        return false;
      }
      better |= others[i] < own[i];
    }
    return better;
  }

  private int[] front() {
    return new int[] {
      chairSeconds, visits, longestMinutes, (int) Math.round(1000 * largestDoseShare)
    };
  }
}
