package quadrille.diary.calendar;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/** The components of one UID: an event, and what takes the place of single occurrences. */
final class EventGroup {

  /** By the occurrence that each takes the place of; empty of the event itself. */
  private final Map<Optional<Instant>, CalendarEvent> events = new LinkedHashMap<>();

  /** Adds a component; of two that say the same thing the higher sequence counts, or the later. */
  void add(CalendarEvent event) {
    events.merge(
        Optional.ofNullable(event.instead()).map(CalendarTime::moment),
        event,
        (old, fresh) -> fresh.sequence() >= old.sequence() ? fresh : old);
  }

  /** An occurrence before it is placed. */
  private record Occurrence(CalendarEvent event, CalendarTime start, CalendarTimes.Length length) {
    LocalDate day() {
      return start.wall().toLocalDate();
    }
  }

  /** Whether every rule can be followed up to the end of a span. */
  boolean countable(Interval within) {
    return events.values().stream()
        .allMatch(
            event ->
                Stream.concat(event.rules().stream(), event.without().stream())
                    .allMatch(
                        rule ->
                            rule.countable(
                                event.start().wall(),
                                event.start().zone().wall(within.end()).plusDays(2))));
  }

  /**
   * The occurrences that take time within a span, by start; they may reach beyond it.
   *
   * @param returns what they are taken from
   */
  List<Interval> occurrences(Interval within, Returns returns) throws Returns.TooManyException {
    TreeMap<Instant, Occurrence> all = new TreeMap<>();
    CalendarEvent itself = events.get(Optional.<Instant>empty());
    if (itself != null) {
      recurring(itself, within, all, returns);
    }
    List<CalendarEvent> changes =
        events.values().stream()
            .filter(event -> event.instead() != null)
            .sorted((a, b) -> original(a).compareTo(original(b)))
            .toList();
    for (CalendarEvent change : changes) {
      if (change.onwards()) {
        Map<Instant, Occurrence> onwards = all.tailMap(original(change), true);
        returns.pass(onwards.size());
        for (Map.Entry<Instant, Occurrence> later : onwards.entrySet()) {
          // Distances are those of the original times, whatever earlier changes made of them.
          LocalDateTime wall = later.getValue().start().zone().wall(later.getKey());
          CalendarTime moved = change.start().at(shifted(later.getValue(), change, wall));
          later.setValue(new Occurrence(change, moved, change.length()));
        }
      }
    }
    List<Occurrence> placed = new ArrayList<>();
    for (CalendarEvent change : changes) {
      CalendarTime instead = change.instead();
      if (instead != null && instead.allDay() && !all.containsKey(original(change))) {
        // A day where a time was meant: the occurrence of that day.
        returns.pass(all.size());
        all.values().removeIf(one -> one.day().equals(instead.wall().toLocalDate()));
      }
      all.remove(original(change));
      placed.add(new Occurrence(change, change.start(), change.length()));
    }
    placed.addAll(all.values());
    List<Interval> spans = new ArrayList<>();
    for (Occurrence one : placed) {
      Instant start = one.start().moment();
      Instant end = one.start().after(one.length());
      if (one.event().takesTime()
          && start.isBefore(end)
          && new Interval(start, end).overlaps(within)) {
        spans.add(new Interval(start, end));
      }
    }
    return spans.stream().sorted().toList();
  }

  /** The same distance from the change's own start as from the occurrence that it replaces. */
  private static LocalDateTime shifted(
      Occurrence occurrence, CalendarEvent change, LocalDateTime wall) {
    CalendarTime instead = change.instead();
    if (instead == null) {
      return wall;
    }
    LocalDateTime first = occurrence.start().zone().wall(instead.moment());
    return change.start().wall().plus(Duration.between(first, wall));
  }

  private static Instant original(CalendarEvent change) {
    CalendarTime instead = change.instead();
    return instead == null ? change.start().moment() : instead.moment();
  }

  private void recurring(
      CalendarEvent event, Interval within, Map<Instant, Occurrence> all, Returns returns)
      throws Returns.TooManyException {
    long spare = event.mostDays();
    for (CalendarEvent change : events.values()) {
      spare = Math.max(spare, change.shift().abs().toDays() + change.mostDays());
    }
    CalendarTime start = event.start();
    LocalDateTime from = start.zone().wall(within.start()).minusDays(spare);
    LocalDateTime to = start.zone().wall(within.end()).plusDays(spare);
    Set<LocalDateTime> times = new LinkedHashSet<>(List.of(start.wall()));
    for (RecurrenceRule rule : event.rules()) {
      times.addAll(rule.times(start.wall(), from, to, returns));
    }
    for (RecurrenceRule rule : event.without()) {
      rule.times(start.wall(), from, to, returns).forEach(times::remove);
    }
    for (LocalDateTime time : times) {
      all.put(start.at(time).moment(), new Occurrence(event, start.at(time), event.length()));
    }
    for (CalendarEvent.More more : event.more()) {
      CalendarTimes.Length own = more.length();
      Instant moment = more.start().moment();
      // By whatever clock, and a day more to be sure.
      LocalDateTime wall = start.zone().wall(moment);
      if (!wall.isBefore(from.minusDays(1)) && !wall.isAfter(to.plusDays(1))) {
        all.put(moment, new Occurrence(event, more.start(), own == null ? event.length() : own));
      }
    }
    Set<LocalDate> days = new HashSet<>();
    for (CalendarTime left : event.fewer()) {
      if (left.allDay() && !start.allDay()) {
        days.add(left.wall().toLocalDate());
      } else {
        all.remove(left.moment());
      }
    }
    if (!days.isEmpty()) {
      all.values().removeIf(one -> days.contains(one.day()));
    }
  }
}
