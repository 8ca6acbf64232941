package quadrille.document;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/** Where a file is, what is there, and which thread of this process is at it. */
public final class FilePlace {

  /** One process's threads; the operating system's locks are only between processes. */
  private static final Map<Path, ReentrantLock> THREADS = new ConcurrentHashMap<>();

  private FilePlace() {}

  /**
   * Looks at a file that is to be read bit by bit, whatever its size.
   *
   * @throws IOException where it is no regular file
   */
  public static BasicFileAttributes regular(Path file) throws IOException {
    BasicFileAttributes is = Files.readAttributes(file, BasicFileAttributes.class);
    if (is.isDirectory()) {
      throw new FileSystemException(file.toString(), null, "it is a folder");
    }
    if (!is.isRegularFile()) {
      throw new FileSystemException(
          file.toString(), null, "it is a device, a pipe or a socket, not a file");
    }
    return is;
  }

  /** The file itself: through symbolic links, by one name for all. */
  static Path target(Path file) throws IOException {
    if (Files.exists(file)) {
      return file.toRealPath();
    }
    Path absolute = file.toAbsolutePath().normalize();
    Path folder = absolute.getParent();
    Path name = absolute.getFileName();
    if (folder == null || name == null || !Files.isDirectory(folder)) {
      throw new NoSuchFileException(String.valueOf(folder), null, "no such folder");
    }
    return folder.toRealPath().resolve(name);
  }

  static Path folder(Path target) {
    @Nullable Path folder = target.getParent();
    return folder == null ? target : folder;
  }

  static ReentrantLock thread(Path target) {
    return THREADS.computeIfAbsent(target, key -> new ReentrantLock());
  }
}
