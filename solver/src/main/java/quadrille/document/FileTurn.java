package quadrille.document;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import quadrille.document.FileSteps.Step;

/**
 * The turn to replace a file. It is held by an operating system's lock on a file beside it, {@code
 * .NAME.lock}, which ends with the process that holds it and is taken away with the turn.
 */
public final class FileTurn implements AutoCloseable {

  private final FileStore store;
  private final Path file;
  private final Path target;
  private final Path lock;
  private final ReentrantLock thread;
  private final FileChannel held;

  /** A second time open, by which the name was seen to be the locked file's still. */
  private final FileChannel again;

  FileTurn(FileStore store, Path file, Path target) throws IOException {
    this.store = store;
    this.file = file;
    this.target = target;
    this.lock = target.resolveSibling(FilePart.start(target) + "lock");
    this.thread = FilePlace.thread(lock);
    if (thread.isHeldByCurrentThread()) {
      throw new IllegalStateException("The turn for " + target + " is had already.");
    }
    thread.lock();
    FileChannel[] channels = new FileChannel[0];
    try {
      do {
        channels = attempt();
      } while (channels.length == 0);
    } finally {
      if (channels.length == 0) {
        thread.unlock();
      }
    }
    held = channels[0];
    again = channels[1];
  }

  /** The lock file open twice; empty where whoever held it has taken it away meanwhile. */
  private FileChannel[] attempt() throws IOException {
    if (Files.exists(lock, LinkOption.NOFOLLOW_LINKS)
        && !Files.isRegularFile(lock, LinkOption.NOFOLLOW_LINKS)) {
      throw new IOException(lock + " is in the way");
    }
    store.steps().before(Step.CREATE, lock);
    FileChannel first =
        FileChannel.open(
            lock,
            Set.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS),
            FilePart.own(lock));
    shareLikeTarget();
    @Nullable FileChannel second = null;
    boolean same = false;
    try {
      if (!first.lock().isValid()) {
        throw new IOException("the file could not be locked");
      }
      second = FileChannel.open(lock, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
      // Of two channels to one file, only one can be locked by a process, and Java says so.
      second.tryLock();
    } catch (NoSuchFileException taken) {
      // Away.
    } catch (OverlappingFileLockException ours) {
      same = true;
    } finally {
      if (!same) {
        first.close();
        if (second != null) {
          second.close();
        }
      }
    }
    return same && second != null ? new FileChannel[] {first, second} : new FileChannel[0];
  }

  /** Whoever may write the file may take turns at it, were its lock left by a killed process. */
  private void shareLikeTarget() {
    try {
      if (Files.exists(target)) {
        Files.setPosixFilePermissions(lock, Files.getPosixFilePermissions(target));
      }
    } catch (IOException | UnsupportedOperationException notOurs) {
      // Another's lock file, or a system without such permissions.
    }
  }

  /**
   * Checks that what is there is what was expected.
   *
   * @throws ChangedFileException where it is not
   * @throws IOException where it cannot be read
   */
  public void check(Expected expected) throws IOException {
    expected.check(file, target);
  }

  /**
   * Replaces the file, whole or not at all.
   *
   * @throws IOException where it cannot be written; the old file is untouched
   */
  public void replace(String text) throws IOException {
    try (PreparedFile prepared = store.prepare(target, text, Expected.ANYTHING)) {
      prepared.commitWithin(this);
    }
  }

  Path target() {
    return target;
  }

  @Override
  public void close() throws IOException {
    try (held;
        again) {
      store.steps().before(Step.DELETE, lock);
      Files.deleteIfExists(lock);
    } finally {
      thread.unlock();
    }
  }
}
