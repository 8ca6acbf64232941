package quadrille.document;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Calendars that are read for one answer. All of them together may have as many bytes as one file;
 * and since each line and each entry of a list becomes a value, so many of these as well.
 */
public final class FilesTogether {

  /** Measured: so short that a file of as many is read in seconds, and within half a gigabyte. */
  private static final int BYTES_TO_A_LINE = 128;

  private final FileRules rules;
  private long bytes;
  private long lines;

  FilesTogether(FileRules rules) {
    this.rules = rules;
  }

  /**
   * The bytes of a file.
   *
   * @throws IOException where it is no regular file, is too large beside the others, or cannot be
   *     read
   */
  public byte[] bytes(Path file) throws IOException {
    FilePlace.regular(file);
    try (InputStream in = Files.newInputStream(file)) {
      return bytes(file.toString(), in);
    }
  }

  /**
   * All bytes of a stream, such as standard input.
   *
   * @param name of the stream
   * @throws IOException where it has too many beside the others, or cannot be read
   */
  public byte[] bytes(String name, InputStream in) throws IOException {
    byte[] read = in.readNBytes(Math.toIntExact(rules.mostBytes() - bytes));
    if (in.read() >= 0) {
      throw tooLarge(name, "bytes", rules.mostBytes());
    }
    bytes += read.length;
    byte before = 0;
    for (byte one : read) {
      // A backslash makes a comma one of a text.
      boolean ends = one == '\r' || one == '\n' && before != '\r' || one == ',' && before != '\\';
      lines += ends ? 1 : 0;
      before = one;
    }
    if (lines > rules.mostBytes() / BYTES_TO_A_LINE) {
      throw tooLarge(name, "lines and entries of lists", rules.mostBytes() / BYTES_TO_A_LINE);
    }
    return read;
  }

  private static IOException tooLarge(String name, String what, long most) {
    return new FileSystemException(
        name,
        null,
        "with the calendars before it, it has more than the "
            + most
            + " "
            + what
            + " that are taken; "
            + FileRules.MOST_MEGABYTES
            + " sets that");
  }
}
