package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.Diary;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.WeeklyHours;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.PracticeReader;
import quadrille.treatment.restaging.OrderAtTheChair.Cause;
import quadrille.treatment.restaging.OrderAtTheChair.Outcome;

/** What somebody at the chair reads of another order. */
final class ChairWordsTest {

  @Test
  void aLongerVisitAndOneThatIsNotOnTimeAreSaidWithTheirMinutes() {
    assertEquals(List.of(), ChairWords.cautions(70, 70, 0));
    assertEquals(
        List.of("In this order 80\u00a0minutes would be booked for the visit; 70 are."),
        ChairWords.cautions(80, 70, 0));
    assertEquals(
        List.of(
            "When it was put into this order, the visit ran 12\u00a0minutes behind the plan, by which"
                + " numbness is reckoned here: go by the minutes under Numb."),
        ChairWords.cautions(60, 70, 12));
    assertEquals(
        List.of(
            "When it was put into this order, the visit ran 1\u00a0minute ahead of the plan, by which"
                + " numbness is reckoned here: go by the minutes under Numb."),
        ChairWords.cautions(70, 70, -1));
  }

  @Test
  void eachCauseHasItsOwnWords() {
    assertEquals(
        Cause.values().length,
        Arrays.stream(Cause.values())
            .map(
                cause ->
                    ChairWords.of(
                        new Outcome.NotKnown(cause), Numbering.ISO3950, PracticeReader.defaults()))
            .collect(Collectors.toCollection(TreeSet::new))
            .size());
  }

  /** Who comes in only to inject is booked for minutes, which another order may not keep. */
  @Test
  void aNeedleOutsideTheMinutesOfWhoComesInToInjectIsSaid() {
    WeeklyHours hours =
        new WeeklyHours(
            List.of(DayOfWeek.values()), LocalTime.of(9, 0), LocalTime.of(17, 0), List.of());
    Instant start = Instant.parse("2026-03-02T09:00:00Z");
    Booking booking =
        new Booking(
                "A/1",
                "A",
                1,
                start,
                60,
                "ben",
                "one",
                List.of(),
                List.of(),
                BookingStatus.PROMISED)
            .at(start, "ben", "one", List.of(new InjectorCall("ada", 10, 22)));
    Diary diary =
        new Diary(
            ZoneId.of("UTC"),
            10,
            List.of(
                new Clinician(
                    "ada",
                    "Ada",
                    List.of(Capability.INJECT),
                    List.of(hours),
                    List.of(),
                    List.of())),
            List.of(),
            List.of(),
            new SterileStock(60, List.of()),
            List.of(),
            List.of(booking),
            List.of(),
            List.of());
    assertEquals(
        List.of("Comes in to inject: Ada 09:10-09:22."), ChairWords.comingIn(diary, booking));
    assertEquals(List.of(), ChairWords.notBookedFor(diary, booking, List.of(600L, 1319L)));
    assertEquals(
        List.of(
            "To inject is booked: Ada 09:10-09:22. In this order injections are due at 09:31: ask"
                + " first."),
        ChairWords.notBookedFor(diary, booking, List.of(700L, 1860L)));
  }
}
