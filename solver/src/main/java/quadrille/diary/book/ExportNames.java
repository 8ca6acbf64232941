package quadrille.diary.book;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.UUID;
import java.util.random.RandomGenerator;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Identifiers for what leaves the practice: the same for the same thing of the same diary, so that
 * what is exported again replaces what was there, and worth nothing without the diary's key. Cases
 * are numbered so that all of them can be tried; without the key, trying tells nothing.
 */
public final class ExportNames {

  /** Hexadecimal digits of a key. */
  static final int KEY_LENGTH = 32;

  private static final String METHOD = "HmacSHA256";
  private static final int BYTES = 16;

  private final SecretKeySpec key;

  private ExportNames(String key) {
    this.key = new SecretKeySpec(HexFormat.of().parseHex(key), METHOD);
  }

  /**
   * The identifiers of a diary.
   *
   * @throws IllegalArgumentException if it has no key
   */
  public static ExportNames of(Diary diary) {
    String key = diary.exportKey();
    if (key == null) {
      throw new IllegalArgumentException("The diary has no key for exports; keyed(...) gives one.");
    }
    return new ExportNames(key);
  }

  /**
   * A diary that has a key: itself, if it has one.
   *
   * @param chance that nobody can guess
   */
  public static Diary keyed(Diary diary, RandomGenerator chance) {
    if (diary.exportKey() != null) {
      return diary;
    }
    byte[] key = new byte[KEY_LENGTH / 2];
    chance.nextBytes(key);
    return diary.withExportKey(HexFormat.of().formatHex(key));
  }

  static boolean isKey(String text) {
    return text.length() == KEY_LENGTH
        && text.chars().allMatch(c -> c >= '0' && c <= '9' || c >= 'a' && c <= 'f');
  }

  /**
   * An identifier as 32 hexadecimal digits.
   *
   * @param use what it is an identifier for; one thing has another for each use
   * @param id of the thing in the diary
   */
  public String digits(String use, String id) {
    return HexFormat.of().formatHex(bytes(use, id));
  }

  /** The same as a UUID of the version that leaves the bits to whoever makes it (RFC 9562: 8). */
  public UUID uuid(String use, String id) {
    byte[] bytes = bytes(use, id);
    bytes[6] = (byte) (bytes[6] & 0x0F | 0x80);
    bytes[8] = (byte) (bytes[8] & 0x3F | 0x80);
    String hex = HexFormat.of().formatHex(bytes);
    return new UUID(
        Long.parseUnsignedLong(hex, 0, 16, 16), Long.parseUnsignedLong(hex, 16, 32, 16));
  }

  private byte[] bytes(String use, String id) {
    try {
      Mac mac = Mac.getInstance(METHOD);
      mac.init(key);
      return Arrays.copyOf(mac.doFinal((use + "\n" + id).getBytes(StandardCharsets.UTF_8)), BYTES);
    } catch (GeneralSecurityException impossible) {
      throw new IllegalStateException("Every Java platform has HmacSHA256.", impossible);
    }
  }
}
