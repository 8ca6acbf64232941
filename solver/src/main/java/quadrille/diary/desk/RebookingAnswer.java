package quadrille.diary.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Why;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Reason;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.file.LoadedDiary;

/** What {@link RebookingDesk#rebook} answers. */
public sealed interface RebookingAnswer {

  /**
   * A new diary that has passed the audit.
   *
   * @param read the diary as it was read
   * @param settled what ended then or before is history
   */
  record Rebooked(LoadedDiary read, Rebooking rebooking, Instant settled)
      implements RebookingAnswer {

    /** Bookings that are new or other than they were. */
    public List<Booking> changed() {
      List<Booking> changed = new ArrayList<>(rebooking.diary().bookings());
      changed.removeAll(new LinkedHashSet<>(read.diary().bookings()));
      return changed;
    }

    /** Why each booking that changes does, by its id. */
    Map<String, Why> why() {
      Map<String, Why> why = new LinkedHashMap<>();
      for (Rebooking.Move move : rebooking.moves()) {
        why.put(move.from().id(), why(move.because()));
        why.put(move.to().id(), why(move.because()));
      }
      rebooking.left().forEach(lost -> why.put(lost.booking().id(), why(lost.because())));
      return why;
    }

    private static Why why(Reason reason) {
      if (reason instanceof Reason.Cancelled) {
        return Why.PATIENT_ASKED;
      }
      if (reason instanceof Reason.Missed) {
        return Why.PATIENT_MISSED;
      }
      if (reason instanceof Reason.PracticeClosed) {
        return Why.PRACTICE_CLOSED;
      }
      if (reason instanceof Reason.ClinicianAway) {
        return Why.CLINICIAN_AWAY;
      }
      if (reason instanceof Reason.MakesRoom) {
        return Why.MAKES_ROOM;
      }
      return reason instanceof Reason.NothingBefore ? Why.NOTHING_BEFORE : Why.FOLLOWS_ITS_COURSE;
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
