package quadrille.plan.course;

import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.work.DoneWork;

/**
 * What went before the first visit of a course that carries on another.
 *
 * @param visits numbers of the visits that took place
 * @param work what they did
 * @param given what was injected earlier on the day of the first visit to come; empty where that is
 *     a later day
 * @param gelCartridges pocket gel used earlier on that day, by quadrant
 * @param setsOpened sterile sets opened earlier on that day, by insert, 1 or more each
 */
public record Before(
    SortedSet<Integer> visits,
    DoneWork work,
    List<GivenInjection> given,
    SortedMap<Quadrant, Double> gelCartridges,
    SortedMap<String, Integer> setsOpened) {

  /** A course that begins. */
  public static final Before NOTHING =
      new Before(
          Collections.emptySortedSet(),
          DoneWork.NONE,
          List.of(),
          Collections.emptySortedMap(),
          Collections.emptySortedMap());

  public Before {
    visits = Collections.unmodifiableSortedSet(new TreeSet<>(visits));
    given = List.copyOf(given);
    gelCartridges = Collections.unmodifiableSortedMap(new TreeMap<>(gelCartridges));
    setsOpened = Collections.unmodifiableSortedMap(new TreeMap<>(setsOpened));
  }
}
