package quadrille.treatment.recording;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.document.FaultWords;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.Doubts;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.TeethInDoubt;

/**
 * Writes into a course's log, an entry at a time. What an entry says is held against the log while
 * nobody else can write to it; an entry that does not fit is refused, and the log stays as it is.
 *
 * <pre>{@code
 * Recorder recorder = new Recorder(Path.of("course.ndjson"));
 * Recorder.Outcome outcome = recorder.record(now, new Said.InDocument("visit.json", text));
 * }</pre>
 *
 * <p>Every method throws {@link InvalidDocumentException} where the file is no course, and {@link
 * IOException} where it cannot be read or written.
 */
public final class Recorder {
  private final Path file;
  private final FileStore store;

  /** A course's log by the usual rules of files. */
  public Recorder(Path file) {
    this(file, FileStore.USUAL);
  }

  /** A course's log by the rules of a store. */
  public Recorder(Path file, FileStore store) {
    this.file = file;
    this.store = store;
  }

  /** What recording came to. */
  public sealed interface Outcome {}

  /**
   * The entry is on the disk.
   *
   * @param torn number of an entry that was found cut off at the file's end, and has been removed;
   *     null where none was
   * @param doubts what in the entry is worth a second look
   */
  public record Written(LogEntry entry, @Nullable Integer torn, List<Doubt> doubts)
      implements Outcome {
    public Written {
      doubts = List.copyOf(doubts);
    }
  }

  /** What was said is not fit to be written; nothing was. */
  public record Refused(List<Fault> faults) implements Outcome {
    public Refused {
      faults = List.copyOf(faults);
    }
  }

  /** The plan breaks a rule; no course begins with it. */
  public record FailedAudit(List<Finding> findings) implements Outcome {
    public FailedAudit {
      findings = List.copyOf(findings);
    }
  }

  /**
   * Begins a course with a plan that passes its audit.
   *
   * @throws FileAlreadyExistsException where the file exists; a course is never written over
   */
  public Outcome begin(OffsetDateTime at, PlanFile plan, Chart chart, Practice practice)
      throws IOException {
    List<Finding> findings = Audit.audit(plan, chart, practice);
    if (!findings.isEmpty()) {
      return new FailedAudit(findings);
    }
    Event.Planned planned = new Event.Planned(plan.course(), chart, practice);
    CourseFile.begin(file, at, planned, store);
    return new Written(new LogEntry(1, at, planned, chart.numbering()), null, List.of());
  }

  /** Records a visit. */
  public Outcome record(OffsetDateTime at, Said said) throws IOException, InvalidDocumentException {
    return append(at, log -> Draft.of(log, said, 0, "").event());
  }

  /**
   * Records a visit in the place of an earlier record, which stays in the log.
   *
   * @param entry number of the earlier record, or of a correction of it
   * @param why may be empty
   */
  public Outcome correct(OffsetDateTime at, int entry, Said said, String why)
      throws IOException, InvalidDocumentException {
    return append(at, log -> Draft.of(log, said, entry, why).event());
  }

  /**
   * Keeps which visits have been promised.
   *
   * @param place who says so, for faults
   */
  public Outcome book(OffsetDateTime at, List<Event.Appointment> visits, String place)
      throws IOException, InvalidDocumentException {
    return append(
        at,
        log -> {
          List<Fault> faults = new ArrayList<>();
          List<Integer> open = CourseState.of(log).toCome().stream().map(Visit::number).toList();
          for (Event.Appointment visit : visits) {
            if (!open.contains(visit.visit())) {
              faults.add(
                  new Fault(place, "visit " + visit.visit(), "a visit to come, one of " + open));
            }
            if (visit.minutes() < 1) {
              faults.add(new Fault(place, visit.minutes() + " minutes", "1 or more"));
            }
          }
          if (!faults.isEmpty()) {
            throw new InvalidDocumentException(faults);
          }
          return new Event.Booked(visits);
        });
  }

