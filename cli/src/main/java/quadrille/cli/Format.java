package quadrille.cli;

import java.util.Locale;
import java.util.stream.Stream;
import picocli.CommandLine.TypeConversionException;
import quadrille.facts.chart.Numbering;

/** How a command answers. */
enum Format {
  /** For a person. */
  TEXT,
  /** For a program. */
  JSON,
  /** Pages to look at and print; not every command has them. */
  HTML,
  /** A chart as tooth lines. */
  LINES,
  /** A chart as a table. */
  CSV;

  /** Reads the word for a chart's numbering. */
  static Numbering numbering(String word) {
    return Stream.of(Numbering.values())
        .filter(numbering -> numbering.word().equals(word))
        .findFirst()
        .orElseThrow(
            () -> new TypeConversionException("\"" + word + "\" is neither iso3950 nor universal"));
  }

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
