package quadrille.cli.render;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.CallList;

/** Whom to call or remind, a line each. */
public final class CallText {

  private static final int INDENT = 3;

  private CallText() {}

  /** Renders the list, day by day. */
  public static String of(Diary diary, List<CallList.Call> calls, boolean styled) {
    Page page = new Page(styled);
    LocalDate day = null;
    for (CallList.Call call : calls) {
      if (!call.day().equals(day)) {
        day = call.day();
        page.heading(DiaryWords.day(day));
      }
      page.hang(
          "", INDENT, call.caseName() + ", visit " + call.visit() + ": " + words(diary, call));
    }
    if (calls.isEmpty()) {
      page.paragraph("Nobody is to be called.");
    }
    return page.text();
  }

  private static String words(Diary diary, CallList.Call call) {
    Booking booking = call.booking();
    LocalDate by = call.by();
    String when =
        booking == null
            ? ""
            : DiaryWords.when(booking.start(), diary.zone(), 0)
                + ", "
                + DiaryWords.clinician(diary, booking.clinician());
    return switch (call.purpose()) {
      case HOLD_ENDS -> "does " + when + " suit? The hold ends " + until(diary, booking) + ".";
      case CONFIRM ->
          "does "
              + when
              + " suit? It is held, not promised"
              + (diary.course(call.caseName()).map(CourseRequest::provisional).orElse(false)
                  ? ": it cannot be promised before the history is taken."
                  : ".");
      case REMIND -> "remind of " + when + ".";
      case BOOK ->
          "has no time yet"
              + (by == null ? "" : "; it may be on " + DiaryWords.date(by, 0) + " at the latest")
              + ".";
      case SAY_WHAT_BECAME -> "say what became of " + when + ": done or call-off.";
    };
  }

  private static String until(Diary diary, @org.jspecify.annotations.Nullable Booking booking) {
    Instant until = booking == null ? null : booking.until();
    return until == null ? "" : DiaryWords.when(until, diary.zone(), 0);
  }
}
