package quadrille.document;

/**
 * Where in a named document something stands.
 *
 * @param source the document's name, as people know it: a file name, or {@code -}
 * @param line 1 for the first line; 0 where the whole document is meant
 * @param column 1 for the first character of the line; only orders the faults of one line
 * @param within the JSON pointer, the name of a CSV column, or empty
 */
public record Place(String source, int line, int column, String within) {

  /** The document as a whole. */
  public static Place of(String source) {
    return new Place(source, 0, 0, "");
  }

  /** As people read it: {@code chart.json:12 /teeth/3/facial/depthMm/1}. */
  @Override
  public String toString() {
    String lined = line == 0 ? source : source + ":" + line;
    return within.isEmpty() ? lined : lined + " " + within;
  }
}