  /** A diary, as far as a course asks it. */
  public interface Promises {

    /** What is promised for a visit of a case; null where nothing is. */
    Event.@Nullable Appointment of(String caseName, int visit);
  }

  /**
   * Keeps what a diary has promised of the visits to come, where the log does not have it yet.
   *
   * @param place the diary's name, for faults
   */
  public Outcome bookedIn(OffsetDateTime at, Promises diary, String place)
      throws IOException, InvalidDocumentException {
    return append(
        at,
        log -> {
          CourseState state = CourseState.of(log);
          String name = state.course().caseName();
          List<Event.Appointment> news = new ArrayList<>();
          for (Visit visit : state.toCome()) {
            Event.@Nullable Appointment promised = diary.of(name, visit.number());
            if (promised != null && !promised.equals(state.booked().get(visit.number()))) {
              news.add(promised);
            }
          }
          if (news.isEmpty()) {
            throw new InvalidDocumentException(
                List.of(
                    new Fault(
                        place,
                        "no promised visit of " + name + " that the course does not have already",
                        "a visit to come, booked for this course")));
          }
          return new Event.Booked(news);
        });
  }

  /**
   * Keeps that a person has confirmed what the log says of some teeth ({@link TeethInDoubt}).
   *
   * @param teeth as the course's chart names them
   * @param by who, by the practice's own reference
   * @param place who says so, for faults
   */
  public Outcome confirm(OffsetDateTime at, List<String> teeth, String by, String place)
      throws IOException, InvalidDocumentException {
    return append(
        at,
        log -> {
          TreeSet<Tooth> open = new TreeSet<>();
          TeethInDoubt.of(log).forEach(statement -> open.addAll(statement.teeth()));
          List<String> names = open.stream().map(log.numbering()::name).toList();
          List<Tooth> confirmed = new ArrayList<>();
          List<Fault> faults = new ArrayList<>();
          for (String name : teeth) {
            log.numbering()
                .tooth(name)
                .filter(open::contains)
                .ifPresentOrElse(
                    confirmed::add,
                    () ->
                        faults.add(
                            new Fault(
                                place,
                                "tooth " + name,
                                names.isEmpty()
                                    ? "nothing, as no tooth of the log is in doubt"
                                    : "a tooth that is in doubt: " + FaultWords.either(names))));
          }
          if (!faults.isEmpty()) {
            throw new InvalidDocumentException(faults);
          }
          return new Event.TeethConfirmed(confirmed, by);
        });
  }

  /**
   * Lets a new plan hold from now on.
   *
   * @param known how many entries the log had when it was planned; one that has grown since is
   *     refused
   */
  public Outcome adopt(OffsetDateTime at, int known, Event.Replanned plan)
      throws IOException, InvalidDocumentException {
    return append(
        at,
        log -> {
          int more = log.entries().size() - known;
          if (more != 0) {
            throw new InvalidDocumentException(
                List.of(
                    new Fault(
                        file.toString(),
                        more + " more entries than when it was planned",
                        "the log as it was; plan again")));
          }
          return plan;
        });
  }

  private Outcome append(OffsetDateTime at, CourseFile.Maker maker)
      throws IOException, InvalidDocumentException {
    List<Fault> refused = new ArrayList<>();
    List<CourseLog> before = new ArrayList<>();
    try {
      CourseFile.Appended appended =
          CourseFile.append(
              file,
              at,
              log -> {
                before.add(log);
                try {
                  return maker.event(log);
                } catch (InvalidDocumentException wrong) {
                  refused.addAll(wrong.faults());
                  throw wrong;
                }
              },
              store);
      return new Written(
          appended.entry(), appended.torn(), Doubts.broughtBy(appended.entry(), before.get(0)));
    } catch (InvalidDocumentException wrong) {
      if (refused.isEmpty()) {
        throw wrong;
      }
      return new Refused(refused);
    }
  }
}
