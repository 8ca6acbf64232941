package quadrille.diary.book;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;

/** A time as the clock on the practice's wall shows it, and which moment that is. */
public sealed interface WallTime {

  /** Offsets of zones have been whole minutes for long then. */
  LocalDate FIRST = LocalDate.of(2000, 1, 1);

  /** Two years of booking, and what is looked at after them, still have years of four digits. */
  LocalDate LAST = LocalDate.of(9990, 1, 1);

  /** The one moment at which the clock shows it. */
  record Once(Instant moment) implements WallTime {}

  /** The clock never shows it, since it is put forward then. */
  record Never() implements WallTime {}

  /** The clock shows it twice, since it is put back then. */
  record Twice(OffsetDateTime earlier, OffsetDateTime later) implements WallTime {}

  /** Reads a time in a zone. */
  static WallTime of(LocalDateTime time, ZoneId zone) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
    return switch (offsets.size()) {
      case 0 -> new Never();
      case 1 -> new Once(time.toInstant(offsets.get(0)));
      default -> new Twice(time.atOffset(offsets.get(0)), time.atOffset(offsets.get(1)));
    };
  }

  /** Whether a diary can hold a moment: a whole minute from {@link #FIRST} to {@link #LAST}. */
  static boolean holds(Instant moment, ZoneId zone) {
    return moment.getEpochSecond() % 60 == 0
        && moment.getNano() == 0
        && holds(moment.atZone(zone).toLocalDate());
  }

  /** Whether a diary can hold a booking of a day. */
  static boolean holds(LocalDate day) {
    return !day.isBefore(FIRST) && !day.isAfter(LAST);
  }
}
