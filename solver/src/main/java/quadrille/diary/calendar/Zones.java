package quadrille.diary.calendar;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The zones of a calendar. A name that the time zone database knows, also at the end of a longer
 * one such as {@code /example.org/20260101/Europe/Berlin}, means the database's zone, since
 * exported definitions are often old or cut short; another name means the file's own VTIMEZONE.
 */
final class Zones {

  /** Definitions without end are followed up to this year. */
  private static final LocalDateTime FAR = LocalDateTime.of(2200, 1, 1, 0, 0);

  private static final Pattern OFFSET = Pattern.compile("([+-])([0-9]{2})([0-9]{2})([0-9]{2})?");

  private final Map<String, RawComponent> definitions = new LinkedHashMap<>();
  private final Map<String, Optional<Zone>> known = new LinkedHashMap<>();
  private final Returns returns = new Returns();
  private final CalendarFaults faults;

  Zones(RawComponent calendar, CalendarFaults faults) {
    this.faults = faults;
    for (RawComponent component : calendar.components()) {
      if (component.name().equals("VTIMEZONE")) {
        definitions.putIfAbsent(component.text("TZID"), component);
      }
    }
  }

  /**
   * The zone of a name; empty where neither the database nor the file has it, or it is at fault.
   */
  Optional<Zone> zone(String name) {
    Optional<Zone> found = known.get(name);
    if (found == null) {
      found = look(name);
      known.put(name, found);
    }
    return found;
  }

  /** Whether the file itself defines a zone. */
  boolean defines(String name) {
    return definitions.containsKey(name);
  }

  private Optional<Zone> look(String name) {
    String[] parts = name.split("/", -1);
    for (int from = 0; from < parts.length; from++) {
      String end = String.join("/", List.of(parts).subList(from, parts.length));
      if (ZoneId.getAvailableZoneIds().contains(end)) {
        return Optional.of(new Zone(name, ZoneId.of(end).getRules()));
      }
    }
    RawComponent definition = definitions.get(name);
    return definition == null
        ? Optional.empty()
        : rules(definition).map(rules -> new Zone(name, rules));
  }

  /** One change that a definition tells of. */
  private record Onset(ZoneOffset from, ZoneOffset to) {}

  private Optional<ZoneRules> rules(RawComponent definition) {
    TreeMap<Instant, Onset> onsets = new TreeMap<>();
    boolean sound = true;
    for (RawComponent observance : definition.components()) {
      sound &= onsets(observance, onsets);
    }
    if (!sound) {
      return Optional.empty();
    }
    if (onsets.isEmpty()) {
      faults.add(
          definition.line(),
          "VTIMEZONE",
          "no STANDARD or DAYLIGHT",
          "at least one, or a name of the IANA time zone database");
      return Optional.empty();
    }
    ZoneOffset first = onsets.firstEntry().getValue().from();
    ZoneOffset now = first;
    List<ZoneOffsetTransition> changes = new ArrayList<>();
    for (Map.Entry<Instant, Onset> onset : onsets.entrySet()) {
      ZoneOffset next = onset.getValue().to();
      if (!next.equals(now)) {
        LocalDateTime before = LocalDateTime.ofInstant(onset.getKey(), now);
        changes.add(ZoneOffsetTransition.of(before, now, next));
        now = next;
      }
    }
    return Optional.of(ZoneRules.of(first, first, List.of(), changes, List.of()));
  }

  private boolean onsets(RawComponent observance, TreeMap<Instant, Onset> onsets) {
    Optional<ZoneOffset> from = offset(observance, "TZOFFSETFROM");
    Optional<ZoneOffset> to = offset(observance, "TZOFFSETTO");
    Optional<RawComponent.Property> startProperty = observance.first("DTSTART");
    if (startProperty.isEmpty()) {
      faults.add(observance.line(), observance.name(), "no DTSTART", "DTSTART:19701025T030000");
      return false;
    }
    Optional<LocalDateTime> start = CalendarTimes.local(startProperty.get().value());
    if (start.isEmpty()) {
      faults.add(startProperty.get(), "a local time as 19701025T030000");
    }
    if (from.isEmpty() || to.isEmpty() || start.isEmpty()) {
      return false;
    }
    Zone before = new Zone("", from.get().getRules());
    List<LocalDateTime> times = new ArrayList<>(List.of(start.get()));
    for (RawComponent.Property rule : observance.all("RRULE")) {
      Optional<RecurrenceRule> read = RecurrenceRule.read(rule, start.get(), before, false, faults);
      if (read.isEmpty()) {
        return false;
      }
      try {
        times.addAll(read.get().times(start.get(), start.get(), FAR, returns));
      } catch (Returns.TooManyException tooOften) {
        faults.add(rule, "a rule that returns less often");
        return false;
      }
    }
    for (RawComponent.Property dates : observance.all("RDATE")) {
      for (String one : dates.value().split(",", -1)) {
        Optional<LocalDateTime> time = CalendarTimes.local(one);
        if (time.isEmpty()) {
          faults.add(dates, "local times as 19701025T030000");
          return false;
        }
        times.add(time.get());
      }
    }
    times.forEach(time -> onsets.put(time.toInstant(from.get()), new Onset(from.get(), to.get())));
    return true;
  }

  private Optional<ZoneOffset> offset(RawComponent observance, String name) {
    Optional<RawComponent.Property> property = observance.first(name);
    if (property.isEmpty()) {
      faults.add(observance.line(), observance.name(), "no " + name, name + ":+0100");
      return Optional.empty();
    }
    Matcher matcher = OFFSET.matcher(property.get().value().strip());
    if (matcher.matches()) {
      int seconds = matcher.group(4) == null ? 0 : Integer.parseInt(matcher.group(4));
      int total =
          3600 * Integer.parseInt(matcher.group(2))
              + 60 * Integer.parseInt(matcher.group(3))
              + seconds;
      if (total <= ZoneOffset.MAX.getTotalSeconds()) {
        return Optional.of(
            ZoneOffset.ofTotalSeconds(matcher.group(1).equals("-") ? -total : total));
      }
    }
    faults.add(property.get(), "an offset as +0100, at most 18 hours");
    return Optional.empty();
  }
}
