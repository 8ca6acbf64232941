package quadrille.treatment.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;

/**
 * The log of one course, as read.
 *
 * @param entries in order, numbered 1, 2, 3 …; the first one is {@link Event.Planned}
 * @param torn number of a last entry whose writing was cut off, and which is missing; null where
 *     none is
 */
public record CourseLog(List<LogEntry> entries, @Nullable Integer torn) {

  public CourseLog {
    entries = List.copyOf(entries);
    if (entries.isEmpty() || !(entries.get(0).event() instanceof Event.Planned)) {
      throw new IllegalArgumentException("A course begins with its plan.");
    }
  }

  /** The entry that began the course. */
  public Event.Planned planned() {
    return (Event.Planned) entries.get(0).event();
  }

  /** How the course's chart names its teeth, and so everybody who reads or writes of it. */
  public Numbering numbering() {
    return planned().chart().numbering();
  }

  /** The practice's figures that hold now. */
  public Practice practice() {
    return practiceAt(entries.size());
  }

  /** The practice's figures that held once an entry was written, by its number. */
  public Practice practiceAt(int entry) {
    Practice practice = planned().practice();
    for (LogEntry one : entries.subList(0, entry)) {
      if (one.event() instanceof Event.Replanned replanned && replanned.practice() != null) {
        practice = replanned.practice();
      }
    }
    return practice;
  }

  /**
   * Each recorded visit as it counts now, corrections seen, beside the plan that stood when it was
   * first recorded; in the order of the records.
   */
  public List<Recorded> recorded() {
    Map<Integer, Recorded> byEntry = new TreeMap<>();
    Course course = planned().course();
    Chart chart = planned().chart();
    for (LogEntry entry : entries) {
      if (entry.event() instanceof Event.Replanned replanned) {
        course = replanned.course();
        chart = replanned.chart();
      } else if (entry.event() instanceof VisitDone done) {
        byEntry.put(entry.number(), new Recorded(entry.number(), visit(course, done), chart, done));
      } else if (entry.event() instanceof Corrected corrected) {
        int first = origin(corrected.entry());
        @Nullable Recorded old = byEntry.get(first);
        if (old != null) {
          byEntry.put(first, new Recorded(first, old.planned(), old.chart(), corrected.instead()));
        }
      }
    }
    return List.copyOf(new ArrayList<>(byEntry.values()));
  }

  /** The number of the visit-done entry that an entry is, or corrects at the end of a chain. */
  public int origin(int number) {
    int at = number;
    while (at >= 1
        && at <= entries.size()
        && entries.get(at - 1).event() instanceof Corrected corrected
        && corrected.entry() < at) {
      at = corrected.entry();
    }
    return at;
  }

  private static @Nullable Visit visit(Course course, VisitDone done) {
    return course.visits().stream()
        .filter(visit -> visit.number() == done.visit())
        .findFirst()
        .orElse(null);
  }

  /**
   * A recorded visit beside its plan.
   *
   * @param entry number of its visit-done entry
   * @param planned the visit as planned when it was recorded; null where that plan had none of this
   *     number
   * @param chart the mouth that this plan was made from
   * @param done what was done, corrections seen
   */
  public record Recorded(int entry, @Nullable Visit planned, Chart chart, VisitDone done) {}
}
