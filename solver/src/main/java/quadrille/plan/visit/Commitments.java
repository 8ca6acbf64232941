package quadrille.plan.visit;

import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.course.NumbSide;

/**
 * What stands already when a course under way is staged again.
 *
 * @param slots by visit; visits beyond the list are free
 * @param given injected earlier on the day of the first visit
 * @param gelCartridges pocket gel used earlier on that day, by quadrant
 * @param setsOpened sterile sets opened earlier on that day, by insert
 * @param lastVisits by area, the last visit that may work on it, 1, 2, 3 …; any where it is not
 *     named. Minded by the exact method only
 * @param begun whether a visit of the course has taken place
 */
public record Commitments(
    List<Slot> slots,
    List<Doses.Amount> given,
    SortedMap<Quadrant, Double> gelCartridges,
    SortedMap<String, Integer> setsOpened,
    SortedMap<AreaRef, Integer> lastVisits,
    boolean begun) {

  /** Nothing stands. */
  public static final Commitments NONE =
      new Commitments(
          List.of(), List.of(), Collections.emptySortedMap(), Collections.emptySortedMap());

  public Commitments {
    slots = List.copyOf(slots);
    given = List.copyOf(given);
    gelCartridges = Collections.unmodifiableSortedMap(new TreeMap<>(gelCartridges));
    setsOpened = Collections.unmodifiableSortedMap(new TreeMap<>(setsOpened));
    lastVisits = Collections.unmodifiableSortedMap(new TreeMap<>(lastVisits));
  }

  /** Of a course that begins, with areas that may be worked on in any visit. */
  public Commitments(
      List<Slot> slots,
      List<Doses.Amount> given,
      SortedMap<Quadrant, Double> gelCartridges,
      SortedMap<String, Integer> setsOpened) {
    this(slots, given, gelCartridges, setsOpened, Collections.emptySortedMap(), false);
  }

  /**
   * What stands of one visit.
   *
   * @param pinned indexes of its steps in the order in which they are taken, where they stay as
   *     they are; null where they may change
   * @param minutes the length that it has been booked for; null where it has not been
   * @param side the side that was promised to be the only one numbed; null where none was
   */
  public record Slot(
      @Nullable List<Integer> pinned, @Nullable Integer minutes, @Nullable NumbSide side) {

    /** Nothing stands of it. */
    public static final Slot FREE = new Slot(null, null, null);

    public Slot {
      pinned = pinned == null ? null : List.copyOf(pinned);
    }
  }

  /** The last visit that may work on an area, 1, 2, 3 …; above any number where any may. */
  public int lastVisit(AreaRef area) {
    Integer last = lastVisits.get(area);
    return last == null ? Integer.MAX_VALUE : last;
  }

  /** What stands of a visit, by its place, 0, 1, 2 … */
  public Slot slot(int visit) {
    return visit < slots.size() ? slots.get(visit) : Slot.FREE;
  }

  /** Whether anything was given earlier on the day of the first visit. */
  public boolean anythingGiven() {
    return !given.isEmpty() || !gelCartridges.isEmpty();
  }
}
