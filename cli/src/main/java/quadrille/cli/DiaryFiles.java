package quadrille.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import quadrille.cli.render.BookWords;
import quadrille.cli.render.DeskWords;
import quadrille.cli.render.DiaryFindingWords;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.ExportNames;
import quadrille.diary.book.Signature;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.ChangeDesk;
import quadrille.diary.desk.DeskChange;
import quadrille.diary.file.ChangedDiaryException;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** Diary files as commands name them. */
final class DiaryFiles {

  private DiaryFiles() {}

  /**
   * Reads a diary as {@link #read}; holds that have run out by now are called off in it, and it has
   * a key for exports, which is kept with the next change that is written.
   */
  static LoadedDiary now(String file, Streams streams)
      throws InvalidDocumentException, StopException {
    return keyed(read(file, streams.files()), streams).asOf(streams.clock().instant());
  }

  private static LoadedDiary keyed(LoadedDiary read, Streams streams) {
    return read.diary().exportKey() != null
        ? read
        : read.with(ExportNames.keyed(read.diary(), streams.chance().get()));
  }

  /** Reads a diary as {@link #now}; its key for exports is in the file from now on. */
  static LoadedDiary exported(String file, BaseCommand command)
      throws InvalidDocumentException, StopException {
    Streams streams = command.streams();
    Instant now = streams.clock().instant();
    LoadedDiary read = read(file, streams.files());
    if (read.diary().exportKey() == null) {
      Diary with = keyed(read, streams).diary();
      boolean kept =
          at(
              file,
              path -> {
                try {
                  DiaryFile.replace(path, read, with, now, streams.files());
                  return true;
                } catch (ChangedDiaryException somebodyElse) {
                  return false;
                } catch (IOException unwritten) {
                  throw new IOException(
                      Documents.reason(unwritten)
                          + ". It has no key yet, by which what is exported is named, and which the"
                          + " first export writes into it: export once where it can be written",
                      unwritten);
                }
              });
      if (!kept) {
        throw StopException.refused(BookWords.changed(file) + " Export again.");
      }
      command.message(file + ": has a key now, by which what is exported is named.");
      return read.with(with).asOf(now);
    }
    return read.asOf(now);
  }

  /** Says in a diary that a visit took place; where it cannot, that is told, and nothing else. */
  static void done(String file, String caseName, int visit, BaseCommand command)
      throws InvalidDocumentException, StopException {
    Streams streams = command.streams();
    LoadedDiary read = now(file, streams);
    Optional<Booking> booking = read.diary().standing(caseName, visit).filter(Booking::coming);
    if (booking.isEmpty()) {
      command.message(file + ": has no booking of " + caseName + ", visit " + visit + ", to come.");
      return;
    }
    Signature signed = new Signature(streams.account(), streams.clock().instant());
    ChangeAnswer answer = ChangeDesk.ask(read, new DeskChange.Done(booking.get().id()), signed);
    if (answer instanceof ChangeAnswer.Stopped stopped) {
      command.message(file + ": " + DeskWords.stopped(stopped, read.diary()));
    } else if (!(answer instanceof ChangeAnswer.Changed changed)) {
      command.message(file + ": " + DeskWords.refusal(answer, read.diary()));
    } else if (at(file, path -> ChangeDesk.write(path, changed, streams.files()))) {
      command.message(file + ": " + booking.get().id() + " is done.");
    } else {
      command.message(BookWords.changed(file) + " Say it again with done.");
    }
  }

  /** Tells what the audit finds in a diary that a change leaves as it is. */
  static void tell(BaseCommand command, LoadedDiary loaded, Instant settled)
      throws InvalidDocumentException {
    List<DiaryFinding> findings = DiaryFile.audit(loaded, settled);
    if (!findings.isEmpty()) {
      command.message("Found in the diary as it is, and left alone:");
      findings.forEach(finding -> command.message(DiaryFindingWords.line(finding)));
    }
  }

  /** Reads a diary with the calendars that it names. */
  static LoadedDiary read(String file, FileStore store)
      throws InvalidDocumentException, StopException {
    try {
      return DiaryFile.read(path(file), store);
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be read: " + Documents.reason(e));
    }
  }

  /** What is done with a diary on disk. */
  interface Work<T> {
    T with(Path file) throws IOException, InvalidDocumentException, RefusedDiaryException;
  }

  /** Lets the desk work with a diary; what its audit finds, and what cannot be written, is said. */
  static <T> T at(String file, Work<T> work) throws InvalidDocumentException, StopException {
    try {
      return work.with(path(file));
    } catch (RefusedDiaryException refused) {
      throw StopException.refused(
          file
              + ": the audit finds this in the new diary, so it was not written:\n"
              + String.join(
                  "\n", refused.findings().stream().map(DiaryFindingWords::line).toList()));
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be written: " + Documents.reason(e));
    }
  }

  private static Path path(String file) throws StopException {
    if (file.equals(Documents.STANDARD)) {
      throw StopException.usage("A diary is a file: its calendars are beside it.");
    }
    return Documents.path(file);
  }
}
