package quadrille.document;

import java.nio.file.FileSystemException;

/** A file is no longer the one that was read; nothing has been written. */
public final class ChangedFileException extends FileSystemException {
  private static final long serialVersionUID = 1L;

  /**
   * @param file as the user named it
   * @param now what stands there now
   */
  ChangedFileException(String file, Expected now) {
    super(file, null, "it has been changed since it was read; there is now " + words(now));
  }

  private static String words(Expected now) {
    String revision = now.revision();
    return revision == null ? "no such file" : "another (SHA-256 " + revision + ")";
  }
}
