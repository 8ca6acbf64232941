package quadrille.plan.course;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;

/**
 * What a plan file says: the course, and the sums that the file states beside it. A file that was
 * written by hand, or changed, may state sums that do not follow from its course; they are kept as
 * stated, so that the audit can tell.
 *
 * @param numbering how the file names its teeth; null where it does not say what the chart's is: a
 *     file of version 1, which has ISO 3950 codes whatever the chart, or a course not read
 * @param visits the sums of each visit, in the order of the course's visits
 * @param totals the sums of the whole course
 * @param changes against the plan that this one takes the place of, each with its reason; null
 *     where it takes the place of none
 */
public record PlanFile(
    Course course,
    @Nullable Numbering numbering,
    List<VisitSums> visits,
    Totals totals,
    @Nullable List<PlanChange> changes) {

  public PlanFile {
    visits = List.copyOf(visits);
    changes = changes == null ? null : List.copyOf(changes);
    if (visits.size() != course.visits().size()) {
      throw new IllegalArgumentException(
          "The sums of " + visits.size() + " visits are not those of the course's visits.");
    }
  }

  /** A plan that takes the place of none. */
  public PlanFile(Course course, List<VisitSums> visits, Totals totals) {
    this(course, null, visits, totals, null);
  }

  /**
   * The sums of one visit.
   *
   * @param expectedMinutes chair time, minutes at two decimals
   * @param tipChanges between steps
   * @param numbFront front teeth infiltrated across the midline
   * @param rescue as {@link Visit#rescue}
   */
  public record VisitSums(
      double expectedMinutes, int tipChanges, List<Tooth> numbFront, @Nullable Boolean rescue) {

    public VisitSums {
      numbFront = List.copyOf(numbFront);
    }

    /** The sums that follow from a visit's sequence. */
    public static VisitSums of(Visit visit) {
      return new VisitSums(
          minutes(visit.expectedSeconds()).doubleValue(),
          visit.tipChanges(),
          visit.numbFront(),
          visit.rescue());
    }
  }

  /**
   * The sums of a course.
   *
   * @param visits how many
   * @param chairMinutes expected, minutes at two decimals
   * @param bookedMinutes whole minutes
   * @param tipChanges between steps
   * @param injections given
   * @param cartridges opened, of injected agents
   */
  public record Totals(
      int visits,
      double chairMinutes,
      int bookedMinutes,
      int tipChanges,
      int injections,
      int cartridges) {

    /** The sums that follow from a course. */
    public static Totals of(Course course) {
      return new Totals(
          course.visits().size(),
          minutes(course.chairSeconds()).doubleValue(),
          course.bookedMinutes(),
          course.tipChanges(),
          course.injections(),
          course.cartridges());
    }
  }

  /** A course with the sums that follow from it. */
  public static PlanFile of(Course course) {
    return new PlanFile(
        course, course.visits().stream().map(VisitSums::of).toList(), Totals.of(course));
  }

  /**
   * A course that carries on another, with the sums that follow from it.
   *
   * @param changes against the plan before, each with its reason
   */
  public static PlanFile of(Course course, List<PlanChange> changes) {
    PlanFile plan = of(course);
    return new PlanFile(course, null, plan.visits(), plan.totals(), changes);
  }

  /**
   * Seconds as a plan file states them: minutes at two decimals. Whole seconds are recovered by
   * rounding 60 times the minutes, since 0.005 minutes are less than half a second.
   */
  static BigDecimal minutes(int seconds) {
    return BigDecimal.valueOf(seconds).divide(BigDecimal.valueOf(60), 2, RoundingMode.HALF_UP);
  }

  /** The whole seconds that were written as these minutes. */
  static int seconds(double minutes) {
    return Math.toIntExact(Math.round(60 * minutes));
  }
}
