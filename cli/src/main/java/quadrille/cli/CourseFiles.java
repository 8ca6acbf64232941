package quadrille.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.DoubtWords;
import quadrille.cli.render.RecordText;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.PlanFile;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.recording.Recorder;

/** Course files as commands name them. */
final class CourseFiles {

  private CourseFiles() {}

  /** Writes one entry. */
  interface Writing {
    Recorder.Outcome write(Recorder recorder) throws IOException, InvalidDocumentException;
  }

  /** Reads a course; what is cut off at its end is told. */
  static CourseLog read(String file, BaseCommand command)
      throws InvalidDocumentException, StopException {
    try {
      CourseLog log = CourseFile.read(path(file), command.streams().files());
      tellTorn(file, log.torn(), command);
      return log;
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be read: " + Documents.reason(e));
    }
  }

  /** Writes an entry, says its number, and says what in it is worth a second look. */
  static void write(String file, Writing writing, BaseCommand command)
      throws InvalidDocumentException, StopException {
    tell(file, outcome(file, writing, command), command);
  }

  /** What writing came to; nobody has been told yet. */
  static Recorder.Outcome outcome(String file, Writing writing, BaseCommand command)
      throws InvalidDocumentException, StopException {
    try {
      return writing.write(new Recorder(path(file), command.streams().files()));
    } catch (FileAlreadyExistsException e) {
      throw StopException.usage(file + ": exists already; a course is never written over.");
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be written: " + Documents.reason(e));
    }
  }

  /** Begins a course. */
  static void begin(
      String file,
      OffsetDateTime at,
      PlanFile plan,
      String planName,
      Chart chart,
      Practice practice,
      BaseCommand command)
      throws InvalidDocumentException, StopException {
    Recorder.Outcome outcome =
        outcome(file, recorder -> recorder.begin(at, plan, chart, practice), command);
    if (outcome instanceof Recorder.FailedAudit failed) {
      failed.findings().forEach(finding -> command.message(finding.line()));
      throw StopException.refused(
          planName + ": does not pass its audit, so no course begins with it.");
    }
    tell(file, outcome, command);
  }

  /** Tells what writing came to. */
  static void tell(String file, Recorder.Outcome outcome, BaseCommand command)
      throws InvalidDocumentException, StopException {
    if (outcome instanceof Recorder.Refused refused) {
      throw new InvalidDocumentException(refused.faults());
    }
    if (outcome instanceof Recorder.Written written) {
      tellTorn(file, written.torn(), command);
      command.message(
          file
              + ": wrote entry "
              + written.entry().number()
              + ", "
              + written.entry().event().word()
              + ".");
      if (written.doubts().isEmpty()) {
        return;
      }
      Numbering numbering = written.entry().numbering();
      Practice practice = read(file, command).practice();
      for (Doubt doubt : written.doubts()) {
        command.message(
            "Please look again, it is recorded as said: "
                + DoubtWords.of(doubt, numbering == null ? Numbering.ISO3950 : numbering, practice)
                + ".");
      }
    }
  }

  private static void tellTorn(String file, @Nullable Integer torn, BaseCommand command) {
    if (torn != null) {
      command.message(file + ": " + RecordText.torn(torn));
    }
  }

  private static Path path(String file) throws StopException {
    if (file.equals(Documents.STANDARD)) {
      throw StopException.usage("A course is a file of its own, not standard input or output.");
    }
    return Documents.path(file);
  }
}
