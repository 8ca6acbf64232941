package quadrille.document;

import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What a practice may set about its files.
 *
 * @param mostBytes a larger file is not read, and none is written; 32 MiB unless set otherwise
 * @param fresh who may read and write a new file, where the file system knows owner, group and
 *     others; its owner alone unless set otherwise. A file that is replaced keeps its own
 * @param anywhere whether a file that a document names may lie elsewhere than beneath that
 *     document's folder; not unless set otherwise
 */
public record FileRules(long mostBytes, Set<PosixFilePermission> fresh, boolean anywhere) {

  /** Largest file that is read, in megabytes of 1,048,576 bytes. */
  public static final String MOST_MEGABYTES = "QUADRILLE_MOST_MEGABYTES";

  /** Mode of new files, three octal digits. */
  public static final String FILE_MODE = "QUADRILLE_FILE_MODE";

  /** {@code beneath} or {@code anywhere}. */
  public static final String CALENDARS = "QUADRILLE_CALENDARS";

  private static final int MEGABYTE = 1 << 20;
  private static final int MOST = 1024;
  private static final Pattern MODE = Pattern.compile("[67][0-7][0-7]");

  static final Set<PosixFilePermission> OWNER =
      Set.copyOf(PosixFilePermissions.fromString("rw-------"));

  /** What holds where nothing is set. */
  public static final FileRules USUAL = new FileRules(32L * MEGABYTE, OWNER, false);

  public FileRules {
    fresh = Set.copyOf(fresh);
  }

  /**
   * The rules that an environment sets.
   *
   * @throws IllegalArgumentException where a setting is none, a sentence for its user
   */
  public static FileRules of(Map<String, String> environment) {
    String megabytes = environment.getOrDefault(MOST_MEGABYTES, "32");
    if (!megabytes.matches("[1-9][0-9]{0,3}") || Integer.parseInt(megabytes) > MOST) {
      throw wrong(MOST_MEGABYTES, megabytes, "a whole number from 1 to " + MOST);
    }
    String mode = environment.getOrDefault(FILE_MODE, "600");
    if (!MODE.matcher(mode).matches()) {
      throw wrong(FILE_MODE, mode, "three octal digits from 600 to 777, such as 640");
    }
    String calendars = environment.getOrDefault(CALENDARS, "beneath");
    if (!calendars.equals("beneath") && !calendars.equals("anywhere")) {
      throw wrong(CALENDARS, calendars, "beneath or anywhere");
    }
    return new FileRules(
        (long) MEGABYTE * Integer.parseInt(megabytes), mode(mode), calendars.equals("anywhere"));
  }

  /** Who may look into a new folder: whoever may read a new file. */
  Set<PosixFilePermission> freshFolder() {
    Set<PosixFilePermission> permissions = EnumSet.noneOf(PosixFilePermission.class);
    permissions.addAll(fresh);
    for (PosixFilePermission one : fresh) {
      if (one.name().endsWith("_READ")) {
        permissions.add(PosixFilePermission.valueOf(one.name().replace("_READ", "_EXECUTE")));
      }
    }
    return permissions;
  }

  private static IllegalArgumentException wrong(String setting, String found, String allowed) {
    return new IllegalArgumentException(
        setting + ": is " + FaultWords.quote(found) + "; allowed: " + allowed + ".");
  }

  private static Set<PosixFilePermission> mode(String octal) {
    int bits = Integer.parseInt(octal, 8);
    Set<PosixFilePermission> permissions = EnumSet.noneOf(PosixFilePermission.class);
    for (PosixFilePermission one : PosixFilePermission.values()) {
      // In the order of the bits, from the owner's reading down.
      if ((bits >> (PosixFilePermission.values().length - 1 - one.ordinal()) & 1) == 1) {
        permissions.add(one);
      }
    }
    return permissions;
  }
}
