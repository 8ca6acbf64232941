package quadrille.cli.render;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.facts.practice.Contact;

/**
 * A patient's appointment card: when, with whom, and how to reach the practice; no word of health.
 */
public final class CardText {

  private static final int INDENT = 3;

  private CardText() {}

  /**
   * Renders a card.
   *
   * @param bookings of one patient, those to come
   * @param practiceName null leaves it out
   */
  public static String of(
      Diary diary, List<Booking> bookings, @Nullable String practiceName, Contact contact) {
    Page page = new Page(false);
    page.heading(practiceName == null ? "Your appointments" : practiceName);
    if (bookings.isEmpty()) {
      page.paragraph("No appointment.");
    }
    for (Booking booking : bookings) {
      page.paragraph(
          DiaryWords.day(booking.start().atZone(diary.zone()).toLocalDate())
              + ", "
              + DiaryWords.time(booking.start(), diary.zone())
              + (booking.status() == BookingStatus.HELD ? " (not yet confirmed)" : ""));
      page.hang(
          "",
          INDENT,
          booking.minutes() + " minutes with " + DiaryWords.clinician(diary, booking.clinician()));
    }
    List<String> reached =
        Stream.<@Nullable String>of(contact.address(), contact.phone(), contact.email())
            .filter(Objects::nonNull)
            .toList();
    if (!reached.isEmpty()) {
      page.blank();
      reached.forEach(page::paragraph);
    }
    return page.text();
  }
}
