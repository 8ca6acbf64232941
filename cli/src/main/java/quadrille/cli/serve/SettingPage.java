package quadrille.cli.serve;

import java.util.List;

/**
 * One setting, to be changed.
 *
 * @param revision the practice file that was read
 * @param kind a word of {@code Setting.Kind}
 * @param usual the default's value and source, in words; empty where the default has none
 * @param typed what has been typed, or the value as it is
 * @param source what has been typed for it, or the source as it is
 * @param by who, as typed
 * @param people names to choose from
 * @param mouths to try it on
 * @param mouth the one chosen
 * @param faults why it cannot be
 * @param tried what it would do; empty before it was tried
 * @param cards the courses of the mouth, before and after; empty where none was chosen
 * @param history earlier changes of this setting, newest first
 */
public record SettingPage(
    boolean demo,
    String revision,
    String pointer,
    String name,
    String kind,
    String now,
    String usual,
    boolean reset,
    String typed,
    String source,
    String by,
    List<String> people,
    List<Mouth> mouths,
    String mouth,
    List<String> faults,
    String tried,
    List<Card> cards,
    List<String> history) {

  /** A mouth to try a change on. */
  public record Mouth(String id, String name) {}

  /** A course under its heading. */
  public record Card(String title, CourseCard card) {}

  /** Whether a figure is set, which has a source. */
  public boolean figure() {
    return kind.equals("figure");
  }

  public boolean truth() {
    return kind.equals("truth");
  }
}
