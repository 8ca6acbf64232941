package quadrille.document;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Set;
import java.util.concurrent.locks.ReentrantLock;
import quadrille.document.FileSteps.Step;

/** A file that is only appended to, locked for as long as it is open. */
public final class FileLog implements AutoCloseable {
  private static final int PIECE = 1 << 16;

  private final FileRules rules;
  private final FileSteps steps;
  private final Path file;
  private final ReentrantLock thread;
  private final FileChannel channel;

  FileLog(FileRules rules, FileSteps steps, Path file, Path target, boolean writing)
      throws IOException {
    this.rules = rules;
    this.steps = steps;
    this.file = file;
    // Locks of one process do not keep out its own threads, and end where one of them reads.
    this.thread = FilePlace.thread(target);
    thread.lock();
    boolean open = false;
    try {
      channel = open(target, writing);
      open = true;
    } finally {
      if (!open) {
        thread.unlock();
      }
    }
  }

  private static FileChannel open(Path target, boolean writing) throws IOException {
    FileChannel channel =
        FileChannel.open(
            target,
            writing
                ? Set.of(StandardOpenOption.READ, StandardOpenOption.WRITE)
                : Set.of(StandardOpenOption.READ));
    try {
      FileLock lock = channel.lock(0, Long.MAX_VALUE, !writing);
      if (lock.isValid()) {
        return channel;
      }
      throw new IOException("the file could not be locked");
    } catch (IOException failed) {
      channel.close();
      throw failed;
    }
  }

  /** All that is there. */
  public byte[] bytes() throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate(Math.toIntExact(channel.size()));
    while (buffer.hasRemaining() && channel.read(buffer, buffer.position()) >= 0) {
      // Until all of it is here.
    }
    return Arrays.copyOf(buffer.array(), buffer.position());
  }

  /**
   * Appends, and has it on the disk when this returns.
   *
   * @param from where to; what is there from here on, such as an entry that was cut off, is dropped
   * @throws IOException where it cannot be written; what came before is as it was
   */
  public void append(long from, byte[] bytes) throws IOException {
    if (from + bytes.length > rules.mostBytes()) {
      throw new FileSystemException(
          file.toString(),
          null,
          "it would have more than "
              + rules.mostBytes()
              + " bytes; "
              + FileRules.MOST_MEGABYTES
              + " sets that");
    }
    try {
      steps.before(Step.TRUNCATE, file);
      channel.truncate(from);
      ByteBuffer left = ByteBuffer.wrap(bytes);
      while (left.hasRemaining()) {
        steps.before(Step.WRITE, file);
        ByteBuffer piece = left.slice(left.position(), Math.min(PIECE, left.remaining()));
        left.position(left.position() + channel.write(piece, from + left.position()));
      }
      steps.before(Step.SYNC, file);
      channel.force(true);
    } catch (IOException failed) {
      takeBack(from, failed);
      throw failed;
    }
  }

  private void takeBack(long length, IOException failed) {
    try {
      channel.truncate(length);
    } catch (IOException also) {
      // The part that stays is left out by readers.
      failed.addSuppressed(also);
    }
  }

  @Override
  public void close() throws IOException {
    try {
      channel.close();
    } finally {
      thread.unlock();
    }
  }
}
