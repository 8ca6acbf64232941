package quadrille.cli;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;

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
}
