package quadrille.document;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.GroupPrincipal;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import quadrille.document.FileSteps.Step;

/**
 * A text on its way to a file's name. Its writer holds it locked, so that a part that can be locked
 * is nobody's: process numbers would not tell, since containers on one file system have their own.
 */
final class FilePart implements AutoCloseable {

  private static final String SUFFIX = ".quadrille.part";

  /** Ours, whatever it was for. */
  private static final Pattern PART = Pattern.compile("\\..*\\.[0-9]+" + Pattern.quote(SUFFIX));

  /** As parts of a file were named before; only looked for beside that file. */
  private static final Pattern OLD = Pattern.compile("[0-9]+\\.part");

  /** So many characters of a file's name, four bytes each at most: of 255 some are left. */
  private static final int LONGEST = 50;

  private static final int PIECE = 1 << 16;

  /**
   * This process's own, by which it is also guarded: to open and close one of them here would
   * unlock it.
   */
  private static final Set<Path> OWN = new HashSet<>();

  private final Path path;
  private final FileChannel channel;
  private final FileSteps steps;
  private boolean gone;

  private FilePart(Path path, FileChannel channel, FileSteps steps) {
    this.path = path;
    this.channel = channel;
    this.steps = steps;
  }

  /** Makes a part of a file, with all of its text on the disk. */
  static FilePart write(Path target, ByteBuffer bytes, FileSteps steps) throws IOException {
    sweep(target, steps);
    FilePart part = create(target, steps);
    try {
      part.fill(bytes);
      return part;
    } catch (IOException failed) {
      part.close();
      throw failed;
    } catch (Error ended) {
      part.let();
      throw ended;
    }
  }

  private static FilePart create(Path target, FileSteps steps) throws IOException {
    String start = start(target);
    while (true) {
      synchronized (OWN) {
        steps.before(Step.CREATE, target);
        // Exclusively, under a name that nobody else makes, and for the owner alone.
        Path path = Files.createTempFile(FilePlace.folder(target), start, SUFFIX);
        @Nullable FileChannel channel = locked(path, true);
        // Until it was locked, another writer may have taken it for a stray one.
        if (channel != null && Files.exists(path)) {
          OWN.add(path);
          return new FilePart(path, channel, steps);
        }
        if (channel != null) {
          channel.close();
        }
      }
    }
  }

  /** What the names of all begin with that lies beside a file for a while. */
  static String start(Path target) {
    String name = String.valueOf(target.getFileName());
    int first = Math.min(LONGEST, name.codePointCount(0, name.length()));
    return "." + name.substring(0, name.offsetByCodePoints(0, first)) + ".";
  }

