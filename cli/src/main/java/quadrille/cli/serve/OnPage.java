package quadrille.cli.serve;

import java.util.List;

/**
 * The ways in which a course goes on after a visit.
 *
 * @param url what its addresses begin with
 * @param entries how many the log had when they were worked out
 * @param untold whether the diary could not be told that the visit took place
 * @param holds whether the plan holds as it is
 * @param over whether no visit is left
 * @param ways the usual one first
 */
public record OnPage(
    boolean demo,
    String url,
    String name,
    int entries,
    boolean untold,
    boolean holds,
    boolean over,
    List<Way> ways) {

  /**
   * One of them.
   *
   * @param cost calls and minutes
   * @param changes against the plan before
   */
  public record Way(String kind, String cost, List<String> changes) {}
}
