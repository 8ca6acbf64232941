package quadrille.document;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Reads text files strictly, and writes them whole or not at all. */
public final class TextFiles {

  private TextFiles() {}

  /**
   * The text of a file in UTF-8.
   *
   * @throws InvalidDocumentException where the bytes are no UTF-8, with the line
   * @throws IOException where the file cannot be read
   */
  public static String read(Path file) throws IOException, InvalidDocumentException {
    Path name = file.getFileName();
    return decode(name == null ? file.toString() : name.toString(), Files.readAllBytes(file));
  }

  /**
   * Decodes UTF-8; nothing is replaced or left out.
   *
   * @param source the document's name, for the fault
   * @throws InvalidDocumentException where the bytes are no UTF-8, with the line
   */
  public static String decode(String source, byte[] bytes) throws InvalidDocumentException {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result = decoder.decode(in, out, true);
    out.flip();
    if (!result.isError()) {
      return out.toString();
    }
    int line = 1 + (int) out.chars().filter(c -> c == '\n').count();
    String found =
        String.format(Locale.ROOT, "a byte that is not UTF-8 (0x%02X)", bytes[in.position()]);
    throw new InvalidDocumentException(
        List.of(
            new Fault(
                new Place(source, line, 1, "").toString(),
                found,
                "text in UTF-8; save or export the file as UTF-8")));
  }

  /**
   * Writes a file whole or not at all: a reader at any moment finds the old text or the new one.
   *
   * @param file where to; through a symbolic link, the file that it points to
   * @param text written as UTF-8
   * @param overwrite whether an existing file may be replaced
   * @throws FileAlreadyExistsException where the file exists and may not be replaced
   * @throws IOException where it cannot be written; the old file, if any, is untouched
   */
  public static void write(Path file, String text, boolean overwrite) throws IOException {
    try (Prepared prepared = prepare(file, text, overwrite)) {
      prepared.commit();
    }
  }

  /**
   * Writes a text beside the file that it is for, so that little can go wrong once it is to take
   * the file's name.
   *
   * @param file where to; through a symbolic link, the file that it points to
   * @param text written as UTF-8
   * @param overwrite whether an existing file may be replaced
   * @return to be committed, or closed without
   * @throws FileAlreadyExistsException where the file exists and may not be replaced
   * @throws IOException where it cannot be written; the old file, if any, is untouched
   */
  public static Prepared prepare(Path file, String text, boolean overwrite) throws IOException {
    Path target = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
    if (Files.exists(target)) {
      if (!Files.isRegularFile(target)) {
        throw new IOException(file + " is not a regular file.");
      }
      if (!overwrite) {
        throw new FileAlreadyExistsException(file.toString(), null, "it exists already");
      }
    }
    @Nullable Path folder = target.getParent();
    @Nullable Path name = target.getFileName();
    if (folder == null || name == null || !Files.isDirectory(folder)) {
      throw new NoSuchFileException(String.valueOf(folder), null, "no such folder");
    }
    Path part = folder.resolve("." + name + "." + ProcessHandle.current().pid() + ".part");
    Prepared prepared = new Prepared(target, part, overwrite);
    try {
      writePart(part, text);
      return prepared;
    } catch (IOException e) {
      prepared.close();
      throw e;
    }
  }

  /** A text that lies beside the file whose name it is to take. */
  public static final class Prepared implements AutoCloseable {
    private final Path target;
    private final Path part;
    private final boolean overwrite;

    private Prepared(Path target, Path part, boolean overwrite) {
      this.target = target;
      this.part = part;
      this.overwrite = overwrite;
    }

    /**
     * Lets the text take the file's name; a reader at any moment finds the old text or the new one.
     *
     * @throws FileAlreadyExistsException where the file has appeared since, and may not be replaced
     * @throws IOException where it cannot be written; the old file, if any, is untouched
     */
    public void commit() throws IOException {
      if (overwrite) {
        keepPermissions(target, part);
        Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
      } else {
        // Without an option the move refuses a file that has appeared since.
        Files.move(part, target);
      }
    }

    /** Takes away what has not been committed. */
    @Override
    public void close() throws IOException {
      Files.deleteIfExists(part);
    }
  }

  private static void writePart(Path part, String text) throws IOException {
    try (FileChannel channel =
        FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      ByteBuffer bytes = StandardCharsets.UTF_8.newEncoder().encode(CharBuffer.wrap(text));
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      // On the disk before it takes the old file's place.
      channel.force(true);
    }
  }

  private static void keepPermissions(Path from, Path to) throws IOException {
    PosixFileAttributeView old =
        Files.getFileAttributeView(from, PosixFileAttributeView.class, LinkOption.NOFOLLOW_LINKS);
    PosixFileAttributeView fresh =
        Files.getFileAttributeView(to, PosixFileAttributeView.class, LinkOption.NOFOLLOW_LINKS);
    if (old != null && fresh != null && Files.exists(from)) {
      fresh.setPermissions(old.readAttributes().permissions());
    }
  }
}
