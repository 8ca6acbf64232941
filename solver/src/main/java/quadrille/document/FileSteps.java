package quadrille.document;

import java.io.IOException;
import java.nio.file.Path;

/** Told of each change to the disk just before it is made; a test ends the process there. */
public interface FileSteps {

  /** What is about to be done. */
  enum Step {
    CREATE,
    WRITE,
    TRUNCATE,
    SYNC,
    MODE,
    LINK,
    RENAME,
    DELETE,
    SYNC_FOLDER
  }

  /** Nobody listens. */
  FileSteps NONE = (step, file) -> {};

  /**
   * @param file the one that is changed
   * @throws IOException stands for a disk that refuses
   */
  void before(Step step, Path file) throws IOException;
}
