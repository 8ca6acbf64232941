package quadrille.cli.serve;

import java.util.List;

/**
 * A visit at the chair.
 *
 * @param url what its addresses begin with
 * @param running whether it has begun; if not, who works is asked first
 * @param ticks what has been ticked so far, as JSON
 * @param store what a browser keeps ticks by, until they are sent
 * @param booked minutes
 * @param stops questions answered by name before anything is touched
 * @param rows what is ticked, in order
 * @param doses most of each agent, in mg
 * @param gelShare of the day's maximum, the share that gel takes by the plan
 */
public record ChairPage(
    boolean demo,
    String url,
    String name,
    int visit,
    boolean running,
    String clinician,
    String ticks,
    String store,
    int booked,
    List<String> stops,
    List<Row> rows,
    List<Most> doses,
    double gelShare) {

  /**
   * What is ticked.
   *
   * @param of its place in the plan's sequence
   * @param start minutes from the start, by the plan
   * @param before what comes right before it: a change of insert, a wait, a move
   * @param agent of an injection; empty for anything else
   * @param mg of the agent
   * @param numb minutes for which the pulp is numb, the lower end
   * @param onset minutes until it is
   * @param work whether it is a step of work, of which a part can be done
   */
  public record Row(
      int of,
      int start,
      String doing,
      String where,
      List<String> before,
      String agent,
      double mg,
      int numb,
      int onset,
      boolean work) {}

  /**
   * Most of an agent that may be given at this visit.
   *
   * @param mg what the day leaves
   */
  public record Most(String agent, double mg) {}
}
