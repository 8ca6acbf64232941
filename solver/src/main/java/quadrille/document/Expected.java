package quadrille.document;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * What a writer believes to stand where it is about to write; anything else is left alone.
 *
 * @param any whether whatever stands there may be replaced
 * @param revision of the bytes that were read there, SHA-256 in hexadecimal digits; null where
 *     there was no file
 */
public record Expected(boolean any, @Nullable String revision) {

  private static final long MOST_BYTES = 1L << 30;

  /** No file: one that has appeared since is never written over. */
  public static final Expected NOTHING = new Expected(false, null);

  /** Whatever is there, unread. */
  public static final Expected ANYTHING = new Expected(true, null);

  /** The bytes that were read. */
  public static Expected bytes(byte[] read) {
    return hex(sha256().digest(read));
  }

  /**
   * Checks what stands there now.
   *
   * @param named as the user named it
   */
  void check(Path named, Path target) throws IOException {
    if (any) {
      return;
    }
    Expected now = of(target);
    if (!now.equals(this)) {
      throw new ChangedFileException(named.toString(), now);
    }
  }

  private static Expected hex(byte[] digest) {
    return new Expected(false, HexFormat.of().formatHex(digest));
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("Every Java platform has SHA-256.", impossible);
    }
  }

  /**
   * What stands there now; {@link #NOTHING} where nothing does.
   *
   * @throws IOException where it is no regular file, is huge, or cannot be read
   */
  public static Expected of(Path file) throws IOException {
    BasicFileAttributes is;
    try {
      is = FilePlace.regular(file);
    } catch (NoSuchFileException none) {
      return NOTHING;
    }
    if (is.size() > MOST_BYTES) {
      throw new FileSystemException(
          file.toString(), null, "a file of " + is.size() + " bytes there was never ours");
    }
    try (InputStream in = Files.newInputStream(file)) {
      MessageDigest digest = sha256();
      byte[] piece = new byte[1 << 16];
      for (int length = in.read(piece); length >= 0; length = in.read(piece)) {
        digest.update(piece, 0, length);
      }
      return hex(digest.digest());
    }
  }
}
