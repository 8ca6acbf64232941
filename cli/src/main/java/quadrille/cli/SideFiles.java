package quadrille.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import quadrille.diary.book.CalendarLink;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.FileStore;
import quadrille.document.PreparedFile;

/**
 * Files that are written beside a diary. All of them are checked, and lie ready on the disk, before
 * the diary is replaced; they take their names after that. Where the diary is not replaced, nothing
 * of them is left.
 */
final class SideFiles implements AutoCloseable {

  private final FileStore store;
  private final Map<String, Expected> expected;
  private final List<String> names = new ArrayList<>();
  private final List<PreparedFile> ready = new ArrayList<>();

  /**
   * @param expected what stood under each name when the command began
   */
  SideFiles(FileStore store, Map<String, Expected> expected) {
    this.store = store;
    this.expected = Map.copyOf(expected);
  }

  /**
   * Checks, before any work is done, that files may be written.
   *
   * @param files each named by one option
   * @param answer where the answer goes; its file must be none of these
   * @param inputs the files that the command reads
   * @return what stands under each name now, and may be written over
   */
  static Map<String, Expected> check(List<String> files, OutputOption answer, List<String> inputs)
      throws StopException {
    boolean force = answer.force();
    if (force && files.isEmpty() && !answer.toFile()) {
      throw StopException.usage(
          "--force: is for -o, --ics-practice, --ics-patient and --fhir; the diary needs none.");
    }
    List<String> all = new ArrayList<>(files);
    if (answer.toFile()) {
      all.add(answer.name());
    }
    Set<Path> outputs = new LinkedHashSet<>();
    Map<String, Expected> expected = new LinkedHashMap<>();
    for (String file : all) {
      if (file.equals(Documents.STANDARD)) {
        throw StopException.usage("-: standard output carries the report; name a file.");
      }
      Documents.checkWritable(file, force, inputs.toArray(String[]::new));
      if (!outputs.add(Documents.path(file).toAbsolutePath().normalize())) {
        throw StopException.usage(file + ": is named for two outputs.");
      }
      expected.put(file, Documents.present(file, force));
    }
    return expected;
  }

  /** The calendars that a diary names, as the command would name them. */
  static List<String> calendars(String diaryFile, LoadedDiary loaded) throws StopException {
    Path diary = Documents.path(diaryFile);
    return loaded.diary().calendars().stream()
        .map(CalendarLink::file)
        .map(file -> diary.resolveSibling(file).toString())
        .toList();
  }

  /** Lays a file ready. */
  void prepare(String file, String text) throws StopException {
    try {
      Path path = Documents.path(file);
      Expected then = expected.getOrDefault(file, Expected.NOTHING);
      ready.add(store.prepare(path, text, then));
      names.add(file);
    } catch (ChangedFileException e) {
      throw StopException.refused(file + ": was not written: " + Documents.reason(e));
    } catch (FileAlreadyExistsException e) {
      throw StopException.usage(file + ": exists already; --force overwrites it.");
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be written: " + Documents.reason(e));
    }
  }

  /** Lets all files take their names, now that the diary has been replaced. */
  void commit(BaseCommand command) throws StopException {
    List<String> failed = new ArrayList<>();
    for (int i = 0; i < ready.size(); i++) {
      try {
        ready.get(i).commit();
        command.message("Wrote " + names.get(i) + ".");
      } catch (IOException e) {
        failed.add(names.get(i) + ": cannot be written: " + Documents.reason(e));
      }
    }
    if (!failed.isEmpty()) {
      throw StopException.file("The diary has been replaced, but\n" + String.join("\n", failed));
    }
  }

  @Override
  public void close() {
    close(ready);
  }

  /** Each of them, whatever befalls the ones before. */
  private static void close(List<PreparedFile> files) {
    if (files.isEmpty()) {
      return;
    }
    try {
      files.get(0).close();
    } catch (IOException left) {
      // A part that cannot be taken away is nobody's file; the next writer clears it.
    } finally {
      close(files.subList(1, files.size()));
    }
  }
}
