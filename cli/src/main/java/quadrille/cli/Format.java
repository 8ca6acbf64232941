package quadrille.cli;

import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.TypeConversionException;
import quadrille.facts.chart.Numbering;

/** How a command answers. */
enum Format {
  /** For a person. */
  TEXT(".txt"),
  /** For a program. */
  JSON(".json"),
  /** Pages to look at and print; not every command has them. */
  HTML(".html"),
  /** A chart as tooth lines. */
  LINES(".teeth"),
  /** A chart as a table. */
  CSV(".csv");

  private final String ending;

  Format(String ending) {
    this.ending = ending;
  }

  /** The format that a file's ending names; null where it names none. */
  static @Nullable Format ofEnding(String file) {
    String lower = file.toLowerCase(Locale.ROOT);
    return Stream.of(values())
        .filter(format -> lower.endsWith(format.ending))
        .findFirst()
        .orElse(null);
  }

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
