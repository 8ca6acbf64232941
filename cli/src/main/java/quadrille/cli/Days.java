package quadrille.cli;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import picocli.CommandLine.TypeConversionException;
import quadrille.diary.book.WallTime;

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
    if (first.isAfter(WallTime.LAST)) {
      throw StopException.usage(
          "--from: is " + first + "; days up to " + WallTime.LAST + " are allowed.");
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

  /**
   * A moment by the practice's clock, or with an offset; in whole minutes and of years that a diary
   * can hold.
   *
   * @param option for which it stands
   */
  static Instant wall(String option, String text, ZoneId zone) throws StopException {
    Instant moment = anyWall(option, text, zone);
    if (moment.getEpochSecond() % 60 != 0 || moment.getNano() != 0) {
      throw StopException.usage(option + ": is \"" + text + "\"; whole minutes are allowed.");
    }
    if (!WallTime.holds(moment, zone)) {
      throw StopException.usage(
          option
              + ": is \""
              + text
              + "\"; "
              + WallTime.FIRST
              + " to "
              + WallTime.LAST
              + " are allowed.");
    }
    return moment;
  }

  private static Instant anyWall(String option, String text, ZoneId zone) throws StopException {
    try {
      WallTime time = WallTime.of(LocalDateTime.parse(text), zone);
      if (time instanceof WallTime.Once once) {
        return once.moment();
      }
      throw StopException.usage(
          option
              + ": is \""
              + text
              + "\", which the clock shows "
              + (time instanceof WallTime.Twice twice
                  ? "twice; say which: " + twice.earlier() + " or " + twice.later() + "."
                  : "never, since it is put forward then."));
    } catch (DateTimeParseException withOffset) {
      try {
        return OffsetDateTime.parse(text).toInstant();
      } catch (DateTimeParseException wrong) {
        throw StopException.usage(
            option + ": is \"" + text + "\"; a time such as 2026-03-02T09:30 is allowed.");
      }
    }
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
