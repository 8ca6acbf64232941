package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.Node;

/** Reads hours of the week, hours of a day, and days off. */
final class HoursReading {

  private static final List<DayOfWeek> DAYS = List.of(DayOfWeek.values());

  private HoursReading() {}

  static String word(DayOfWeek day) {
    return day.name().toLowerCase(Locale.ROOT);
  }

  /** From and to, both on one day. */
  private record Span(LocalTime from, LocalTime to) {

    boolean contains(Span other) {
      return !other.from.isBefore(from)
          && (to.equals(LocalTime.MIDNIGHT)
              || !other.to.isAfter(to) && !other.to.equals(LocalTime.MIDNIGHT));
    }
  }

  static WeeklyHours weekly(Node node) {
    Fields fields = node.object("days", "from", "to", "breaks", "first", "last");
    Node daysNode = fields.required("days");
    List<DayOfWeek> days = daysNode.words(DAYS, HoursReading::word);
    if (days.isEmpty() && daysNode.isArray()) {
      daysNode.fault("at least one day");
    }
    Span hours = span(fields);
    List<WeeklyHours.Break> breaks = new ArrayList<>();
    for (Node item : fields.optional("breaks").map(Node::items).orElse(List.of())) {
      Fields pause = item.object("from", "to");
      Span span = span(pause);
      if (pause.has("from") && pause.has("to") && !hours.contains(span)) {
        item.fault(
            "a break from " + span.from() + " to " + span.to(),
            "a break within the hours, " + hours.from() + " to " + hours.to());
      }
      breaks.add(new WeeklyHours.Break(span.from(), span.to()));
    }
    @Nullable LocalDate first = fields.optional("first").map(Node::date).orElse(null);
    Optional<Node> lastNode = fields.optional("last");
    @Nullable LocalDate last = lastNode.map(Node::date).orElse(null);
    if (first != null && last != null && last.isBefore(first) && !last.equals(LocalDate.EPOCH)) {
      lastNode.ifPresent(at -> at.fault("the first day, " + first + ", or a later one"));
      last = first;
    }
    return new WeeklyHours(days, hours.from(), hours.to(), breaks, first, last);
  }

  static ExtraHours extra(Node node) {
    Fields fields = node.object("date", "from", "to");
    LocalDate date = fields.required("date").date();
    Span span = span(fields);
    return new ExtraHours(date, span.from(), span.to());
  }

  static TimeOff off(Node node) {
    Fields fields = node.object("first", "last", "from", "to", "because");
    LocalDate first = fields.required("first").date();
    Optional<Node> lastNode = fields.optional("last");
    LocalDate last = lastNode.map(Node::date).orElse(first);
    if (last.isBefore(first) && !last.equals(LocalDate.EPOCH)) {
      lastNode.ifPresent(at -> at.fault("the first day, " + first + ", or a later one"));
      last = first;
    }
    if (last.isAfter(first.plusDays(DiaryReader.MOST_DAYS)) && !first.equals(LocalDate.EPOCH)) {
      lastNode.ifPresent(at -> at.fault("at most " + DiaryReader.MOST_DAYS + " days off at once"));
      last = first;
    }
    @Nullable String because = fields.optional("because").map(Node::text).orElse(null);
    if (!fields.has("from") && !fields.has("to")) {
      return new TimeOff(first, last, null, null, because);
    }
    Span span = span(fields);
    return new TimeOff(first, last, span.from(), span.to(), because);
  }

  /** {@code 00:00} at the end is midnight. */
  private static Span span(Fields fields) {
    LocalTime from = fields.required("from").time();
    Node end = fields.required("to");
    LocalTime to = end.time();
    if (!to.equals(LocalTime.MIDNIGHT) && !to.isAfter(from)) {
      end.fault("a time after " + from + " on the same day; 00:00 is midnight at its end");
      to = LocalTime.MIDNIGHT;
    }
    return new Span(from, to);
  }
}
