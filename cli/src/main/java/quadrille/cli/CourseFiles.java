package quadrille.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.InvalidDocumentException;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Doubts;
import quadrille.treatment.record.Event;

/** Course files as commands name them. */
final class CourseFiles {

  private CourseFiles() {}

  /** Reads a course; what is cut off at its end is told. */
  static CourseLog read(String file, BaseCommand command)
      throws InvalidDocumentException, StopException {
    try {
      CourseLog log = CourseFile.read(path(file), command.streams().files());
      tell(file, log.torn(), command);
      return log;
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be read: " + Documents.reason(e));
    }
  }

  /** Appends an entry, says its number, and says what in it is worth a second look. */
  static void append(String file, OffsetDateTime at, CourseFile.Maker maker, BaseCommand command)
      throws InvalidDocumentException, StopException {
    try {
      List<CourseLog> before = new ArrayList<>();
      CourseFile.Appended appended =
          CourseFile.append(
              path(file),
              at,
              log -> {
                before.add(log);
                return maker.event(log);
              },
              command.streams().files());
      tell(file, appended.torn(), command);
      command.message(
          file
              + ": wrote entry "
              + appended.entry().number()
              + ", "
              + appended.entry().event().word()
              + ".");
      for (Doubts.Doubt doubt : Doubts.broughtBy(appended.entry(), before.get(0))) {
        command.message("Please look again, it is recorded as said: " + doubt.words() + ".");
      }
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be written: " + Documents.reason(e));
    }
  }

  /** Begins a course. */
  static void begin(String file, OffsetDateTime at, Event.Planned planned, BaseCommand command)
      throws StopException {
    try {
      CourseFile.begin(path(file), at, planned, command.streams().files());
      command.message(file + ": wrote entry 1, planned.");
    } catch (FileAlreadyExistsException e) {
      throw StopException.usage(file + ": exists already; a course is never written over.");
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be written: " + Documents.reason(e));
    }
  }

  private static void tell(String file, @Nullable String torn, BaseCommand command) {
    if (torn != null) {
      command.message(file + ": " + torn);
    }
  }

  private static Path path(String file) throws StopException {
    if (file.equals(Documents.STANDARD)) {
      throw StopException.usage("A course is a file of its own, not standard input or output.");
    }
    return Documents.path(file);
  }
}
