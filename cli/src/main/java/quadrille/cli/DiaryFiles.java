package quadrille.cli;

import java.io.IOException;
import java.nio.file.Path;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** Diary files as commands name them. */
final class DiaryFiles {

  private DiaryFiles() {}

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
              + refused.getMessage());
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
