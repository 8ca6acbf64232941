package quadrille.diary.booking.problem;

import java.util.List;
import quadrille.diary.book.SterileStock.SterileSet;

/** How many of each counted set something uses, by the set's place in the stock. */
public final class SetCounts {

  private final int[] counts;

  private SetCounts(int[] counts) {
    this.counts = counts;
  }

  /**
   * Counts names.
   *
   * @param names of sets, twice for two; a name that the stock does not count is passed over
   */
  static SetCounts of(List<SterileSet> sets, List<String> names) {
    int[] counts = new int[sets.size()];
    for (int set = 0; set < counts.length; set++) {
      for (String name : names) {
        counts[set] += name.equals(sets.get(set).name()) ? 1 : 0;
      }
    }
    return new SetCounts(counts);
  }

  /** How many sets are counted, used or not. */
  public int sets() {
    return counts.length;
  }

  /** How many of a set are used. */
  public int of(int set) {
    return counts[set];
  }
}
