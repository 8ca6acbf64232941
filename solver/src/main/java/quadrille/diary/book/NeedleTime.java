package quadrille.diary.book;

import java.util.ArrayList;
import java.util.List;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * Minutes of a visit in which someone must be there who may inject.
 *
 * @param from first minute, from the start of the visit, 0 or more
 * @param to first minute after it, more than {@code from}
 */
public record NeedleTime(int from, int to) {

  public NeedleTime {
    if (from < 0 || to <= from) {
      throw new IllegalArgumentException(
          "No needle comes from minute (" + from + ") to (" + to + ").");
    }
  }

  public int minutes() {
    return to - from;
  }

  /**
   * When the needles of a planned visit come, in whole minutes and with a margin on both sides,
   * since a visit seldom runs to the minute. What then meets is one time.
   *
   * @param margin minutes, 0 or more
   */
  static List<NeedleTime> of(Visit visit, int margin) {
    List<NeedleTime> times = new ArrayList<>();
    for (Entry entry : visit.sequence()) {
      if (!(entry instanceof Entry.Inject)) {
        continue;
      }
      int from = Math.max(0, entry.startSecond() / 60 - margin);
      int to = Math.min(visit.bookedMinutes(), (entry.endSecond() + 59) / 60 + margin);
      NeedleTime last = times.isEmpty() ? null : times.get(times.size() - 1);
      if (last != null && from <= last.to()) {
        times.set(times.size() - 1, new NeedleTime(last.from(), Math.max(to, last.to())));
      } else {
        times.add(new NeedleTime(from, to));
      }
    }
    return times;
  }
}
