package quadrille.cli.render;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.StretchedGap;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Rebooking;

/** What moves after changes, and why: two lines a visit, to be read out. */
public final class RebookText {

  private static final int INDENT = 3;

  private final Diary diary;
  private final int year;
  private final Page page;

  private RebookText(Diary diary, int year, boolean styled) {
    this.diary = diary;
    this.year = year;
    this.page = new Page(styled);
  }

  /**
   * Renders the moves.
   *
   * @param first day on which something may be moved; its year goes without saying
   * @param written whether the diary has been replaced
   */
  public static String of(Rebooking rebooking, LocalDate first, boolean written, boolean styled) {
    RebookText text = new RebookText(rebooking.diary(), first.getYear(), styled);
    text.page.heading(
        rebooking.moves().isEmpty()
            ? rebooking.left().isEmpty() ? "Nothing moves" : "No new place was found"
            : Words.count(rebooking.moves().size(), "visit") + " to be moved");
    for (Rebooking.Move move : rebooking.moves()) {
      text.move(move);
    }
    rebooking.moves().stream()
        .map(move -> move.from().caseName())
        .distinct()
        .flatMap(name -> rebooking.diary().course(name).stream())
        .flatMap(course -> StretchedGap.of(rebooking.diary(), course).stream())
        .forEach(gap -> text.page.paragraph(gap.caseName() + ": " + BookWords.stretched(gap)));
    if (!rebooking.left().isEmpty()) {
      text.page.heading("Without a new place");
      for (Rebooking.Lost lost : rebooking.left()) {
        text.page.line(
            text.visit(lost.booking())
                + ": "
                + BookWords.because(lost.because(), rebooking.diary()));
        text.page.hang("", INDENT, "was " + text.place(lost.booking()));
      }
      text.page.paragraph(
          "What has no place is called off. Try a later --until, or ask the patient when else they"
              + " can come, and book it again.");
    }
    if (!rebooking.broken().isEmpty()) {
      text.page.heading("What is begun is not finished in time");
      text.page.items(rebooking.broken().stream().map(BookWords::broken).toList());
    }
    if (!rebooking.freed().isEmpty()) {
      text.page.heading("Time that is free now suits those who wait");
      text.freed(rebooking.freed());
    }
    text.page.blank();
    text.page.paragraph(
        written
            ? "The diary has been replaced; it has passed its audit."
            : "Nothing has been written; --write replaces the diary.");
    return text.page.text();
  }

  /** A visit that moves, where to and why, on one line. */
  public static String move(Rebooking.Move move, Diary diary) {
    RebookText text = new RebookText(diary, 0, false);
    return text.visit(move.from())
        + ": "
        + text.place(move.from())
        + " to "
        + text.place(move.to())
        + "; "
        + BookWords.because(move.because(), diary)
        + ".";
  }

  /** A visit without a new place, and why, on one line. */
  public static String lost(Rebooking.Lost lost, Diary diary) {
    RebookText text = new RebookText(diary, 0, false);
    return text.visit(lost.booking())
        + ": "
        + text.place(lost.booking())
        + "; "
        + BookWords.because(lost.because(), diary)
        + ".";
  }

  private void move(Rebooking.Move move) {
    page.line(visit(move.from()) + ": " + BookWords.because(move.because(), diary));
    boolean samePlace =
        move.from().clinician().equals(move.to().clinician())
            && move.from().chair().equals(move.to().chair());
    page.hang(
        "",
        INDENT,
        samePlace
            ? when(move.from()) + " to " + place(move.to())
            : place(move.from()) + " to " + place(move.to()));
  }

  private void freed(List<OfferedVisit> freed) {
    Map<String, List<OfferedVisit>> byCase = new LinkedHashMap<>();
    for (OfferedVisit visit : freed) {
      byCase.computeIfAbsent(visit.caseName(), key -> new ArrayList<>()).add(visit);
    }
    byCase.forEach(
        (caseName, visits) -> {
          page.line(caseName + ": " + DiaryWords.times(diary, visits, year));
          page.hang("", INDENT, DiaryWords.places(diary, visits, false));
        });
  }

  /** Such as {@code DEMO-201, visit 3 of 3}. */
  private String visit(Booking booking) {
    String of =
        diary.course(booking.caseName()).map(course -> " of " + course.lastNumber()).orElse("");
    return booking.caseName() + ", visit " + booking.visit() + of;
  }

  private String when(Booking booking) {
    return DiaryWords.when(booking.start(), diary.zone(), year);
  }

  private String place(Booking booking) {
    return when(booking)
        + ", "
        + DiaryWords.clinician(diary, booking.clinician())
        + ", "
        + DiaryWords.noBreak(DiaryWords.chair(diary, booking.chair()))
        + DiaryWords.calls(diary, booking.injectors(), booking.start());
  }
}
