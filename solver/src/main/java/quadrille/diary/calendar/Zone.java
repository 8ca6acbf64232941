package quadrille.diary.calendar;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.List;

/**
 * The clock that a time of a calendar is told by.
 *
 * @param name as the file has it
 */
record Zone(String name, ZoneRules rules) {

  static final Zone UTC = new Zone("UTC", ZoneOffset.UTC.getRules());

  /**
   * The moment at which the clock shows a time, as RFC 5545 section 3.3.5 has it: where it shows it
   * twice, the first; where it skips it, as if the clock had not been changed.
   */
  Instant moment(LocalDateTime time) {
    List<ZoneOffset> offsets = rules.getValidOffsets(time);
    if (!offsets.isEmpty()) {
      return time.toInstant(offsets.get(0));
    }
    ZoneOffsetTransition gap = rules.getTransition(time);
    return time.toInstant(gap.getOffsetBefore());
  }

  /** The first moment of a day. */
  Instant midnight(LocalDate day) {
    LocalDateTime time = day.atStartOfDay();
    return rules.getValidOffsets(time).isEmpty()
        ? rules.getTransition(time).getInstant()
        : moment(time);
  }

  /** What the clock shows. */
  LocalDateTime wall(Instant moment) {
    return LocalDateTime.ofInstant(moment, rules.getOffset(moment));
  }
}
