package quadrille.cli;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import picocli.CommandLine.TypeConversionException;

/**
 * A day or days in a row, as options name them: {@code 2026-03-05} or {@code
 * 2026-03-05/2026-03-12}.
 */
record Days(LocalDate first, LocalDate last) {

  static Days of(String option, String text) throws StopException {
    String[] ends = text.split("/", -1);
    try {
      Days days = new Days(LocalDate.parse(ends[0]), LocalDate.parse(ends[ends.length - 1]));
      if (ends.length <= 2 && !days.last().isBefore(days.first())) {
        return days;
      }
    } catch (DateTimeParseException wrong) {
      // Said below, as everything else that is wrong with it.
    }
    throw StopException.usage(
        option + ": is \"" + text + "\"; 2026-03-05 or 2026-03-05/2026-03-12 are allowed.");
  }

  /** Reads a day of the command line. */
  static LocalDate day(String word) {
    try {
      return LocalDate.parse(word);
    } catch (DateTimeParseException wrong) {
      throw new TypeConversionException("\"" + word + "\" is no day such as 2026-03-02");
    }
  }

  /** Reads a moment of the command line. */
  static OffsetDateTime moment(String word) {
    try {
      return OffsetDateTime.parse(word);
    } catch (DateTimeParseException wrong) {
      throw new TypeConversionException(
          "\"" + word + "\" is no time such as 2026-03-02T12:00:00+01:00");
    }
  }
}
