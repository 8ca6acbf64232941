package quadrille.cli.serve;

import java.util.List;

/**
 * What the practice owns, allows and prefers.
 *
 * @param kept what has just been changed; empty where nothing has
 */
public record PracticePage(boolean demo, String name, String kept, List<Section> sections) {

  /**
   * A part of the practice file.
   *
   * @param changed how many of its settings differ from the default
   */
  public record Section(String name, int changed, List<Row> rows) {}

  /**
   * A setting.
   *
   * @param pointer what addresses call it
   * @param mark whose it is, where it differs from the default; empty where it does not
   * @param by who changed it last, and when; empty where nobody did on this page
   */
  public record Row(
      String name, String pointer, String value, String source, String mark, String by) {

    /** The pointer as it stands in an address. */
    public String encoded() {
      return Request.encoded(pointer);
    }
  }
}
