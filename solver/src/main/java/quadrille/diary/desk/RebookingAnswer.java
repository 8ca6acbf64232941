package quadrille.diary.desk;

import java.util.ArrayList;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.file.LoadedDiary;

/** What {@link RebookingDesk#rebook} answers. */
public sealed interface RebookingAnswer {

  /**
   * A new diary that has passed the audit.
   *
   * @param read the diary as it was read
   */
  record Rebooked(LoadedDiary read, Rebooking rebooking) implements RebookingAnswer {

    /** Bookings that are new or other than they were. */
    public List<Booking> changed() {
      List<Booking> changed = new ArrayList<>(rebooking.diary().bookings());
      changed.removeAll(read.diary().bookings());
      return changed;
    }
  }

  /**
   * Changes that the diary cannot have seen.
   *
   * @param faults at least one
   */
  record Unworkable(List<Fault> faults) implements RebookingAnswer {
    public Unworkable {
      faults = List.copyOf(faults);
    }
  }

  /** What is wrong with a change. */
  sealed interface Fault {}

  /**
   * No such booking stands in the diary.
   *
   * @param change that names it
   * @param booking id
   */
  record NotStanding(DiaryChange change, String booking) implements Fault {}

  /** The diary has no such clinician. */
  record NoSuchClinician(DiaryChange.Away change) implements Fault {}

  /**
   * Two changes name one booking.
   *
   * @param booking id
   */
  record NamedTwice(String booking) implements Fault {}
}
