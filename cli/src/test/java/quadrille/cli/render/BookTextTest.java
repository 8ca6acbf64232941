package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.Merit;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Reason;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.booking.Taking;

/** How offers and moves are read out. */
final class BookTextTest {

  private static final Diary DIARY =
      new Diary(
          ZoneId.of("Europe/Rome"),
          10,
          List.of(
              new Clinician("ines", "Ines Example", List.of(), List.of(), List.of(), List.of())),
          List.of(new Chair("2", "Chair 2", List.of())),
          List.of(),
          new SterileStock(60, List.of()),
          List.of(),
          List.of(),
          List.of(),
          List.of());

  private static String text(List<Merit> because, String... starts) {
    List<OfferedVisit> visits = new ArrayList<>();
    for (String start : starts) {
      visits.add(
          new OfferedVisit(
              "K-1042",
              visits.size() + 1,
              Instant.parse(start),
              60 + 10 * visits.size(),
              "ines",
              "2"));
    }
    LocalDate end = visits.get(visits.size() - 1).start().atZone(DIARY.zone()).toLocalDate();
    Offer offer = new Offer(visits, because, end.plusWeeks(6), end.plusWeeks(12), Map.of());
    LocalDate asked = LocalDate.of(2026, 3, 2);
    List<VisitRequest> requests =
        visits.stream()
            .map(
                one ->
                    new VisitRequest(
                        one.visit(),
                        one.minutes(),
                        List.of(),
                        List.of(),
                        one.visit() < 2 ? 0 : 7,
                        14))
            .toList();
    Diary diary =
        Taking.asking(
            DIARY,
            new CourseRequest(
                "K-1042", asked, asked, requests, 6, 12, Availability.ANY, Preferences.NONE));
    return BookText.of(
        diary, LocalDate.of(2026, 3, 2), List.of(offer), List.of(), "00000000", null, false);
  }

  @Test
  void everyVisitHasALineWithYearDateTimeAndClinician() {
    String text =
        text(
            List.of(Merit.FINISHES_FIRST, Merit.SAME_CLINICIAN, Merit.BEST_BALANCE),
            "2026-03-11T11:00:00Z",
            "2026-03-18T08:20:00Z",
            "2026-03-25T10:00:00Z");
    assertEquals(
        """
        Offers for K-1042
        1  Earliest, Ines Example throughout, best overall.
           Wed 11 Mar 2026 12:00, 60 minutes, Ines Example, Chair 2
           Wed 18 Mar 2026 09:20, 70 minutes, Ines Example, Chair 2
           Wed 25 Mar 2026 11:00, 80 minutes, Ines Example, Chair 2
           Re-evaluation 6 May 2026 to 17 Jun 2026.
        """,
        text.substring(0, text.indexOf("\n\n") + 1).replace('\u00a0', ' '));
  }

  @Test
  void everyMeritIsNamed() {
    String text = text(List.of(Merit.values()), "2026-03-11T11:00:00Z", "2026-03-18T08:20:00Z");
    for (Merit merit : Merit.values()) {
      String word = merit == Merit.SAME_CLINICIAN ? "throughout" : BookWords.shortly(merit);
      assertTrue(
          text.replaceAll("\\s+", " ").toLowerCase(java.util.Locale.ROOT).contains(word), text);
    }
  }

  @Test
  void aYearIsSaidWhereItIsAnother() {
    String text =
        text(List.of(Merit.FINISHES_FIRST), "2026-12-29T11:00:00Z", "2027-01-05T08:20:00Z");
    assertTrue(text.replace('\u00a0', ' ').contains("Tue 5 Jan 2027 09:20, 70 minutes"), text);
    assertTrue(text.contains("Re-evaluation 16 Feb 2027 to 30 Mar 2027."), text);
  }

  @Test
  void whatHasNoPlaceIsNamedInWordsWithItsReason() {
    Booking lost =
        new Booking(
            "K-1042/2",
            "K-1042",
            2,
            Instant.parse("2027-01-05T08:20:00Z"),
            60,
            "ines",
            "2",
            List.of(),
            List.of(),
            BookingStatus.PROMISED);
    Rebooking rebooking =
        new Rebooking(
            DIARY,
            List.of(
                new Rebooking.Move(
                    lost,
                    lost.at(Instant.parse("2026-12-29T11:00:00Z"), "ines", "2"),
                    new Reason.Cancelled())),
            List.of(new Rebooking.Lost(lost, new Reason.ClinicianAway("ines"))),
            List.of(),
            List.of());
    String text = RebookText.of(rebooking, LocalDate.of(2026, 12, 28), false, false);
    assertTrue(
        text.startsWith(
            """
            1 visit to be moved
            K-1042, visit 2: it was cancelled
               Tue 5 Jan 2027 09:20 to Tue 29 Dec 12:00, Ines Example, Chair 2

            Without a new place
            K-1042, visit 2: Ines Example is away
               was Tue 5 Jan 2027 09:20, Ines Example, Chair 2
            """),
        text);
  }
}
