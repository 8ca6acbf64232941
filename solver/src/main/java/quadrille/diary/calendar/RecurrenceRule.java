package quadrille.diary.calendar;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import net.fortuna.ical4j.model.Recur;
import org.jspecify.annotations.Nullable;

/**
 * A recurrence rule (RFC 5545 section 3.3.10), expanded by the library on the clock of its event's
 * zone.
 */
final class RecurrenceRule {

  /** Nobody's appointments return so often; to go through them would take minutes. */
  private static final long MOST_ROUNDS = 1_000_000;

  private static final DateTimeFormatter LOCAL =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss", Locale.ROOT);

  private final Recur<LocalDateTime> recur;
  private final ChronoUnit step;

  /** The library takes the limit as a time of day's text; kept to cut once more. */
  private final @Nullable LocalDateTime until;

  private RecurrenceRule(
      Recur<LocalDateTime> recur, ChronoUnit step, @Nullable LocalDateTime until) {
    this.recur = recur;
    this.step = step;
    this.until = until;
  }

  /**
   * Reads a rule.
   *
   * @param start of the event, by its clock
   * @param zone the event's clock, by which an UNTIL in UTC is told
   * @param allDay whether the event has days and no times
   * @return empty where a fault has been added
   */
  static Optional<RecurrenceRule> read(
      RawComponent.Property property,
      LocalDateTime start,
      Zone zone,
      boolean allDay,
      CalendarFaults faults) {
    List<String> parts = new ArrayList<>();
    @Nullable LocalDateTime until = null;
    for (String part : property.value().strip().toUpperCase(Locale.ROOT).split(";", -1)) {
      if (part.isEmpty() || part.startsWith("X-")) {
        continue;
      }
      if (part.startsWith("UNTIL=")) {
        Optional<LocalDateTime> end = until(part.substring("UNTIL=".length()), zone, allDay);
        if (end.isEmpty()) {
          faults.add(property, "UNTIL as a day, 20261231, or a moment, 20261231T120000Z");
          return Optional.empty();
        }
        until = end.get();
        parts.add("UNTIL=" + until.format(LOCAL));
      } else if (part.matches("(COUNT|INTERVAL)=0*|INTERVAL=0*[0-9]{5,}")) {
        boolean count = part.startsWith("COUNT");
        faults.add(property, count ? "COUNT of 1 or more" : "INTERVAL of 1 to 9999");
        return Optional.empty();
      } else if (!(allDay && part.matches("BY(HOUR|MINUTE|SECOND)=.*"))) {
        // Days have no hours: RFC 5545 wants those parts ignored.
        parts.add(part);
      }
    }
    try {
      Recur<LocalDateTime> recur = new Recur<>(String.join(";", parts));
      RecurrenceRule rule =
          new RecurrenceRule(
              recur,
              switch (recur.getFrequency()) {
                case SECONDLY -> ChronoUnit.SECONDS;
                case MINUTELY -> ChronoUnit.MINUTES;
                case HOURLY -> ChronoUnit.HOURS;
                case DAILY -> ChronoUnit.DAYS;
                case WEEKLY -> ChronoUnit.WEEKS;
                case MONTHLY -> ChronoUnit.MONTHS;
                case YEARLY -> ChronoUnit.YEARS;
              },
              until);
      if (until != null && !rule.countable(start, until)) {
        faults.add(property, "a rule that returns less often");
        return Optional.empty();
      }
      return Optional.of(rule);
    } catch (IllegalArgumentException wrong) {
      faults.add(property, "a recurrence rule as FREQ=WEEKLY;BYDAY=MO (RFC 5545 section 3.3.10)");
      return Optional.empty();
    }
  }

  private static Optional<LocalDateTime> until(String text, Zone zone, boolean allDay) {
    Optional<LocalDate> day = CalendarTimes.day(text);
    if (day.isPresent()) {
      return Optional.of(day.get().atTime(allDay ? LocalTime.MIN : LocalTime.of(23, 59, 59)));
    }
    if (text.endsWith("Z")) {
      return CalendarTimes.local(text.substring(0, text.length() - 1))
          .map(time -> zone.wall(Zone.UTC.moment(time)));
    }
    return CalendarTimes.local(text);
  }

  /** Whether the rule can be followed up to a time in reasonable time. */
  boolean countable(LocalDateTime start, LocalDateTime end) {
    return rounds(start, end) <= MOST_ROUNDS;
  }

  private long rounds(LocalDateTime start, LocalDateTime end) {
    return end.isAfter(start) ? step.between(start, end) / Math.max(1, recur.getInterval()) : 0;
  }

  /** Of one round, the most times. */
  private long times() {
    long days =
        recur.getDayList().isEmpty()
                && recur.getMonthDayList().isEmpty()
                && recur.getYearDayList().isEmpty()
                && recur.getWeekNoList().isEmpty()
            ? Math.max(1, recur.getMonthList().size())
            : Math.max(1, step.getDuration().toDays());
    return days
        * Math.max(1, recur.getHourList().size())
        * Math.max(1, recur.getMinuteList().size())
        * Math.max(1, recur.getSecondList().size());
  }

  /**
   * The times that the rule gives.
   *
   * @param start of the event
   * @param from first time wanted
   * @param to last time wanted
   * @param returns what they are taken from
   */
  List<LocalDateTime> times(
      LocalDateTime start, LocalDateTime from, LocalDateTime to, Returns returns)
      throws Returns.TooManyException {
    LocalDateTime end = until != null && until.isBefore(to) ? until : to;
    if (end.isBefore(from)) {
      return List.of();
    }
    if (recur.getCount() > 0) {
      // All of them from the start have to be found.
      returns.pass(times() * Math.min(recur.getCount(), 1 + rounds(start, end)));
    } else {
      returns.pass(rounds(start, end));
      returns.pass(times() * (1 + rounds(start.isBefore(from) ? from : start, end)));
    }
    List<LocalDateTime> times =
        recur.getDates(start, from, end).stream()
            .filter(time -> !time.isBefore(from) && !time.isAfter(end))
            .toList();
    returns.find(times.size());
    return times;
  }
}
