package quadrille.cli.render;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import quadrille.booking.OfferedVisit;
import quadrille.booking.Rebooking;
import quadrille.diary.Booking;

/** What moves after changes, and why. */
public final class RebookText {

  private static final int INDENT = 3;
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("EEE d MMM HH:mm", Locale.ENGLISH);

  private RebookText() {}

  /**
   * Renders the moves.
   *
   * @param written whether the diary has been replaced
   */
  public static String of(Rebooking rebooking, boolean written, boolean styled) {
    Page page = new Page(styled);
    ZoneId zone = rebooking.diary().zone();
    page.heading(
        rebooking.moves().isEmpty()
            ? rebooking.left().isEmpty() ? "Nothing moves" : "No new place was found"
            : Words.count(rebooking.moves().size(), "visit") + " to be moved");
    for (Rebooking.Move move : rebooking.moves()) {
      page.line(move.from().caseName() + ", visit " + move.from().visit() + ": " + move.because());
      page.hang("", INDENT, place(move.from(), zone) + " to " + place(move.to(), zone));
    }
    if (!rebooking.left().isEmpty()) {
      page.heading("Without a new place");
      rebooking.left().forEach(page::item);
      page.paragraph("Try a later --until, or ask the patient and book it by hand.");
    }
    if (!rebooking.freed().isEmpty()) {
      page.heading("Time that is free now suits those who wait");
      for (OfferedVisit visit : rebooking.freed()) {
        page.line(
            visit.caseName()
                + ", visit "
                + visit.visit()
                + ": "
                + WHEN.format(visit.start().atZone(zone))
                + ", "
                + visit.clinician()
                + ", chair "
                + visit.chair());
      }
    }
    page.blank();
    page.paragraph(
        written
            ? "The diary has been replaced; it has passed its audit."
            : "Nothing has been written; --write replaces the diary.");
    return page.text();
  }

  private static String place(Booking booking, ZoneId zone) {
    return WHEN.format(booking.start().atZone(zone)).replace(' ', '\u00a0')
        + ", "
        + booking.clinician()
        + ", chair\u00a0"
        + booking.chair();
  }
}