  /** Opens and locks a part; null where it is gone, or somebody else's. */
  private static @Nullable FileChannel locked(Path path, boolean ours) throws IOException {
    FileChannel channel;
    try {
      channel = FileChannel.open(path, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
    } catch (NoSuchFileException swept) {
      return null;
    }
    try {
      if (ours ? channel.lock().isValid() : channel.tryLock() != null) {
        return channel;
      }
    } catch (OverlappingFileLockException held) {
      // By this process, as part of another file.
    } catch (IOException unlockable) {
      // A file system without locks: nobody there takes a part for a stray one.
      if (ours) {
        return channel;
      }
    }
    channel.close();
    return null;
  }

  /** Takes away the parts in a file's folder that nobody writes any more. */
  static void sweep(Path target, FileSteps steps) throws IOException {
    String start = "." + target.getFileName() + ".";
    try (DirectoryStream<Path> parts =
        Files.newDirectoryStream(FilePlace.folder(target), path -> part(path, start))) {
      for (Path part : parts) {
        synchronized (OWN) {
          if (!OWN.contains(part)) {
            drop(part, steps);
          }
        }
      }
    }
  }

  private static boolean part(Path path, String start) {
    String name = String.valueOf(path.getFileName());
    return PART.matcher(name).matches()
        || (name.startsWith(start) && OLD.matcher(name.substring(start.length())).matches());
  }

  private static void drop(Path part, FileSteps steps) throws IOException {
    if (!Files.isRegularFile(part, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    @Nullable FileChannel channel;
    try {
      channel = locked(part, false);
    } catch (IOException notOurs) {
      return;
    }
    if (channel != null) {
      try (channel) {
        steps.before(Step.DELETE, part);
        Files.deleteIfExists(part);
      }
    }
  }

  private void fill(ByteBuffer bytes) throws IOException {
    while (bytes.hasRemaining()) {
      steps.before(Step.WRITE, path);
      ByteBuffer piece = bytes.slice(bytes.position(), Math.min(PIECE, bytes.remaining()));
      bytes.position(bytes.position() + channel.write(piece));
    }
    // On the disk before it takes the old file's place.
    steps.before(Step.SYNC, path);
    channel.force(true);
  }

  /** Takes a name that nobody has. */
  void appear(Path target, Set<PosixFilePermission> fresh) throws IOException {
    open(fresh);
    steps.before(Step.LINK, target);
    try {
      // Exclusive, as a rename is not.
      Files.createLink(target, path);
    } catch (FileAlreadyExistsException taken) {
      throw taken;
    } catch (IOException | UnsupportedOperationException noLinks) {
      // Taken for good by an empty file, then.
      Files.createFile(target);
      steps.before(Step.RENAME, target);
      Files.move(path, target, StandardCopyOption.ATOMIC_MOVE);
      gone = true;
    }
    syncFolder(target);
  }

  /** Takes another's name, whose permissions it keeps. */
  void replace(Path target, Set<PosixFilePermission> fresh) throws IOException {
    if (Files.exists(target)) {
      resemble(target);
    } else {
      open(fresh);
    }
    steps.before(Step.RENAME, target);
    Files.move(path, target, StandardCopyOption.ATOMIC_MOVE);
    gone = true;
    syncFolder(target);
  }

  private void open(Set<PosixFilePermission> permissions) throws IOException {
    PosixFileAttributeView view = view(path);
    if (view != null && !permissions.equals(FileRules.OWNER)) {
      steps.before(Step.MODE, path);
      view.setPermissions(permissions);
    }
  }

  private void resemble(Path target) throws IOException {
    PosixFileAttributeView old = view(target);
    PosixFileAttributeView own = view(path);
    if (old == null || own == null) {
      return;
    }
    PosixFileAttributes wanted = old.readAttributes();
    Set<PosixFilePermission> permissions = EnumSet.noneOf(PosixFilePermission.class);
    permissions.addAll(wanted.permissions());
    GroupPrincipal group = wanted.group();
    if (!group.equals(own.readAttributes().group())) {
      try {
        own.setGroup(group);
      } catch (IOException notAllowed) {
        // What its group might do is not for another group.
        permissions.removeIf(one -> one.name().startsWith("GROUP"));
      }
    }
    open(permissions);
  }

  /** For its owner alone from the start, where the file system knows of owners. */
  static FileAttribute<?>[] own(Path path) {
    return view(path) == null
        ? new FileAttribute<?>[0]
        : new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(FileRules.OWNER)};
  }

  private static @Nullable PosixFileAttributeView view(Path path) {
    return Files.getFileAttributeView(
        path, PosixFileAttributeView.class, LinkOption.NOFOLLOW_LINKS);
  }

  /** The name on the disk, too, and not only the text. */
  private void syncFolder(Path target) throws IOException {
    steps.before(Step.SYNC_FOLDER, target);
    try (FileChannel folder = FileChannel.open(FilePlace.folder(target), StandardOpenOption.READ)) {
      folder.force(true);
    } catch (IOException unsupported) {
      // Not every system opens folders; the file is whole either way.
    }
  }

  /** Takes away what has not taken a name. */
  @Override
  public void close() throws IOException {
    try {
      if (!gone && channel.isOpen()) {
        steps.before(Step.DELETE, path);
        Files.deleteIfExists(path);
      }
    } finally {
      gone = true;
      let();
    }
  }

  private void let() throws IOException {
    synchronized (OWN) {
      OWN.remove(path);
      channel.close();
    }
  }
}
