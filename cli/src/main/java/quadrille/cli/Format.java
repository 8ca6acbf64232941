package quadrille.cli;

import java.util.Locale;
import picocli.CommandLine.TypeConversionException;

/** How a command answers. */
enum Format {
  /** For a person. */
  TEXT,
  /** For a program. */
  JSON,
  /** Pages to look at and print; not every command has them. */
  HTML;

  /** Reads a word of the command line. */
  static Format of(String word) {
    for (Format format : values()) {
      if (format.toString().equals(word)) {
        return format;
      }
    }
    throw new TypeConversionException("\"" + word + "\" is neither text nor json nor html");
  }

  /** As written on the command line. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
