package quadrille.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Diary;
import quadrille.diary.file.ChangedDiaryException;
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

  /**
   * Replaces a diary by another.
   *
   * @param revision of the diary that the other was made from
   * @throws ChangedDiaryException if the diary on disk is not that one any more
   */
  static void replace(String file, String revision, Diary diary, FileStore store)
      throws ChangedDiaryException, InvalidDocumentException, StopException {
    try {
      DiaryFile.replace(path(file), revision, diary, store);
    } catch (RefusedDiaryException refused) {
      throw refused(file, String.valueOf(refused.getMessage()));
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be written: " + Documents.reason(e));
    }
  }

  /**
   * Looks at a diary that is about to be shown, as writing it would.
   *
   * @param from what it was made from
   */
  static void check(String file, LoadedDiary from, Diary diary)
      throws InvalidDocumentException, StopException {
    List<DiaryFinding> findings =
        DiaryFile.audit(new LoadedDiary(diary, from.revision(), from.calendars()));
    if (!findings.isEmpty()) {
      throw refused(
          file, findings.stream().map(DiaryFinding::line).collect(Collectors.joining("\n")));
    }
  }

  private static StopException refused(String file, String findings) {
    return StopException.refused(
        file + ": the audit finds this in the new diary, so it was not written:\n" + findings);
  }

  private static Path path(String file) throws StopException {
    if (file.equals(Documents.STANDARD)) {
      throw StopException.usage("A diary is a file: its calendars are beside it.");
    }
    return Documents.path(file);
  }
}
