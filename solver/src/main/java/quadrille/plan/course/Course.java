package quadrille.plan.course;

import java.util.ArrayList;
import java.util.List;

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
 */
public record Course(
    String caseName,
    List<Visit> visits,
    int gapMinDays,
    int gapMaxDays,
    int reevaluateFromWeeks,
    int reevaluateToWeeks,
    Cost cost,
    List<HeldBack> heldBack,
    List<String> assumptions,
    List<String> cautions) {

  public Course {
    visits = List.copyOf(visits);
    heldBack = List.copyOf(heldBack);
    assumptions = List.copyOf(assumptions);
    cautions = List.copyOf(cautions);
  }

  /** The same course, which rests on one assumption more; it comes first. */
  public Course assuming(String assumption) {
    List<String> more = new ArrayList<>();
    more.add(assumption);
    more.addAll(assumptions);
    return with(visits, more, cautions);
  }

  /** The same course with other visits. */
  public Course withVisits(List<Visit> others) {
    return with(others, assumptions, cautions);
  }

  /** The same course with other cautions. */
  public Course withCautions(List<String> others) {
    return with(visits, assumptions, others);
  }

  private Course with(List<Visit> otherVisits, List<String> assuming, List<String> minding) {
    return new Course(
        caseName,
        otherVisits,
        gapMinDays,
        gapMaxDays,
        reevaluateFromWeeks,
        reevaluateToWeeks,
        cost,
        heldBack,
        assuming,
        minding);
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
