package quadrille.treatment.recording;

import java.time.OffsetDateTime;
import java.util.List;
import quadrille.document.InvalidDocumentException;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.Doubts;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.VisitDone;

/**
 * A visit's record that would be the next entry of a log, for somebody to look over.
 *
 * @param done the visit, with all that was taken from the plan
 * @param corrects number of the entry whose place it takes; 0 for a new record
 * @param why what was wrong with that entry; may be empty
 * @param doubts what in it is worth a second look; it may be recorded all the same
 */
public record Draft(VisitDone done, int corrects, String why, List<Doubt> doubts) {

  public Draft {
    doubts = List.copyOf(doubts);
  }

  /**
   * Drafts a record.
   *
   * @param corrects number of the entry whose place it takes; 0 for a new record
   * @throws InvalidDocumentException with every fault of what was said
   */
  public static Draft of(CourseLog log, Said said, int corrects, String why)
      throws InvalidDocumentException {
    VisitDone done = said.read(log, corrects);
    Event event = event(done, corrects, why);
    // When it is written is no reason to doubt it.
    OffsetDateTime at = log.entries().get(log.entries().size() - 1).at();
    LogEntry entry = new LogEntry(log.entries().size() + 1, at, event, log.numbering());
    return new Draft(done, corrects, why, Doubts.broughtBy(entry, log));
  }

  Event event() {
    return event(done, corrects, why);
  }

  private static Event event(VisitDone done, int corrects, String why) {
    return corrects > 0 ? new Corrected(corrects, done, why) : done;
  }
}
