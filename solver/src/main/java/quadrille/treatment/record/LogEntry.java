package quadrille.treatment.record;

import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;

/**
 * One line of a course's log.
 *
 * @param number 1 for the first; each next one is one more
 * @param at when it was written, as the caller's clock has it; whole seconds
 * @param event what it says
 * @param numbering in which the entry names teeth, which is the chart's; null where it does not say
 *     so: logs of the first format have ISO 3950 codes whatever the chart
 */
public record LogEntry(int number, OffsetDateTime at, Event event, @Nullable Numbering numbering) {

  /** An entry that does not say how it names teeth. */
  public LogEntry(int number, OffsetDateTime at, Event event) {
    this(number, at, event, null);
  }

  public LogEntry {
    if (number < 1) {
      throw new IllegalArgumentException("The entry's number (" + number + ") must be 1 or more.");
    }
    at = at.withNano(0);
  }
}
