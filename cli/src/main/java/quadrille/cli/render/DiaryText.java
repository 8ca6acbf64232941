package quadrille.cli.render;

import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;

/** A week of a diary at 80 columns. */
public final class DiaryText {

  private static final int NAME = 16;
  private static final int STRIP = Page.WIDTH - NAME;
  private static final List<Integer> CELLS = List.of(10, 15, 20, 30, 60);
  private static final Map<String, Character> SIGNS =
      Map.of("working", '.', "free", '_', "chairless", '-', "busy", '#', "booked", '@');

  private final Page page;
  private final Diary diary;
  private final ZoneId zone;

  private DiaryText(Diary diary, boolean styled) {
    this.page = new Page(styled);
    this.diary = diary;
    this.zone = diary.zone();
  }

  /**
   * Renders a week.
   *
   * @param notes what had to be taken for something in calendars
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(Diary diary, DiaryWeek week, List<String> notes, boolean styled) {
    DiaryText text = new DiaryText(diary, styled);
    text.week(week, notes);
    return text.page.text();
  }

  private void week(DiaryWeek week, List<String> notes) {
    DiaryStrip strip = DiaryStrip.of(week, zone);
    int cell =
        CELLS.stream().filter(minutes -> strip.minutes() / minutes <= STRIP).findFirst().orElse(60);
    page.heading("Week of " + DiaryWords.day(week.monday()) + ", " + zone.getId());
    page.paragraph(
        "@ a visit of a course, # something else, _ free, - free but no chair is, . too little of"
            + " either, blank away. A sign is "
            + cell
            + "\u00a0minutes.");
    if (week.days().isEmpty()) {
      page.blank();
      page.paragraph("Nobody works in this week.");
    }
    for (DiaryWeek.Day day : week.days()) {
      day(day, strip, cell);
    }
    page.heading("What each course needs next");
    if (week.courses().isEmpty()) {
      page.paragraph("Nothing.");
    }
    for (DiaryWeek.Next next : week.courses()) {
      page.hang(
          next.course().caseName() + " ", NAME, String.join(" ", DiaryWords.next(diary, next)));
    }
    if (!notes.isEmpty()) {
      page.heading("Notes");
      page.items(notes);
    }
  }

  private void day(DiaryWeek.Day day, DiaryStrip strip, int cell) {
    page.heading(DiaryWords.day(day.date()));
    StringBuilder hours = new StringBuilder();
    for (int hour : strip.hours(day.date(), zone)) {
      hours.append(Page.pad("|" + hour, 60 / cell), 0, Math.max(1, 60 / cell));
    }
    page.line(" ".repeat(NAME) + hours);
    for (DiaryWeek.Person person : day.people()) {
      if (person.working().isEmpty() && person.booked().isEmpty()) {
        continue;
      }
      char[] signs = " ".repeat(strip.minutes(day.date(), zone) / cell).toCharArray();
      for (DiaryStrip.Part part : strip.parts(person, day.date(), zone)) {
        char sign = SIGNS.getOrDefault(part.kind(), '?');
        int first = part.from() / cell;
        // What is free is drawn only where a whole cell is.
        boolean open = part.kind().equals("free") || part.kind().equals("chairless");
        int start = open ? (part.from() + cell - 1) / cell : first;
        int end = part.from() + part.minutes();
        int stop = open ? end / cell : (end + cell - 1) / cell;
        boolean outside = part.kind().equals("busy");
        for (int at = start; at < Math.min(stop, signs.length); at++) {
          // Busy outside working hours is nobody's business here.
          if (!outside || signs[at] != ' ') {
            signs[at] = sign;
          }
        }
      }
      String name = Page.wrap(Page.clean(person.clinician().name()), NAME - 2).get(0);
      page.line(Page.pad(name, NAME) + new String(signs));
    }
    for (Booking booking : day.bookings()) {
      page.hang(
          "  " + DiaryWords.span(booking.time(), zone),
          NAME,
          DiaryWords.booking(diary, booking) + ".");
      DiaryWords.asked(diary, booking)
          .forEach(question -> page.hang("    STOP", NAME, MindWords.of(question)));
    }
    for (DiaryWeek.Person person : day.people()) {
      if (!person.free().isEmpty()) {
        page.hang(
            "  free",
            NAME,
            person.clinician().name()
                + (person.clinician().mayInject() ? " (may inject)" : "")
                + ": "
                + DiaryWords.spans(person.free(), zone)
                + ".");
      }
    }
  }
}
