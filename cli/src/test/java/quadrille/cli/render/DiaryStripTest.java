package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.diary.calendar.Interval;

/** Nights in which clocks change, drawn by the minutes that pass. */
final class DiaryStripTest {

  private static final ZoneId ROME = ZoneId.of("Europe/Rome");
  private static final DiaryStrip NIGHT = new DiaryStrip(0, 5);

  @Test
  void putForwardANightHasAnHourLess() {
    LocalDate day = LocalDate.of(2026, 3, 29);
    assertEquals(240, NIGHT.minutes(day, ROME));
    assertEquals(List.of(0, 1, 3, 4), NIGHT.hours(day, ROME));
    // From half past one to half past three is an hour.
    assertEquals(
        new DiaryStrip.Part("booked", 90, 60),
        NIGHT
            .part("booked", Interval.of(Instant.parse("2026-03-29T00:30:00Z"), 60), day, ROME)
            .orElseThrow());
  }

  @Test
  void putBackItHasAnHourMore() {
    LocalDate day = LocalDate.of(2026, 10, 25);
    assertEquals(360, NIGHT.minutes(day, ROME));
    assertEquals(List.of(0, 1, 2, 2, 3, 4), NIGHT.hours(day, ROME));
    // The second of the two half past twos.
    assertEquals(
        new DiaryStrip.Part("booked", 210, 60),
        NIGHT
            .part("booked", Interval.of(Instant.parse("2026-10-25T01:30:00Z"), 60), day, ROME)
            .orElseThrow());
  }

  @Test
  void onOtherDaysItIsTheClock() {
    LocalDate day = LocalDate.of(2026, 3, 5);
    assertEquals(600, new DiaryStrip(8, 18).minutes(day, ROME));
    assertEquals(
        new DiaryStrip.Part("booked", 90, 60),
        new DiaryStrip(8, 18)
            .part("booked", Interval.of(Instant.parse("2026-03-05T08:30:00Z"), 60), day, ROME)
            .orElseThrow());
  }
}
