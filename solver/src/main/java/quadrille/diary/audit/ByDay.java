package quadrille.diary.audit;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.NavigableSet;
import java.util.TreeSet;

/**
 * Places in a list of things that take time, by the days on which they do, so that each is looked
 * at only beside those of its own days.
 */
final class ByDay {

  private static final long DAY = 86_400;

  /** What takes longer is near everything, and not entered day by day. */
  private static final long MOST_DAYS = 14;

  private final Map<Long, NavigableSet<Integer>> days = new LinkedHashMap<>();
  private final NavigableSet<Integer> always = new TreeSet<>();

  void add(int place, Instant start, Instant end) {
    if (day(end) - day(start) > MOST_DAYS) {
      always.add(place);
      return;
    }
    for (long day = day(start); day <= day(end); day++) {
      days.computeIfAbsent(day, none -> new TreeSet<>()).add(place);
    }
  }

  /** The places, in order, of all that may meet a span, and of some that do not. */
  NavigableSet<Integer> near(Instant start, Instant end) {
    NavigableSet<Integer> near = new TreeSet<>(always);
    for (long day = day(start); day <= day(end); day++) {
      near.addAll(days.getOrDefault(day, new TreeSet<>()));
    }
    return near;
  }

  /** Of one length for all, whatever the clock shows. */
  private static long day(Instant moment) {
    return Math.floorDiv(moment.getEpochSecond(), DAY);
  }
}
