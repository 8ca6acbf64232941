package quadrille.cli.serve;

import java.util.List;

/** The practice's mouths. */
public record HomePage(boolean demo, List<Line> drafts, List<Line> charts) {

  /**
   * A mouth.
   *
   * @param name its case; of a file that is no chart, the file's name
   * @param charted the day; empty where it is not said
   * @param broken whether it is no valid chart
   */
  public record Line(String id, String name, String charted, String words, boolean broken) {}
}
