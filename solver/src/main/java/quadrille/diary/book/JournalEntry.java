package quadrille.diary.book;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What one change did to a diary. All that it changed is told as it was and as it became, so that
 * the entries in their order explain every booking, and the last can be taken back.
 *
 * @param number from 1, rising; those of forgotten patients are missing
 * @param at when, in whole minutes
 * @param by who
 * @param did what
 * @param because why, where somebody said so
 * @param note a few words; null for none
 * @param undoes the number of the entry that this one takes back; 0 for none
 * @param bookings that were made, changed or taken away
 * @param courses that were asked for, changed or taken away
 * @param absences and closed days that were entered or taken away
 */
public record JournalEntry(
    int number,
    Instant at,
    String by,
    Deed did,
    @Nullable Why because,
    @Nullable String note,
    int undoes,
    List<BookingChange> bookings,
    List<CourseChange> courses,
    List<Absence> absences) {

  public JournalEntry {
    bookings = List.copyOf(bookings);
    courses = List.copyOf(courses);
    absences = List.copyOf(absences);
  }

  /**
   * A booking that was changed.
   *
   * @param because why this one, where the entry as a whole does not say it; else null
   * @param from as it was; null where there was none
   * @param to as it became; null where there is none
   */
  public record BookingChange(@Nullable Why because, @Nullable Booking from, @Nullable Booking to) {

    /** The booking's id, case and visit are the same before and after. */
    public Booking any() {
      return Objects.requireNonNull(to == null ? from : to);
    }
  }

  /**
   * A course that was changed.
   *
   * @param from as it was; null where there was none
   * @param to as it became; null where there is none
   */
  public record CourseChange(@Nullable CourseRequest from, @Nullable CourseRequest to) {

    public String caseName() {
      return Objects.requireNonNull(to == null ? from : to).caseName();
    }
  }

  /**
   * An absence that was entered.
   *
   * @param clinician id; null where the practice is closed
   * @param taken whether it was taken away again
   */
  public record Absence(@Nullable String clinician, TimeOff off, boolean taken) {}

  /** The cases that it tells of. */
  public List<String> cases() {
    return Stream.concat(
            bookings.stream().map(one -> one.any().caseName()),
            courses.stream().map(CourseChange::caseName))
        .distinct()
        .toList();
  }

  /** The same without a case; a note that may tell of it, or names it, goes with it. */
  JournalEntry without(String caseName) {
    return !cases().contains(caseName) && (note == null || !names(note, caseName))
        ? this
        : new JournalEntry(
            number,
            at,
            by,
            did,
            because,
            null,
            undoes,
            bookings.stream().filter(one -> !one.any().caseName().equals(caseName)).toList(),
            courses.stream().filter(one -> !one.caseName().equals(caseName)).toList(),
            absences);
  }

  /** Whether a note names a case: it stands there, and no letter or digit is beside it. */
  static boolean names(String note, String caseName) {
    for (int at = note.indexOf(caseName); at >= 0; at = note.indexOf(caseName, at + 1)) {
      int end = at + caseName.length();
      if ((at == 0 || !Character.isLetterOrDigit(note.codePointBefore(at)))
          && (end == note.length() || !Character.isLetterOrDigit(note.codePointAt(end)))) {
        return true;
      }
    }
    return false;
  }

  boolean empty() {
    return bookings.isEmpty() && courses.isEmpty() && absences.isEmpty();
  }
}
