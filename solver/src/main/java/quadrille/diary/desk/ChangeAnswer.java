package quadrille.diary.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.file.DiaryVerdict;
import quadrille.diary.file.LoadedDiary;

/** What {@link ChangeDesk#ask} answers. */
public sealed interface ChangeAnswer {

  /**
   * The diary as it would be; nothing that stops it was found.
   *
   * @param read the diary as it was read
   * @param after with its entry in the journal
   * @param verdict what the audit finds in it
   * @param settled what ended then or before is history
   */
  record Changed(
      LoadedDiary read, DeskChange change, Diary after, DiaryVerdict verdict, Instant settled)
      implements ChangeAnswer {

    /** What the journal says of it. */
    public JournalEntry entry() {
      return after.journal().get(after.journal().size() - 1);
    }

    /** Bookings that are new or other than they were. */
    public List<Booking> changed() {
      List<Booking> changed = new ArrayList<>(after.bookings());
      changed.removeAll(new LinkedHashSet<>(read.diary().bookings()));
      return changed;
    }
  }

  /**
   * The audit finds what the change would make, or make worse.
   *
   * @param made at least one
   */
  record Stopped(List<DiaryFinding> made) implements ChangeAnswer {
    public Stopped {
      made = List.copyOf(made);
    }
  }

  /** The diary has no such booking. */
  record NoSuchBooking(String booking) implements ChangeAnswer {}

  /** The booking is neither held nor promised. */
  record NotComing(String booking, BookingStatus status) implements ChangeAnswer {}

  /** The diary has no such course. */
  record NoSuchCase(String caseName, List<String> known) implements ChangeAnswer {
    public NoSuchCase {
      known = List.copyOf(known);
    }
  }

  /** The diary has no such clinician. */
  record NoSuchClinician(String clinician, List<String> known) implements ChangeAnswer {
    public NoSuchClinician {
      known = List.copyOf(known);
    }
  }

  /** The diary has no such chair. */
  record NoSuchChair(String chair, List<String> known) implements ChangeAnswer {
    public NoSuchChair {
      known = List.copyOf(known);
    }
  }

  /** The visit has not begun, so that it can neither be done nor missed. */
  record NotBegun(Booking booking) implements ChangeAnswer {}

  /** The time is past, and nobody said that this is meant. */
  record Past(Instant moment) implements ChangeAnswer {}

  /**
   * A hold ends after now, and at the latest when its visit begins; nobody could say it ran out.
   */
  record NoHold(Booking booking) implements ChangeAnswer {}

  /**
   * The patient is not forgotten while visits of theirs are to come: they could not be brought
   * back.
   *
   * @param bookings at least one
   */
  record StillComing(String caseName, List<Booking> bookings) implements ChangeAnswer {
    public StillComing {
      bookings = List.copyOf(bookings);
    }
  }

  /** The course's plan is provisional: its visits are held, never promised. */
  record Provisional(Booking booking) implements ChangeAnswer {}

  /** The reason "other" needs a note. */
  record NeedsNote() implements ChangeAnswer {}

  /** Everything is so already. */
  record NothingChanges() implements ChangeAnswer {}

  /** The journal has nothing that can be taken back. */
  record NothingToUndo() implements ChangeAnswer {}

  /** What the last change left has been changed since by other means. */
  record ChangedSince(JournalEntry entry) implements ChangeAnswer {}

  /** The last change is not taken back, since a hold that would come back has run out meanwhile. */
  record HoldOver(JournalEntry entry) implements ChangeAnswer {}
}
