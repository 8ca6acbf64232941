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
 * @param comingIn who comes in to inject, and when, a sentence each
 * @param stops questions answered by name before anything is touched
 * @param cautions of the order in which it goes on
 * @param rows what is ticked, in order
 * @param places where something can be found
 * @param sites where a depth stands
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
    List<String> comingIn,
    List<String> stops,
    List<String> cautions,
    List<Row> rows,
    List<Place> places,
    List<String> sites,
    List<Most> doses,
    double gelShare) {

  /**
   * What is ticked.
   *
   * @param of its place in the plan's sequence
   * @param start minutes from the start, by the plan
   * @param big of what is read from the stool: the teeth, or how much
   * @param before what comes right before it: a change of insert, a wait
   * @param numbs of an injection; of anything else, nothing
   * @param under places of the injections and gel that numb some of what is worked on here
   * @param work whether it is a step of work, of which a part can be done
   */
  public record Row(
      int of,
      int start,
      String doing,
      String where,
      String big,
      String before,
      Numbs numbs,
      List<Integer> under,
      boolean work) {}

  /**
   * What an injection does.
   *
   * @param mg of the agent
   * @param minutes for which the pulp is numb, the lower end
   * @param onset minutes until it is
   * @param regions the areas of the visit that are worked on under it
   */
  public record Numbs(String agent, double mg, int minutes, int onset, List<String> regions) {
    static final Numbs NOTHING = new Numbs("", 0, 0, 0, List.of());
  }

  /** A tooth at which something can be found. */
  public record Place(String tooth, boolean implant) {}

  /**
   * Most of an agent that may be given at this visit.
   *
   * @param words the agent's, for people
   * @param mg what the day leaves
   */
  public record Most(String agent, String words, double mg) {}
}
