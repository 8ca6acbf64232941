package quadrille.document;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;

/** A text that lies beside the file whose name it is to take. */
public final class PreparedFile implements AutoCloseable {
  private final FileStore store;
  private final Path file;
  private final Path target;
  private final Expected expected;
  private final FilePart part;

  PreparedFile(FileStore store, Path file, Path target, Expected expected, FilePart part) {
    this.store = store;
    this.file = file;
    this.target = target;
    this.expected = expected;
    this.part = part;
  }

  /**
   * Lets the text take the file's name; a reader at any moment finds the old text or the new one.
   *
   * @throws FileAlreadyExistsException where none was expected, and one has appeared since
   * @throws ChangedFileException where another was expected
   * @throws IOException where it cannot be written; the old file, if any, is untouched
   */
  public void commit() throws IOException {
    if (expected.equals(Expected.NOTHING)) {
      part.appear(target, store.rules().fresh());
      return;
    }
    try (FileTurn turn = store.turn(file)) {
      turn.check(expected);
      commitWithin(turn);
    }
  }

  /** Lets the text take the file's name, whatever is there. */
  void commitWithin(FileTurn turn) throws IOException {
    part.replace(turn.target(), store.rules().fresh());
  }

  /** Takes away what has not been committed. */
  @Override
  public void close() throws IOException {
    part.close();
  }
}
