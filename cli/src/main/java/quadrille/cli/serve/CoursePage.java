package quadrille.cli.serve;

import java.util.List;

/**
 * The courses of a mouth, side by side.
 *
 * @param url what its addresses begin with
 * @param longest the longest visit asked for, in minutes; empty as the practice has it
 * @param certainty the share of visits in percent that shall end in time; empty as the practice has
 *     it
 * @param practiceLongest as the practice has it
 * @param practiceCertainty as the practice has it, in percent
 * @param effort how hard to seek
 * @param grossFirst whether the whole mouth gets its gross pass first
 * @param moved what is wished at the page, as an address says it
 * @param wishes the same, one by one
 * @param charted what the chart itself wishes, a line each
 * @param before what must be known of the mouth before anything is read from a plan
 */
public record CoursePage(
    boolean demo,
    String url,
    String name,
    String longest,
    String certainty,
    String practiceLongest,
    String practiceCertainty,
    String effort,
    boolean grossFirst,
    String moved,
    List<Wished> wishes,
    List<String> charted,
    List<String> before) {

  /**
   * A wish.
   *
   * @param visits of a course of how many visits
   */
  public record Wished(String words, int visits) {}
}
