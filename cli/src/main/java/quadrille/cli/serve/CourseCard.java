package quadrille.cli.serve;

import java.util.List;

/**
 * One number of visits: the course, or what stands in the way.
 *
 * @param visits how many were asked for
 * @param mind what is to be known of the search; may be empty
 * @param stops what is asked at every visit, before anything is touched
 * @param lines one a visit; empty where there is no course
 * @param obstacles why there is none
 */
public record CourseCard(
    int visits,
    String mind,
    int bookedMinutes,
    String chairMinutes,
    int injections,
    String dose,
    int tipChanges,
    List<String> stops,
    List<Line> lines,
    List<String> obstacles,
    List<String> cautions) {

  /** So many minutes are as wide as a card. */
  public static final int MINUTES = 120;

  /**
   * A visit.
   *
   * @param style its colour
   */
  public record Line(
      int visit,
      String style,
      String numb,
      int booked,
      String risk,
      List<String> areas,
      List<Block> blocks) {}

  /** A stretch of a visit, in minutes. */
  public record Block(String kind, String from, String minutes) {}
}
