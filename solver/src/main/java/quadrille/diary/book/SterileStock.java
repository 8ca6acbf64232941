package quadrille.diary.book;

import java.util.List;

/**
 * The sterile sets that the practice counts. A set is in use from the start of a visit to its end
 * and back in stock when it has been reprocessed; what is not listed is not counted.
 *
 * @param reprocessingMinutes from the end of a visit until its sets can be used again
 */
public record SterileStock(int reprocessingMinutes, List<SterileSet> sets) {

  public SterileStock {
    sets = List.copyOf(sets);
  }

  /**
   * A kind of set.
   *
   * @param name such as {@code basic kit}, or the name of an insert in the practice file
   * @param count owned, 0 or more
   * @param everyVisit whether each visit uses one, whatever its plan says
   */
  public record SterileSet(String name, int count, boolean everyVisit) {}
}
