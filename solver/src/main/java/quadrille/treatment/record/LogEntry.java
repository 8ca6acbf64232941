package quadrille.treatment.record;

import java.time.OffsetDateTime;

/**
 * One line of a course's log.
 *
 * @param number 1 for the first; each next one is one more
 * @param at when it was written, as the caller's clock has it; whole seconds
 * @param event what it says
 */
public record LogEntry(int number, OffsetDateTime at, Event event) {

  public LogEntry {
    if (number < 1) {
      throw new IllegalArgumentException("The entry's number (" + number + ") must be 1 or more.");
    }
    at = at.withNano(0);
  }
}
