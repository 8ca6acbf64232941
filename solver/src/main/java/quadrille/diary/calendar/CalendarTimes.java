package quadrille.diary.calendar;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads dates, times and lengths of time as RFC 5545 sections 3.3.4 to 3.3.6 write them. */
final class CalendarTimes {

  private static final Pattern DAY = Pattern.compile("([0-9]{4})([0-9]{2})([0-9]{2})");
  private static final Pattern TIME = Pattern.compile("([0-9]{8})T([0-9]{2})([0-9]{2})([0-9]{2})");
  private static final Pattern LENGTH =
      Pattern.compile(
          "\\+?P(?:([0-9]{1,6})W|(?=[0-9T])(?:([0-9]{1,6})D)?"
              + "(?:T(?=[0-9])(?:([0-9]{1,9})H)?(?:([0-9]{1,9})M)?(?:([0-9]{1,9})S)?)?)");

  private CalendarTimes() {}

  /** {@code 20260302}. */
  static Optional<LocalDate> day(String text) {
    Matcher matcher = DAY.matcher(text.strip());
    if (!matcher.matches()) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          LocalDate.of(
              Integer.parseInt(matcher.group(1)),
              Integer.parseInt(matcher.group(2)),
              Integer.parseInt(matcher.group(3))));
    } catch (DateTimeException noSuchDay) {
      return Optional.empty();
    }
  }

  /** {@code 20260302T090000}; a leap second is taken for the second before it. */
  static Optional<LocalDateTime> local(String text) {
    Matcher matcher = TIME.matcher(text.strip());
    if (!matcher.matches()) {
      return Optional.empty();
    }
    int second = Integer.parseInt(matcher.group(4));
    try {
      LocalTime time =
          LocalTime.of(
              Integer.parseInt(matcher.group(2)),
              Integer.parseInt(matcher.group(3)),
              second == 60 ? 59 : second);
      return day(matcher.group(1)).map(day -> day.atTime(time));
    } catch (DateTimeException noSuchTime) {
      return Optional.empty();
    }
  }

  /**
   * A length of time: days by the calendar, the rest by the stopwatch.
   *
   * @param days of the calendar, 0 or more
   * @param exact beside the days
   */
  record Length(long days, Duration exact) {}

  /** {@code P1D}, {@code PT1H30M}, {@code P2W}; never negative. */
  static Optional<Length> length(String text) {
    Matcher matcher = LENGTH.matcher(text.strip());
    if (!matcher.matches()) {
      return Optional.empty();
    }
    long days = 7 * number(matcher.group(1)) + number(matcher.group(2));
    Duration exact =
        Duration.ofHours(number(matcher.group(3)))
            .plusMinutes(number(matcher.group(4)))
            .plusSeconds(number(matcher.group(5)));
    return Optional.of(new Length(days, exact));
  }

  @SuppressWarnings("NullAway") // a group that took no part is null
  private static long number(String group) {
    return group == null ? 0 : Long.parseLong(group);
  }
}
