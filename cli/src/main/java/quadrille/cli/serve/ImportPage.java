package quadrille.cli.serve;

import java.util.List;

/**
 * Taking over what another program exports.
 *
 * @param text what was exported; empty where that is still to be given
 * @param revision of the mapping that was read
 * @param fhir whether it is a Bundle, whose codes are asked for, and not a table
 * @param numbering how a table names teeth; empty where nobody has said
 * @param lines what each column or code means
 * @param words what stands in cells
 * @param choices what a column or code may mean
 * @param faults what is wrong, a line each
 * @param mouth where the draft is; empty where nothing has been taken over
 * @param notes what could not be taken over
 */
public record ImportPage(
    boolean demo,
    String text,
    String revision,
    boolean fhir,
    String numbering,
    List<Line> lines,
    List<Line> words,
    List<String> choices,
    List<String> faults,
    String mouth,
    List<String> notes) {

  /** A page on which nothing has been typed yet. */
  static ImportPage blank(boolean demo) {
    return taken(demo, "", List.of());
  }

  /** A page that tells where the draft of what was taken over is. */
  static ImportPage taken(boolean demo, String mouth, List<String> notes) {
    List<Line> none = List.of();
    return new ImportPage(demo, "", "", false, "", none, none, List.of(), List.of(), mouth, notes);
  }

  /**
   * A line to be looked at.
   *
   * @param field its name in the form
   * @param now what it means; empty where nobody has said
   */
  public record Line(String field, String name, String now) {}
}
