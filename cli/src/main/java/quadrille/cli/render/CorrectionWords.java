package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.VisitDone;

/** What a correction changed, in words. */
public final class CorrectionWords {

  private CorrectionWords() {}

  /**
   * A correction.
   *
   * @param entry its number
   * @param corrects the number of the entry that it takes the place of
   * @param visit the visit
   * @param day on which it was written
   * @param changes from what to what; empty where the record is the same
   * @param why may be empty
   */
  public record Correction(
      int entry, int corrects, int visit, String day, List<String> changes, String why) {

    public Correction {
      changes = List.copyOf(changes);
    }
  }

  /** Every correction of a log, in order; teeth by this numbering. */
  public static List<Correction> of(CourseLog log, Numbering numbering) {
    List<Correction> corrections = new ArrayList<>();
    for (LogEntry entry : log.entries()) {
      if (entry.event() instanceof Corrected corrected) {
        VisitDone now = corrected.instead();
        corrections.add(
            new Correction(
                entry.number(),
                corrected.entry(),
                now.visit(),
                entry.at().toLocalDate().toString(),
                changes(before(log, entry.number(), corrected), now, numbering, log.practice()),
                corrected.why()));
      }
    }
    return corrections;
  }

  /** The record that counted before: the latest correction of the same record, or itself. */
  private static @Nullable VisitDone before(CourseLog log, int number, Corrected corrected) {
    int origin = log.origin(corrected.entry());
    @Nullable VisitDone before = null;
    for (LogEntry entry : log.entries().subList(0, number - 1)) {
      Event event = entry.event();
      if (log.origin(entry.number()) == origin) {
        if (event instanceof VisitDone done) {
          before = done;
        } else if (event instanceof Corrected earlier) {
          before = earlier.instead();
        }
      }
    }
    return before;
  }

  private static List<String> changes(
      @Nullable VisitDone was, VisitDone is, Numbering numbering, Practice practice) {
    List<String> changes = new ArrayList<>();
    if (was == null) {
      return changes;
    }
    add(changes, "day", was.date().toString(), is.date().toString());
    add(changes, "clinician", was.clinician(), is.clinician());
    add(changes, "minutes", minutes(was), minutes(is));
    add(
        changes,
        "booked minutes",
        Integer.toString(was.bookedMinutes()),
        Integer.toString(is.bookedMinutes()));
    add(changes, "work", RecordText.work(was, numbering), RecordText.work(is, numbering));
    add(
        changes,
        "injections",
        injections(was, numbering, practice),
        injections(is, numbering, practice));
    add(changes, "gel", was.gelCartridges().toString(), is.gelCartridges().toString());
    add(changes, "found", found(was, numbering, practice), found(is, numbering, practice));
    add(changes, "interrupted", was.interrupted() ? "yes" : "no", is.interrupted() ? "yes" : "no");
    add(changes, "note", was.note(), is.note());
    if (!was.parts().equals(is.parts())) {
      changes.add("minutes by area and pass");
    }
    return changes;
  }

  private static void add(List<String> changes, String what, String was, String is) {
    if (!Objects.equals(was, is)) {
      changes.add(what + ": " + said(was) + " → " + said(is));
    }
  }

  private static String said(String value) {
    return value.isEmpty() ? "nothing" : value;
  }

  private static String minutes(VisitDone done) {
    return done.minutes() == null ? "" : Words.number(done.minutes(), 1);
  }

  private static String injections(VisitDone done, Numbering numbering, Practice practice) {
    return String.join(
        ", ",
        done.injections().stream()
            .map(given -> FindingWords.given(given, numbering, practice))
            .toList());
  }

  private static String found(VisitDone done, Numbering numbering, Practice practice) {
    return String.join(
        ", ",
        done.findings().stream()
            .map(finding -> FindingWords.finding(finding, numbering, practice))
            .toList());
  }
}
