package quadrille.document;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/**
 * The one way to files: looked at before they are read, bounded, written whole or not at all, and
 * for nobody else to read.
 *
 * <p>A text is written to a part beside its target, which only the owner may read and which its
 * writer holds locked; then it takes the target's name. A part that nobody holds was left by a
 * process that is gone, and the next writer in that folder takes it away. Every writer says what it
 * {@linkplain Expected expects} to find, and leaves anything else alone.
 */
public final class FileStore {

  /** The usual rules. */
  public static final FileStore USUAL = new FileStore(FileRules.USUAL);

  /** Bytes, which file systems agree on; found out before anything else is changed. */
  private static final int LONGEST_NAME = 255;

  private final FileRules rules;
  private final FileSteps steps;

  public FileStore(FileRules rules) {
    this(rules, FileSteps.NONE);
  }

  /**
   * @param steps told of each change to the disk
   */
  public FileStore(FileRules rules, FileSteps steps) {
    this.rules = rules;
    this.steps = steps;
  }

  /** Of a file that is read or written, the most bytes. */
  public long mostBytes() {
    return rules.mostBytes();
  }

  FileRules rules() {
    return rules;
  }

  FileSteps steps() {
    return steps;
  }

  // ---- reading

  /**
   * The bytes of a file.
   *
   * @throws IOException where it is no regular file, is too large, or cannot be read
   */
  public byte[] bytes(Path file) throws IOException {
    look(file);
    try (InputStream in = Files.newInputStream(file)) {
      return bytes(file.toString(), in);
    }
  }

  /**
   * All bytes of a stream, such as standard input.
   *
   * @param name of the stream
   * @throws IOException where it has too many, or cannot be read
   */
  public byte[] bytes(String name, InputStream in) throws IOException {
    int most = Math.toIntExact(rules.mostBytes());
    byte[] bytes = in.readNBytes(most);
    if (bytes.length == most && in.read() >= 0) {
      throw new FileSystemException(name, null, tooLarge("more bytes"));
    }
    return bytes;
  }

  /**
   * Looks at a file that is to be read.
   *
   * @throws IOException where it is no regular file, or is too large
   */
  public void look(Path file) throws IOException {
    long size = FilePlace.regular(file).size();
    if (size > rules.mostBytes()) {
      throw new FileSystemException(file.toString(), null, tooLarge(size + " bytes"));
    }
  }

  private String tooLarge(String found) {
    return "it has "
        + found
        + ", and at most "
        + rules.mostBytes()
        + " are taken; "
        + FileRules.MOST_MEGABYTES
        + " sets that";
  }

  /** Reads files that are all wanted for one answer. */
  public FilesTogether together() {
    return new FilesTogether(rules);
  }

  /**
   * A file that a document names, from that document's folder.
   *
   * @throws IOException where there is none, or it lies elsewhere and may not
   */
  public Path named(Path document, String name) throws IOException {
    Path folder = FilePlace.folder(document.toRealPath());
    Path file = folder.resolve(name).toRealPath();
    if (!rules.anywhere() && !file.startsWith(folder)) {
      throw new FileSystemException(
          name,
          null,
          "it lies outside the folder of the file that names it; "
              + FileRules.CALENDARS
              + "=anywhere allows that");
    }
    return file;
  }

  // ---- writing

  /**
   * Writes a file whole or not at all: a reader at any moment finds the old text or the new one.
   *
   * @param file where to; through a symbolic link, the file that it points to
   * @param text written as UTF-8
   * @throws FileAlreadyExistsException where none was expected
   * @throws ChangedFileException where another was expected
   * @throws IOException where it cannot be written; the old file, if any, is untouched
   */
  public void write(Path file, String text, Expected expected) throws IOException {
    try (PreparedFile prepared = prepare(file, text, expected)) {
      prepared.commit();
    }
  }

  /**
   * Writes a text beside the file that it is for, so that little can go wrong once it is to take
   * the file's name.
   *
   * @param file where to; through a symbolic link, the file that it points to
   * @param text written as UTF-8
   * @return to be committed, or closed without
   * @throws FileAlreadyExistsException where the file exists and none was expected
   * @throws ChangedFileException where another was expected
   * @throws IOException where it cannot be written; the old file, if any, is untouched
   */
  public PreparedFile prepare(Path file, String text, Expected expected) throws IOException {
    Path target = FilePlace.target(file);
    if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
      if (expected.equals(Expected.NOTHING)) {
        // Of the one that began this file, maybe, and did not come to its end.
        FilePart.sweep(target, steps);
        throw new FileAlreadyExistsException(file.toString(), null, "it exists already");
      }
      FilePlace.regular(target);
    }
    expected.check(file, target);
    if (String.valueOf(target.getFileName()).getBytes(StandardCharsets.UTF_8).length
        > LONGEST_NAME) {
      throw new FileSystemException(file.toString(), null, "its name is too long");
    }
    ByteBuffer bytes = StandardCharsets.UTF_8.newEncoder().encode(CharBuffer.wrap(text));
    if (bytes.remaining() > rules.mostBytes()) {
      throw new FileSystemException(
          file.toString(), null, tooLarge(bytes.remaining() + " bytes to be written"));
    }
    return new PreparedFile(this, file, target, expected, FilePart.write(target, bytes, steps));
  }

  /**
   * Takes a file away.
   *
   * @throws ChangedFileException where another was expected; it stays
   * @throws IOException where it cannot be taken away
   */
  public void delete(Path file, Expected expected) throws IOException {
    try (FileTurn turn = turn(file)) {
      turn.check(expected);
      steps.before(FileSteps.Step.DELETE, turn.target());
      Files.deleteIfExists(turn.target());
    }
  }

  /**
   * Makes a folder where there is none, with the folders above it; whoever may read new files may
   * look into it, and nobody else.
   *
   * @throws IOException where something else has its name, or it may not be made
   */
  public void folder(Path folder) throws IOException {
    if (Files.isDirectory(folder)) {
      return;
    }
    Path parent = folder.toAbsolutePath().getParent();
    if (parent != null) {
      folder(parent);
    }
    steps.before(FileSteps.Step.CREATE, folder);
    try {
      if (FilePart.own(folder).length == 0) {
        Files.createDirectory(folder);
      } else {
        Set<PosixFilePermission> permissions = rules.freshFolder();
        Files.createDirectory(folder, PosixFilePermissions.asFileAttribute(permissions));
        // Some of them the process may have masked.
        Files.setPosixFilePermissions(folder, permissions);
      }
    } catch (FileAlreadyExistsException somebodyElse) {
      if (!Files.isDirectory(folder)) {
        throw somebodyElse;
      }
    }
  }

  /**
   * Waits for the turn to replace a file: nobody else replaces it meanwhile, in whatever process.
   *
   * @throws IOException where the file's folder does not allow it
   */
  public FileTurn turn(Path file) throws IOException {
    return new FileTurn(this, file, FilePlace.target(file));
  }

  /**
   * Opens a file that is only appended to, and waits for the turn to do so.
   *
   * @param writing whether an entry is to be appended; others may read at once, but not write
   * @throws IOException where it is no regular file, is too large, or cannot be opened
   */
  public FileLog log(Path file, boolean writing) throws IOException {
    look(file);
    if (writing) {
      FilePart.sweep(FilePlace.target(file), steps);
    }
    return new FileLog(rules, steps, file, FilePlace.target(file), writing);
  }
}
