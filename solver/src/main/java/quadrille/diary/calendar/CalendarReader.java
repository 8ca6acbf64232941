package quadrille.diary.calendar;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;

/**
 * Reads which times the events of an iCalendar file (RFC 5545) take. Titles and everything else
 * that a calendar says of its owner's life are not kept. docs/calendars.md tells what becomes of
 * what.
 */
public final class CalendarReader {
  private final String source;
  private final byte[] bytes;
  private final Zone own;

  /** Of a sound calendar, which is taken apart once, however often it is asked. */
  private @Nullable Apart sound;

  /** What a sound calendar has answered: each look at a diary asks for the same few spans. */
  private final Map<Interval, Reading> answers = new HashMap<>();

  /** The events of a calendar with where they begin, its free/busy times, and the notes. */
  private record Apart(Map<EventGroup, Integer> groups, List<Interval> busy, List<String> notes) {}

  /**
   * A calendar; faults come to light when it is asked.
   *
   * @param source the file's name, for faults
   * @param bytes the file
   * @param zone the clock of whole days, and of times without a zone
   */
  public CalendarReader(String source, byte[] bytes, ZoneId zone) {
    this.source = source;
    this.bytes = bytes;
    this.own = new Zone(zone.getId(), zone.getRules());
  }

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
   * Reads a calendar that is asked once.
   *
   * @param source the file's name, for faults
   * @param bytes the file
   * @param zone the clock of whole days, and of times without a zone
   * @param within the span of time that is wanted
   * @throws InvalidDocumentException with every fault
   */
  public static Reading read(String source, byte[] bytes, ZoneId zone, Interval within)
      throws InvalidDocumentException {
    return new CalendarReader(source, bytes, zone).within(within, new Returns());
  }

  /**
   * What the calendar takes.
   *
   * @param within the span of time that is wanted
   * @param returns how far rules may be followed, in all calendars that are read for one answer
   * @throws InvalidDocumentException with every fault
   */
  public synchronized Reading within(Interval within, Returns returns)
      throws InvalidDocumentException {
    Reading before = answers.get(within);
    if (before != null) {
      return before;
    }
    CalendarFaults faults = new CalendarFaults(source, new Faults());
    Apart apart = sound == null ? apart(faults) : sound;
    List<Interval> occurrences = new ArrayList<>();
    apart.busy().stream().filter(span -> span.overlaps(within)).forEach(occurrences::add);
    String allowed = "a rule that returns less often, or begins later";
    for (Map.Entry<EventGroup, Integer> group : apart.groups().entrySet()) {
      int line = group.getValue();
      if (!group.getKey().countable(within)) {
        faults.add(line, "VEVENT", "a rule that returns more than a million times", allowed);
        continue;
      }
      try {
        occurrences.addAll(group.getKey().occurrences(within, returns));
      } catch (Returns.TooManyException noneLeft) {
        faults.add(line, "VEVENT", "more than can be followed of rules, all together", allowed);
        break;
      }
    }
    faults.faults().check();
    sound = apart;
    Reading answer = new Reading(occurrences.stream().sorted().toList(), apart.notes());
    answers.put(within, answer);
    return answer;
  }

  /**
   * What had to be taken for something, sentences for people.
   *
   * @throws InvalidDocumentException with every fault
   */
  public synchronized List<String> notes() throws InvalidDocumentException {
    if (sound != null) {
      return sound.notes();
    }
    CalendarFaults faults = new CalendarFaults(source, new Faults());
    Apart apart = apart(faults);
    faults.faults().check();
    return apart.notes();
  }

  private Apart apart(CalendarFaults faults) throws InvalidDocumentException {
    // In the order of the file.
    Map<EventGroup, Integer> lines = new LinkedHashMap<>();
    List<Interval> busy = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    int idle = 0;
    for (RawComponent calendar : RawCalendars.read(source, bytes)) {
      version(calendar, faults);
      EventReading reading = new EventReading(calendar, own, faults);
      Map<String, EventGroup> groups = new LinkedHashMap<>();
      for (RawComponent component : calendar.components()) {
        switch (component.name()) {
          case "VEVENT" -> {
            Optional<CalendarEvent> event = reading.event(component);
            if (event.isPresent()) {
              String uid = event.get().uid();
              EventGroup group =
                  uid.isEmpty()
                      ? new EventGroup()
                      : groups.computeIfAbsent(uid, fresh -> new EventGroup());
              group.add(event.get());
              lines.putIfAbsent(group, component.line());
            }
          }
          case "VFREEBUSY" -> busy.addAll(reading.freeBusy(component));
          case "VTODO", "VJOURNAL", "VAVAILABILITY" -> idle++;
          default -> {
            // VTIMEZONE has been read where it is named; others say nothing of time.
          }
        }
      }
      notes.addAll(reading.notes());
    }
    if (idle > 0) {
      notes.add(
          (idle == 1 ? "1 entry is" : idle + " entries are")
              + " no event (to-do, journal or availability) and take no time here.");
    }
    return new Apart(lines, busy, List.copyOf(notes));
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
