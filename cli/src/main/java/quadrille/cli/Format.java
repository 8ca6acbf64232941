package quadrille.cli;

import picocli.CommandLine.TypeConversionException;

/** How a command answers. */
enum Format {
  /** For a person. */
  TEXT,
  /** For a program. */
  JSON;

  /** Reads a word of the command line. */
  static Format of(String word) {
    for (Format format : values()) {
      if (format.toString().equals(word)) {
        return format;
      }
    }
    throw new TypeConversionException("\"" + word + "\" is neither text nor json");
  }

  /** As written on the command line. */
  @Override
  public String toString() {
    return this == TEXT ? "text" : "json";
  }
}
