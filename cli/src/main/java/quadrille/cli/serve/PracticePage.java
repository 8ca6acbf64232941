package quadrille.cli.serve;

import java.util.List;

/** What the practice owns, allows and prefers, to read. */
public record PracticePage(boolean demo, String name, List<Section> sections) {

  /** A part of the practice file. */
  public record Section(String name, List<Row> rows) {}

  /**
   * A setting.
   *
   * @param changed whether it differs from the default
   */
  public record Row(String name, String value, String source, boolean changed) {}
}
