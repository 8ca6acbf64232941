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

  /** Two years ahead is as far as anybody books. */
  static final int MOST_DAYS = 730;

  private static final LocalDate FIRST = LocalDate.of(1900, 1, 1);

  /** Files write years in four digits. */
  private static final LocalDate LAST = LocalDate.of(9999, 12, 31);

  /** Two years of booking, and what is looked at after them, still have four. */
  private static final LocalDate LAST_FROM = LocalDate.of(9990, 1, 1);

  static Days of(String option, String text) throws StopException {
    String[] ends = text.split("/", -1);
    try {
      Days days = new Days(LocalDate.parse(ends[0]), LocalDate.parse(ends[ends.length - 1]));
      if (ends.length <= 2
          && !days.first().isBefore(FIRST)
          && !days.last().isBefore(days.first())
          && !days.last().isAfter(LAST)) {
        return days;
      }
    } catch (DateTimeParseException wrong) {
      // Said below, as everything else that is wrong with it.
    }
    throw StopException.usage(
        option + ": is \"" + text + "\"; 2026-03-05 or 2026-03-05/2026-03-12 are allowed.");
  }

  /**
   * Checks the days between which visits are booked.
   *
   * @param first of {@code --from}
   * @param last of {@code --until}
   */
  static void checkBooking(LocalDate first, LocalDate last) throws StopException {
    if (first.isAfter(LAST_FROM)) {
      throw StopException.usage(
          "--from: is " + first + "; days up to " + LAST_FROM + " are allowed.");
    }
    LocalDate most = first.plusDays(MOST_DAYS);
    if (last.isBefore(first) || last.isAfter(most)) {
      throw StopException.usage(
          "--until: is " + last + "; " + first + " to " + most + " are allowed.");
    }
  }

  /** Reads a day of the command line. */
  static LocalDate day(String word) {
    try {
      LocalDate day = LocalDate.parse(word);
      if (!day.isBefore(FIRST) && !day.isAfter(LAST)) {
        return day;
      }
    } catch (DateTimeParseException wrong) {
      throw new TypeConversionException("\"" + word + "\" is no day such as 2026-03-02");
    }
    throw new TypeConversionException("\"" + word + "\" is no day from " + FIRST + " to " + LAST);
  }

  /** Reads a moment of the command line. */
  static OffsetDateTime moment(String word) {
    try {
      OffsetDateTime moment = OffsetDateTime.parse(word);
      LocalDate day = moment.toLocalDate();
      if (!day.isBefore(FIRST) && !day.isAfter(LAST)) {
        return moment;
      }
    } catch (DateTimeParseException wrong) {
      throw new TypeConversionException(
          "\"" + word + "\" is no time such as 2026-03-02T12:00:00+01:00");
    }
    throw new TypeConversionException("\"" + word + "\" is no time from " + FIRST + " to " + LAST);
  }
}
