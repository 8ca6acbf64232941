package quadrille.document;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Collects what is wrong with one or several documents, so that all of it can be put right at once.
 */
public final class Faults {

  /** So many faults are kept in full; a file with more is no near miss, and memory is finite. */
  static final int KEPT = 1000;

  private record Found(Place place, Fault fault) {}

  private final List<String> sources = new ArrayList<>();
  private final Set<Found> found = new LinkedHashSet<>();
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
    if (!sources.contains(place.source())) {
      sources.add(place.source());
    }
    found.add(new Found(place, new Fault(place.toString(), what, allowed)));
  }

  /** Whether nothing is wrong so far. */
  public boolean none() {
    return found.isEmpty();
  }

  /** Every fault: by document as first met, then by line and column. */
  public List<Fault> list() {
    List<Fault> faults = new ArrayList<>();
    found.stream()
        .sorted(
            Comparator.<Found>comparingInt(one -> sources.indexOf(one.place().source()))
                .thenComparingInt(one -> one.place().line())
                .thenComparingInt(one -> one.place().column()))
        .map(Found::fault)
        .forEach(faults::add);
    if (left > 0) {
      faults.add(new Fault(sources.get(0), left + " more faults", "the first ones mended"));
    }
    return List.copyOf(faults);
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
