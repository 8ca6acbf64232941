package quadrille.treatment.record;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.plan.anaesthesia.Refusal;

/** What in a course's log is worth a second look. */
public final class Doubts {

  private Doubts() {}

  /**
   * All doubts: a clock that went back; then, about what counts now, visit by visit in the order of
   * the records: a visit dated before one that was recorded earlier; what it gave, held against the
   * patient's maximum and alerts, with what was given earlier that day; a correction that the plan
   * does not know of. Then the teeth that may be others than were meant.
   */
  public static List<Doubt> of(CourseLog log) {
    Map<Integer, Integer> latest = new TreeMap<>();
    int planned = 1;
    for (LogEntry entry : log.entries()) {
      latest.put(log.origin(entry.number()), entry.number());
      if (entry.event() instanceof Event.Replanned) {
        planned = entry.number();
      }
    }
    List<Doubt> doubts = new ArrayList<>(clock(log));
    CourseLog.@Nullable Recorded last = null;
    for (CourseLog.Recorded one : log.recorded()) {
      int visit = one.done().visit();
      LocalDate date = one.done().date();
      int entry = latest.getOrDefault(one.entry(), one.entry());
      if (last != null && date.isBefore(last.done().date())) {
        doubts.add(
            new Doubt.DatedBefore(entry, visit, date, last.done().visit(), last.done().date()));
      } else {
        last = one;
      }
      for (Refusal refusal : GivenDoses.check(log, one).refusals()) {
        doubts.add(new Doubt.Dose(entry, visit, refusal));
      }
      if (one.entry() < planned && entry > planned) {
        doubts.add(new Doubt.CorrectedSince(entry, visit, planned));
      }
    }
    TeethInDoubt.of(log).forEach(statement -> doubts.add(new Doubt.Teeth(statement)));
    return List.copyOf(doubts);
  }

  private static List<Doubt> clock(CourseLog log) {
    List<Doubt> doubts = new ArrayList<>();
    List<LogEntry> entries = log.entries();
    for (int i = 1; i < entries.size(); i++) {
      LogEntry before = entries.get(i - 1);
      LogEntry entry = entries.get(i);
      if (entry.at().toInstant().isBefore(before.at().toInstant())) {
        doubts.add(new Doubt.ClockWentBack(entry.number(), entry.at(), before.at()));
      }
    }
    return doubts;
  }

  /** The doubts that an entry at the end of a log has brought. */
  public static List<Doubt> broughtBy(LogEntry entry, CourseLog before) {
    List<LogEntry> entries = new ArrayList<>(before.entries());
    entries.add(entry);
    List<Doubt> known = of(before);
    return of(new CourseLog(entries, null)).stream()
        .filter(doubt -> !known.contains(doubt))
        .toList();
  }
}
