package quadrille.diary.calendar;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import quadrille.document.FaultWords;

/** Reads the events of one calendar, and notes what had to be taken for something. */
final class EventReading {

  /** Ten a day for ten years; to read more takes seconds. */
  private static final int MOST_RULES = 40_000;

  private final Zone own;
  private final Zones zones;
  private final CalendarFaults faults;
  private final boolean cancelled;
  private final TreeSet<String> undefined = new TreeSet<>();
  private int floating;
  private int rules;

  /**
   * @param own the clock of days and of times without zone
   */
  EventReading(RawComponent calendar, Zone own, CalendarFaults faults) {
    this.own = own;
    this.zones = new Zones(calendar, faults);
    this.faults = faults;
    this.cancelled = calendar.text("METHOD").equalsIgnoreCase("CANCEL");
  }

  /** What had to be taken for something, for people. */
  List<String> notes() {
    List<String> notes = new ArrayList<>();
    if (floating > 0) {
      notes.add(
          (floating == 1 ? "1 event has" : floating + " events have")
              + " times without a time zone; taken as times in "
              + own.name()
              + ".");
    }
    if (!undefined.isEmpty()) {
      notes.add(
          "Not defined in the file, taken from the time zone database: "
              + FaultWords.all(List.copyOf(undefined))
              + ".");
    }
    return notes;
  }

  /** Reads an event; empty where a fault has been added. */
  Optional<CalendarEvent> event(RawComponent component) {
    Optional<RawComponent.Property> startProperty = component.first("DTSTART");
    if (startProperty.isEmpty()) {
      faults.add(component.line(), "VEVENT", "no DTSTART", "DTSTART:20260302T090000Z");
      return Optional.empty();
    }
    int before = floating;
    Optional<CalendarTime> start = time(startProperty.get());
    List<CalendarEvent.More> more = new ArrayList<>();
    component.all("RDATE").forEach(property -> more.addAll(more(property)));
    List<CalendarTime> fewer = new ArrayList<>();
    component.all("EXDATE").forEach(property -> fewer.addAll(times(property)));
    int sequence = sequence(component);
    if (start.isEmpty()) {
      return Optional.empty();
    }
    Optional<CalendarTimes.Length> length = length(component, start.get());
    List<RecurrenceRule> rules = rules(component, "RRULE", start.get());
    List<RecurrenceRule> without = rules(component, "EXRULE", start.get());
    Optional<RawComponent.Property> insteadProperty = component.first("RECURRENCE-ID");
    Optional<CalendarTime> instead = insteadProperty.flatMap(this::time);
    // Each event counts once, however many of its times have no zone.
    floating = Math.min(floating, before + 1);
    if (length.isEmpty() || insteadProperty.isPresent() && instead.isEmpty()) {
      return Optional.empty();
    }
    boolean onwards =
        insteadProperty
            .flatMap(property -> property.parameter("RANGE"))
            .filter(range -> range.equalsIgnoreCase("THISANDFUTURE"))
            .isPresent();
    boolean free =
        cancelled
            || component.text("STATUS").equalsIgnoreCase("CANCELLED")
            || component.text("TRANSP").equalsIgnoreCase("TRANSPARENT");
    return Optional.of(
        new CalendarEvent(
            component.text("UID"),
            start.get(),
            length.get(),
            rules,
            without,
            more,
            fewer,
            instead.orElse(null),
            onwards,
            !free,
            sequence));
  }

  private int sequence(RawComponent component) {
    Optional<RawComponent.Property> property = component.first("SEQUENCE");
    if (property.isEmpty()) {
      return 0;
    }
    if (property.get().value().strip().matches("[0-9]{1,9}")) {
      return Integer.parseInt(property.get().value().strip());
    }
    faults.add(property.get(), "a whole number, 0 or more");
    return 0;
  }

  private Optional<CalendarTimes.Length> length(RawComponent component, CalendarTime start) {
    Optional<RawComponent.Property> endProperty = component.first("DTEND");
    Optional<RawComponent.Property> lengthProperty = component.first("DURATION");
    if (endProperty.isPresent() && lengthProperty.isPresent()) {
      faults.add(
          lengthProperty.get().line(),
          "DURATION",
          "a DURATION beside a DTEND",
          "one of the two (RFC 5545 section 3.6.1)");
      return Optional.empty();
    }
    if (lengthProperty.isPresent()) {
      return length(lengthProperty.get(), start.allDay());
    }
    if (endProperty.isEmpty()) {
      return Optional.of(new CalendarTimes.Length(start.allDay() ? 1 : 0, Duration.ZERO));
    }
    Optional<CalendarTime> end = time(endProperty.get());
    if (end.isEmpty()) {
      return Optional.empty();
    }
    if (end.get().allDay() != start.allDay()) {
      faults.add(
          endProperty.get(), start.allDay() ? "a day, as DTSTART is" : "a time, as DTSTART is");
      return Optional.empty();
    }
    if (end.get().moment().isBefore(start.moment())) {
      faults.add(endProperty.get(), "a time after DTSTART");
      return Optional.empty();
    }
    return Optional.of(
        start.allDay()
            ? new CalendarTimes.Length(
                // An end on the day of the start is meant as the day itself.
                Math.max(
                    1,
                    end.get().wall().toLocalDate().toEpochDay()
                        - start.wall().toLocalDate().toEpochDay()),
                Duration.ZERO)
            : new CalendarTimes.Length(0, Duration.between(start.moment(), end.get().moment())));
  }

