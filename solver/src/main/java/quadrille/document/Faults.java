package quadrille.document;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Collects what is wrong with one or several documents, so that all of it can be put right at once.
 */
public final class Faults {

  /** So many faults are kept in full; a file with more is no near miss, and memory is finite. */
  static final int KEPT = 1000;

  private record Found(Place place, Fault fault) {}

  private final List<String> sources = new ArrayList<>();

  /** What was found, and in how many places: one, or those of a fault that was added alike. */
  private final Map<Found, Integer> found = new LinkedHashMap<>();

  private final Map<Fault, Found> alike = new LinkedHashMap<>();

  /** The first places of faults that are told once, so that none of them is counted twice. */
  private final Set<Found> places = new LinkedHashSet<>();

  private long left;

  /** Whether there are so many that more are only counted: their words need not be found. */
  boolean full() {
    return found.size() >= KEPT;
  }

  /** Counts one more. */
  void count() {
    left++;
  }

  /** Adds a fault; the same one added twice counts once. */
  public void add(Place place, String what, String allowed) {
    if (full()) {
      count();
      return;
    }
    found.put(kept(place, what, allowed), 1);
  }

  /** Adds a fault that is told once, at its first place, however often a document has it. */
  void addAlike(Place place, String what, String allowed) {
    Fault wherever = new Fault(place.source(), what, allowed);
    if (places.size() < KEPT && !places.add(new Found(place, wherever))) {
      return;
    }
    Found first = alike.get(wherever);
    if (first != null) {
      found.merge(first, 1, Integer::sum);
    } else if (full()) {
      count();
    } else {
      Found kept = kept(place, what, allowed);
      alike.put(wherever, kept);
      found.put(kept, 1);
    }
  }

  private Found kept(Place place, String what, String allowed) {
    if (!sources.contains(place.source())) {
      sources.add(place.source());
    }
    return new Found(place, new Fault(place.toString(), what, allowed));
  }

  /** Whether nothing is wrong so far. */
  public boolean none() {
    return found.isEmpty();
  }

  /** Every fault: by document as first met, then by line and column. */
  public List<Fault> list() {
    List<Fault> faults = new ArrayList<>();
    found.keySet().stream()
        .sorted(
            Comparator.<Found>comparingInt(one -> sources.indexOf(one.place().source()))
                .thenComparingInt(one -> one.place().line())
                .thenComparingInt(one -> one.place().column()))
        .map(one -> told(one.fault(), found.getOrDefault(one, 1) - 1))
        .forEach(faults::add);
    if (left > 0) {
      faults.add(new Fault(sources.get(0), left + " more faults", "the first ones mended"));
    }
    return List.copyOf(faults);
  }

  private static Fault told(Fault fault, int more) {
    return more == 0
        ? fault
        : new Fault(
            fault.place(),
            fault.found() + ", here and in " + more + (more == 1 ? " more place" : " more places"),
            fault.allowed());
  }

  /**
   * Ends the reading: whatever was read may be used only after this.
   *
   * @throws InvalidDocumentException with every fault, where there is one
   */
  public void check() throws InvalidDocumentException {
    if (!none()) {
      throw new InvalidDocumentException(list());
    }
  }
}
