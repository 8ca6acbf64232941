package quadrille.diary.calendar;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;

/**
 * Reads which times the events of an iCalendar file (RFC 5545) take. Titles and everything else
 * that a calendar says of its owner's life are not kept. docs/calendars.md tells what becomes of
 * what.
 */
public final class CalendarReader {

  private CalendarReader() {}

  /**
   * What a calendar takes.
   *
   * @param occurrences of every event that takes time within the span asked for, by start; they may
   *     overlap, and reach beyond the span
   * @param notes what had to be taken for something, sentences for people
   */
  public record Reading(List<Interval> occurrences, List<String> notes) {

    public Reading {
      occurrences = List.copyOf(occurrences);
      notes = List.copyOf(notes);
    }

    /** All moments taken. */
    public List<Interval> busy() {
      return Intervals.union(occurrences);
    }
  }

  /**
   * Reads a calendar.
   *
   * @param source the file's name, for faults
   * @param bytes the file
   * @param zone the clock of whole days, and of times without a zone
   * @param within the span of time that is wanted
   * @throws InvalidDocumentException with every fault
   */
  public static Reading read(String source, byte[] bytes, ZoneId zone, Interval within)
      throws InvalidDocumentException {
    List<RawComponent> calendars = RawCalendars.read(source, bytes);
    CalendarFaults faults = new CalendarFaults(source, new Faults());
    Zone own = new Zone(zone.getId(), zone.getRules());
    List<Interval> occurrences = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    int idle = 0;
    for (RawComponent calendar : calendars) {
      version(calendar, faults);
      EventReading reading = new EventReading(calendar, own, faults);
      Map<String, EventGroup> groups = new LinkedHashMap<>();
      Map<EventGroup, RawComponent> firsts = new LinkedHashMap<>();
      int nameless = 0;
      for (RawComponent component : calendar.components()) {
        switch (component.name()) {
          case "VEVENT" -> {
            Optional<CalendarEvent> event = reading.event(component);
            if (event.isPresent()) {
              String uid = event.get().uid();
              String key = uid.isEmpty() ? "\n" + nameless++ : uid;
              EventGroup group = groups.computeIfAbsent(key, fresh -> new EventGroup());
              group.add(event.get());
              firsts.putIfAbsent(group, component);
            }
          }
          case "VFREEBUSY" ->
              reading.freeBusy(component).stream()
                  .filter(span -> span.overlaps(within))
                  .forEach(occurrences::add);
          case "VTODO", "VJOURNAL", "VAVAILABILITY" -> idle++;
          default -> {
            // VTIMEZONE has been read where it is named; others say nothing of time.
          }
        }
      }
      for (EventGroup group : groups.values()) {
        if (group.countable(within)) {
          occurrences.addAll(group.occurrences(within));
        } else {
          RawComponent first = firsts.get(group);
          faults.add(
              first == null ? calendar.line() : first.line(),
              "VEVENT",
              "a rule that returns more than a million times",
              "a rule that returns less often, or begins later");
        }
      }
      notes.addAll(reading.notes());
    }
    faults.faults().check();
    if (idle > 0) {
      notes.add(
          (idle == 1 ? "1 entry is" : idle + " entries are")
              + " no event (to-do, journal or availability) and take no time here.");
    }
    return new Reading(occurrences.stream().sorted().toList(), notes);
  }

  private static void version(RawComponent calendar, CalendarFaults faults) {
    calendar
        .first("VERSION")
        .filter(property -> !property.value().strip().equals("2.0"))
        .ifPresent(property -> faults.add(property, "2.0; export the calendar as iCalendar"));
    calendar
        .first("CALSCALE")
        .filter(property -> !property.valueIs("GREGORIAN"))
        .ifPresent(property -> faults.add(property, "GREGORIAN"));
  }
}
