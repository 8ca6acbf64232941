package quadrille.cli.render;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.Why;

/** How a diary's journal is said. */
public final class JournalWords {

  private JournalWords() {}

  /** That a word is no reason. */
  public static String unknownWhy(String word) {
    return "--because: is \""
        + word
        + "\"; "
        + String.join(", ", Why.SAID.stream().map(Why::word).toList())
        + " are allowed.";
  }

  /**
   * Number, time, who, what and why, such as {@code Change 3, Tue 3 Mar 2026 12:00, Ines: moved}.
   */
  public static String title(JournalEntry entry, Diary diary) {
    Why because = entry.because();
    String note = entry.note();
    return "Change "
        + entry.number()
        + ", "
        + DiaryWords.when(entry.at(), diary.zone(), 0)
        + ", "
        + entry.by()
        + ": "
        + deed(entry)
        + (because == null ? "" : " (" + why(because) + (note == null ? "" : ": " + note) + ")")
        + (because == null && note != null ? " (" + note + ")" : "");
  }

  private static String deed(JournalEntry entry) {
    return switch (entry.did()) {
      case BOOK -> "booked";
      case REBOOK -> "rebooked";
      case CALL_OFF -> "called off";
      case END -> "ended a course";
      case MOVE -> "moved";
      case HOLD -> "held";
      case PROMISE -> "promised";
      case DONE -> "done";
      case EXPIRE -> "hold ran out";
      case UNDO -> "took back change " + entry.undoes();
      case FORGET -> "forgot a patient";
    };
  }

  /** A reason in words. */
  public static String why(Why why) {
    return switch (why) {
      case PATIENT_ASKED -> "the patient asked";
      case PATIENT_ILL -> "the patient is ill";
      case PATIENT_MISSED -> "the patient did not come";
      case MEDICAL -> "a medical reason";
      case CLINICIAN_AWAY -> "the clinician is away";
      case PRACTICE_CLOSED -> "the practice is closed";
      case EQUIPMENT -> "equipment";
      case PLAN_CHANGED -> "the plan is another";
      case MAKES_ROOM -> "it makes room";
      case FOLLOWS_ITS_COURSE -> "it follows its course";
      case NOTHING_BEFORE -> "the visit before it is not booked";
      case HOLD_OVER -> "the hold is over";
      case MISTAKE -> "a mistake";
      case OTHER -> "another reason";
    };
  }

  /** What changed, a line each. */
  public static List<String> lines(JournalEntry entry, Diary diary) {
    List<String> lines = new ArrayList<>();
    for (JournalEntry.BookingChange change : entry.bookings()) {
      lines.add(booking(change, entry.did(), diary));
    }
    for (JournalEntry.CourseChange change : entry.courses()) {
      lines.add(change.caseName() + ": " + course(change));
    }
    for (JournalEntry.Absence absence : entry.absences()) {
      String who = absence.clinician();
      lines.add(
          (who == null ? "the practice is closed" : DiaryWords.clinician(diary, who) + " is away")
              + " "
              + days(absence.off())
              + (absence.taken() ? ", taken back" : ""));
    }
    return lines;
  }

  private static String course(JournalEntry.CourseChange change) {
    CourseRequest from = change.from();
    CourseRequest to = change.to();
    if (to == null) {
      return "its course is not asked for any more";
    }
    if (to.ended() != null && (from == null || from.ended() == null)) {
      return "its course is ended";
    }
    LongerGaps longer = to.longerGaps();
    if (from != null && longer != null && !longer.equals(from.longerGaps())) {
      return "its gaps may be "
          + Words.count(longer.days(), "day")
          + " longer, allowed by "
          + longer.allowedBy();
    }
    String visits = Words.count(to.visits().size(), "visit");
    if (from == null && longer != null) {
      return "a course of "
          + visits
          + ", gaps "
          + Words.count(longer.days(), "day")
          + " longer allowed by "
          + longer.allowedBy();
    }
    return from == null ? "a course of " + visits : "asks for " + visits + " now";
  }

  private static String booking(JournalEntry.BookingChange change, Deed did, Diary diary) {
    Booking from = change.from();
    Booking to = change.to();
    Why because = change.because();
    String words;
    if (to == null) {
      words = from == null ? "" : place(from, diary) + ", taken out";
    } else if (from == null) {
      words = place(to, diary) + ", " + status(to, diary);
    } else {
      String was = place(from, diary);
      String is = place(to, diary);
      String before = status(from, diary);
      String now = status(to, diary);
      words =
          (was.equals(is) ? is : was + " to " + is)
              + (before.equals(now) ? "" : ", was " + before + ", now " + now);
    }
    return change.any().id()
        + ": "
        + words
        + (because == null || did == Deed.EXPIRE ? "" : ", " + why(because));
  }

  private static String status(Booking booking, Diary diary) {
    @Nullable Instant until = booking.until();
    return (booking.status() == BookingStatus.CANCELLED ? "called off" : booking.status().word())
        + (booking.status() == BookingStatus.HELD && until != null
            ? " until " + DiaryWords.when(until, diary.zone(), 0)
            : "");
  }

  private static String place(Booking booking, Diary diary) {
    return DiaryWords.when(booking.start(), diary.zone(), 0)
        + ", "
        + DiaryWords.clinician(diary, booking.clinician())
        + ", "
        + DiaryWords.chair(diary, booking.chair())
        + DiaryWords.calls(diary, booking.injectors(), booking.start());
  }

  private static String days(TimeOff off) {
    return off.first().equals(off.last())
        ? "on " + DiaryWords.date(off.first(), 0)
        : DiaryWords.date(off.first(), 0) + " to " + DiaryWords.date(off.last(), 0);
  }
}
