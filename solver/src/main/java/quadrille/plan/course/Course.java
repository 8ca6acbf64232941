package quadrille.plan.course;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.practice.PassesTogether;

/**
 * A staged course.
 *
 * @param caseName the chart's
 * @param gapMinDays fewest days between two visits; 0 means all on one day
 * @param gapMaxDays most days between two visits
 * @param reevaluateFromWeeks earliest re-evaluation after the last visit
 * @param reevaluateToWeeks latest re-evaluation after the last visit
 * @param heldBack work left out, and why
 * @param assumptions what the numbers rest on, most important first
 * @param cautions for the whole course
 * @param cutShort whether the search was asked to end early, so that a longer one may find a better
 *     course, and another run another
 * @param passesTogether by which rule the passes of an area were dealt to visits (H11); null where
 *     the plan was made before there was one
 * @param grossFirst whether the gross pass of the whole mouth comes before any fine pass
 * @param reasons why it is as it is
 */
@Withers
public record Course(
    String caseName,
    List<Visit> visits,
    int gapMinDays,
    int gapMaxDays,
    int reevaluateFromWeeks,
    int reevaluateToWeeks,
    Cost cost,
    List<HeldBack> heldBack,
    List<Assumption> assumptions,
    List<Caution> cautions,
    boolean cutShort,
    @Nullable PassesTogether passesTogether,
    boolean grossFirst,
    Reasons reasons)
    implements CourseBuilder.With {

  public Course {
    visits = List.copyOf(visits);
    heldBack = List.copyOf(heldBack);
    assumptions = List.copyOf(assumptions);
    cautions = List.copyOf(cautions);
  }

  /** A course whose search was done, and which does not say how passes were dealt. */
  public Course(
      String caseName,
      List<Visit> visits,
      int gapMinDays,
      int gapMaxDays,
      int reevaluateFromWeeks,
      int reevaluateToWeeks,
      Cost cost,
      List<HeldBack> heldBack,
      List<Assumption> assumptions,
      List<Caution> cautions) {
    this(
        caseName,
        visits,
        gapMinDays,
        gapMaxDays,
        reevaluateFromWeeks,
        reevaluateToWeeks,
        cost,
        heldBack,
        assumptions,
        cautions,
        false,
        null,
        false,
        Reasons.NONE);
  }

  /** Expected chair time of all visits, in seconds. */
  public int chairSeconds() {
    return visits.stream().mapToInt(Visit::expectedSeconds).sum();
  }

  public int bookedMinutes() {
    return visits.stream().mapToInt(Visit::bookedMinutes).sum();
  }

  public int tipChanges() {
    return visits.stream().mapToInt(Visit::tipChanges).sum();
  }

  public int injections() {
    return visits.stream().mapToInt(visit -> visit.injections().size()).sum();
  }

  public int cartridges() {
    return visits.stream().mapToInt(Visit::cartridges).sum();
  }

  /** Number of its last visit; a course that carries on another counts on. 0 where it has none. */
  public int lastNumber() {
    return visits.stream().mapToInt(Visit::number).max().orElse(0);
  }
}