  private Optional<CalendarTimes.Length> length(RawComponent.Property property, boolean allDay) {
    Optional<CalendarTimes.Length> length = CalendarTimes.length(property.value());
    if (length.isEmpty()) {
      faults.add(property, "a length of time as PT1H30M or P1D, not negative");
    } else if (allDay && !length.get().exact().isZero()) {
      faults.add(property, "whole days, as DTSTART is a day");
      return Optional.empty();
    }
    return length;
  }

  private List<RecurrenceRule> rules(RawComponent component, String name, CalendarTime start) {
    List<RecurrenceRule> read = new ArrayList<>();
    for (RawComponent.Property property : component.all(name)) {
      if (++rules > MOST_RULES) {
        faults.add(property, "at most " + MOST_RULES + " rules in a calendar");
        return List.of();
      }
      RecurrenceRule.read(property, start.wall(), start.zone(), start.allDay(), faults)
          .ifPresent(read::add);
    }
    return read;
  }

  private Optional<CalendarTime> time(RawComponent.Property property) {
    return time(property, property.value());
  }

  private List<CalendarTime> times(RawComponent.Property property) {
    List<CalendarTime> times = new ArrayList<>();
    for (String one : property.value().split(",", -1)) {
      time(property, one).ifPresent(times::add);
    }
    return times;
  }

  private List<CalendarEvent.More> more(RawComponent.Property property) {
    List<CalendarEvent.More> more = new ArrayList<>();
    for (String one : property.value().split(",", -1)) {
      int slash = one.indexOf('/');
      if (slash < 0) {
        time(property, one).ifPresent(time -> more.add(new CalendarEvent.More(time, null)));
        continue;
      }
      Optional<CalendarTime> start = time(property, one.substring(0, slash));
      start.ifPresent(
          from ->
              until(property, from, one.substring(slash + 1))
                  .ifPresent(length -> more.add(new CalendarEvent.More(from, length))));
    }
    return more;
  }

  /** The second half of a period: an end or a length. */
  private Optional<CalendarTimes.Length> until(
      RawComponent.Property property, CalendarTime start, String text) {
    if (text.strip().startsWith("P")) {
      Optional<CalendarTimes.Length> length = CalendarTimes.length(text);
      if (length.isEmpty()) {
        faults.add(property, "a period as 20260302T090000Z/PT1H");
      }
      return length;
    }
    Optional<CalendarTime> end = time(property, text);
    if (end.isPresent() && end.get().moment().isBefore(start.moment())) {
      faults.add(property, "a period that ends after its start");
      return Optional.empty();
    }
    return end.map(
        to -> new CalendarTimes.Length(0, Duration.between(start.moment(), to.moment())));
  }

  /** A day or a time, by its own look: many a file forgets VALUE=DATE. */
  private Optional<CalendarTime> time(RawComponent.Property property, String value) {
    String text = value.strip().toUpperCase(Locale.ROOT);
    Optional<LocalDate> day = CalendarTimes.day(text);
    if (day.isPresent()) {
      return Optional.of(new CalendarTime(day.get().atStartOfDay(), own, true));
    }
    boolean utc = text.endsWith("Z");
    Optional<LocalDateTime> local =
        CalendarTimes.local(utc ? text.substring(0, text.length() - 1) : text);
    if (local.isEmpty()) {
      faults.add(
          property.line(),
          property.name(),
          FaultWords.quote(value),
          "a day, 20260302, or a time, 20260302T090000 or 20260302T090000Z");
      return Optional.empty();
    }
    if (utc) {
      return Optional.of(new CalendarTime(local.get(), Zone.UTC, false));
    }
    Optional<String> name = property.parameter("TZID").filter(id -> !id.isBlank());
    if (name.isEmpty()) {
      floating++;
      return Optional.of(new CalendarTime(local.get(), own, false));
    }
    Optional<Zone> zone = zones.zone(name.get());
    if (zone.isEmpty()) {
      if (!zones.defines(name.get())) {
        faults.add(
            property.line(),
            property.name(),
            "time zone " + FaultWords.quote(name.get()) + ", which the file does not define",
            "a VTIMEZONE in the file, or a name of the IANA time zone database");
      }
      return Optional.empty();
    }
    if (!zones.defines(name.get())) {
      undefined.add(name.get());
    }
    return Optional.of(new CalendarTime(local.get(), zone.get(), false));
  }

  /** The busy times of a free/busy component. */
  List<Interval> freeBusy(RawComponent component) {
    List<Interval> busy = new ArrayList<>();
    for (RawComponent.Property property : component.all("FREEBUSY")) {
      if (property.parameter("FBTYPE").filter(type -> type.equalsIgnoreCase("FREE")).isPresent()) {
        continue;
      }
      for (CalendarEvent.More one : more(property)) {
        CalendarTimes.Length length = one.length();
        if (length == null) {
          faults.add(property, "periods as 20260302T090000Z/PT1H");
          continue;
        }
        Instant start = one.start().moment();
        Instant end = one.start().after(length);
        if (start.isBefore(end)) {
          busy.add(new Interval(start, end));
        }
      }
    }
    return busy;
  }
}
