package quadrille.plan.course;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.RuleVersion;

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
 * @param wishes what became of what was wished, in the order of the wishes
 * @param reasons why it is as it is
 * @param gapLeastDays days between two visits that no deadline goes below: what an alert asks, or 1
 *     where visits lie on several days
 * @param gapMostDays days between two visits that nobody's leave goes above: what an alert asks;
 *     null where none does
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
    List<WishOutcome> wishes,
    Reasons reasons,
    int gapLeastDays,
    @Nullable Integer gapMostDays)
    implements CourseBuilder.With {

  public Course {
    visits = List.copyOf(visits);
    heldBack = List.copyOf(heldBack);
    assumptions = List.copyOf(assumptions);
    cautions = List.copyOf(cautions);
    wishes = List.copyOf(wishes);
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
        List.of(),
        Reasons.NONE,
        gapMinDays,
        null);
  }

  /** By the rules of which release it was made: the first did not deal passes by any. */
  public RuleVersion rules() {
    return passesTogether == null ? RuleVersion.FIRST : RuleVersion.PRESENT;
  }

  /**
   * Whether it stands under a reserve: nobody has taken the medical history, so its visits are held
   * and never promised.
   */
  public boolean provisional() {
    return cautions.contains(Caution.Known.HISTORY_NOT_TAKEN);
  }

  /**
   * A deadline: so many days from one visit to another at the most.
   *
   * @param from number of the visit that begins an area
   * @param to number of the visit that finishes it
   * @param days 1 to 365
   */
  public record FinishWithin(int from, int to, int days) {}

  /**
   * What areas that are begun in one visit and finished in another ask of the diary, where the
   * practice sets a limit: each pair of visits once, in order.
   */
  public List<FinishWithin> finishWithin() {
    Integer days = passesTogether == null ? null : passesTogether.days();
    List<FinishWithin> deadlines = new ArrayList<>();
    for (int i = 0; days != null && i < visits.size(); i++) {
      Set<AreaRef> open = new LinkedHashSet<>(visits.get(i).areas());
      visits.subList(0, i).forEach(earlier -> open.removeAll(earlier.areas()));
      for (int j = i + 1; j < visits.size(); j++) {
        if (visits.get(j).areas().stream().anyMatch(open::contains)) {
          deadlines.add(new FinishWithin(visits.get(i).number(), visits.get(j).number(), days));
        }
      }
    }
    return deadlines;
  }

  /** Whether its visits only make the mouth chartable, and the rest is planned from a new chart. */
  public boolean chartsFirst() {
    return heldBack.stream().anyMatch(held -> held.reason() instanceof HeldBack.AwaitsChart);
  }

  /**
   * Whether a re-evaluation may follow the last visit: no work is held back, which would have to be
   * planned again and done before.
   */
  public boolean leadsToReevaluation() {
    return heldBack.isEmpty();
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
