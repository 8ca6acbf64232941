package quadrille.cli.render;

import java.time.Instant;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.FreedTime;

/** Why a change by hand is not made. */
public final class DeskWords {

  private DeskWords() {}

  /** What the audit finds that the change would make. */
  public static String stopped(ChangeAnswer.Stopped stopped, Diary diary) {
    return "Nothing was written; the change would make this:\n"
        + String.join("\n", stopped.made().stream().map(DiaryFindingWords::line).toList());
  }

  /** Who could come in time that is free now, and what it would do. */
  public static String sooner(FreedTime.Sooner one, Diary diary) {
    Booking booking = one.booking();
    String what = one.caseName() + ", visit " + one.visit() + ": ";
    String then = when(one.start(), diary);
    return booking == null
        ? what
            + "has no time yet, and will have waited "
            + Words.count(Math.toIntExact(one.days()), "day")
            + "; could come "
            + then
            + "."
        : what
            + Words.count(Math.toIntExact(one.days()), "day")
            + " sooner, "
            + then
            + " in place of "
            + when(booking, diary)
            + " ("
            + booking.status().word()
            + ", booking "
            + booking.id()
            + ").";
  }

  /** Why it cannot be, as the page says it: lines. */
  public static List<String> said(ChangeAnswer answer, Diary diary) {
    if (answer instanceof ChangeAnswer.Stopped stopped) {
      return stopped.made().stream().map(one -> DiaryFindingWords.said(one, diary)).toList();
    }
    if (answer instanceof ChangeAnswer.NoSuchClinician
        || answer instanceof ChangeAnswer.NoSuchChair) {
      return List.of("Nobody, or no chair, of that name is in the diary any more.");
    }
    if (answer instanceof ChangeAnswer.Past past) {
      return List.of(when(past.moment(), diary) + " is past.");
    }
    if (answer instanceof ChangeAnswer.NeedsNote) {
      return List.of("Say in the note what the other reason is.");
    }
    return List.of(refusal(answer, diary));
  }

  /** Why it cannot be. */
  public static String refusal(ChangeAnswer answer, Diary diary) {
    if (answer instanceof ChangeAnswer.NoSuchBooking none) {
      return "No booking \"" + none.booking() + "\" is in the diary.";
    }
    if (answer instanceof ChangeAnswer.NotComing gone) {
      return gone.booking()
          + ": is "
          + gone.status().word()
          + "; only what is held or promised can"
          + " be changed.";
    }
    if (answer instanceof ChangeAnswer.NoSuchCase none) {
      return unknown("course", none.caseName(), none.known());
    }
    if (answer instanceof ChangeAnswer.NoSuchClinician none) {
      return "--with: " + unknown("clinician", none.clinician(), none.known());
    }
    if (answer instanceof ChangeAnswer.NoSuchChair none) {
      return "--chair: " + unknown("chair", none.chair(), none.known());
    }
    if (answer instanceof ChangeAnswer.NotBegun begun) {
      return begun.booking().id()
          + ": begins "
          + when(begun.booking(), diary)
          + "; until then it is neither done nor missed.";
    }
    if (answer instanceof ChangeAnswer.NoHold held) {
      return held.booking().id()
          + ": a hold ends after now, and at the latest when the visit begins, "
          + when(held.booking(), diary)
          + ".";
    }
    if (answer instanceof ChangeAnswer.StillComing still) {
      return still.caseName()
          + ": "
          + String.join(", ", still.bookings().stream().map(Booking::id).toList())
          + (still.bookings().size() == 1 ? " is" : " are")
          + " still to come. Say end or call-off first, and export, so that other calendars lose"
          + " what is in them.";
    }
    if (answer instanceof ChangeAnswer.Past past) {
      return when(past.moment(), diary)
          + " is past; --past where a visit that took place is moved.";
    }
    if (answer instanceof ChangeAnswer.Provisional held) {
      return held.booking().id()
          + ": its plan is provisional, so it is held and not promised. Take"
          + " the history, plan again and book that plan.";
    }
    if (answer instanceof ChangeAnswer.NeedsNote) {
      return "--because other: say what in --note.";
    }
    if (answer instanceof ChangeAnswer.NothingToUndo) {
      return "The journal tells of no change that can be taken back.";
    }
    if (answer instanceof ChangeAnswer.ChangedSince since) {
      return "Cannot be taken back, since what it left has been changed: "
          + JournalWords.title(since.entry(), diary)
          + ".";
    }
    if (answer instanceof ChangeAnswer.HoldOver over) {
      return "Cannot be taken back, since a hold that would come back has run out: "
          + JournalWords.title(over.entry(), diary)
          + ". Book the visit again.";
    }
    return "It is so already; nothing was written.";
  }

  private static String unknown(String what, String name, List<String> known) {
    return "the diary has no "
        + what
        + " \""
        + name
        + "\"; it has "
        + (known.isEmpty() ? "none" : String.join(", ", known))
        + ".";
  }

  private static String when(Booking booking, Diary diary) {
    return when(booking.start(), diary);
  }

  private static String when(Instant moment, Diary diary) {
    return DiaryWords.when(moment, diary.zone(), 0);
  }
}
