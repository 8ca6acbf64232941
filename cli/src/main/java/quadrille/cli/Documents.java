package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.Messages;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.FilePlace;
import quadrille.document.FilesTogether;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;

/** Files as commands name them: {@code -} stands for standard input or output. */
final class Documents {

  /** The name that stands for standard input or output. */
  static final String STANDARD = "-";

  private final Streams streams;
  private boolean inputTaken;

  Documents(Streams streams) {
    this.streams = streams;
  }

  /** What messages call a file. */
  static String name(String file) {
    return file.equals(STANDARD) ? "standard input" : file;
  }

  /**
   * The text of a whole file.
   *
   * @throws InvalidDocumentException where it is no UTF-8
   * @throws StopException where it cannot be read, or standard input is asked for a second time
   */
  String read(String file) throws InvalidDocumentException, StopException {
    return TextFiles.decode(name(file), bytes(file));
  }

  /**
   * Words that an option says, or where it says {@code -}, standard input: what stands on a command
   * line can be seen by every account of the machine.
   *
   * @throws InvalidDocumentException where they are no UTF-8
   * @throws StopException where standard input cannot be read, or is asked for a second time
   */
  String said(String option) throws InvalidDocumentException, StopException {
    return option.equals(STANDARD) ? read(STANDARD).strip() : option;
  }

  /**
   * The bytes of a whole file.
   *
   * @throws StopException where it cannot be read, or standard input is asked for a second time
   */
  byte[] bytes(String file) throws StopException {
    try {
      if (!file.equals(STANDARD)) {
        return streams.files().bytes(path(file));
      }
      takeInput();
      return streams.files().bytes(file, streams.in());
    } catch (IOException e) {
      throw StopException.file(name(file) + ": cannot be read: " + reason(e));
    }
  }

  /**
   * The bytes of a whole file that is read together with others.
   *
   * @throws StopException where it cannot be read, or standard input is asked for a second time
   */
  byte[] bytes(String file, FilesTogether together) throws StopException {
    try {
      if (!file.equals(STANDARD)) {
        return together.bytes(path(file));
      }
      takeInput();
      return together.bytes(file, streams.in());
    } catch (IOException e) {
      throw StopException.file(name(file) + ": cannot be read: " + reason(e));
    }
  }

  /** Reads files that are all wanted for one answer. */
  FilesTogether together() {
    return streams.files().together();
  }

  /**
   * Opens a file, or standard input, to be read piece by piece; the caller closes it.
   *
   * @throws StopException where it cannot be opened, or standard input is asked for a second time
   */
  InputStream open(String file) throws StopException {
    if (file.equals(STANDARD)) {
      takeInput();
      return streams.in();
    }
    try {
      Path path = path(file);
      FilePlace.regular(path);
      return Files.newInputStream(path);
    } catch (IOException e) {
      throw StopException.file(name(file) + ": cannot be read: " + reason(e));
    }
  }

  /** The folder of a name, or null where it names none. */
  static @Nullable Path folder(String file) throws StopException {
    if (file.equals(STANDARD)) {
      return null;
    }
    Path path = path(file);
    return Files.isDirectory(path) ? path : null;
  }

  private void takeInput() throws StopException {
    if (inputTaken) {
      throw StopException.usage("Only one file can be read from standard input (-).");
    }
    inputTaken = true;
  }

  /**
   * Checks, before long work is done for it, that a file may be written.
   *
   * @param force whether an existing file may be overwritten
   * @param inputs the files that the command reads; none of them may be overwritten
   * @throws StopException where it may not
   */
  static void checkWritable(String file, boolean force, @Nullable String... inputs)
      throws StopException {
    if (file.equals(STANDARD)) {
      return;
    }
    Path path = path(file);
    for (String input : inputs) {
      if (input != null && !input.equals(STANDARD) && same(path, path(input))) {
        throw StopException.usage(file + ": is read by this command and cannot be its output.");
      }
    }
    if (Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
      if (!Files.isRegularFile(path)) {
        throw StopException.usage(
            file + ": is not a regular file; for standard output write - instead.");
      }
      if (!force) {
        throw exists(file);
      }
    } else if (!Files.isDirectory(folder(path))) {
      throw StopException.file(file + ": cannot be written: there is no such folder.");
    }
  }

  /**
   * Writes a whole file or nothing: the text goes to a neighbour that then takes the file's name.
   *
   * @param expected what may be there; nothing else is overwritten
   * @throws StopException where something else is there, or it cannot be written
   */
  void write(String file, String text, Expected expected) throws StopException {
    try {
      if (file.equals(STANDARD)) {
        streams.out().write(text.getBytes(UTF_8));
        streams.out().flush();
      } else {
        streams.files().write(path(file), text, expected);
      }
    } catch (FileAlreadyExistsException e) {
      throw exists(file);
    } catch (ChangedFileException e) {
      throw StopException.refused(file + ": was not written: " + reason(e));
    } catch (IOException e) {
      String name = file.equals(STANDARD) ? "standard output" : file;
      throw StopException.file(name + ": cannot be written: " + reason(e));
    }
  }

  /** Says something on standard error. */
  void tell(String text) {
    text.lines().map(Messages::clean).forEach(streams.err()::println);
  }

  /** What is there now, to be given to {@link #write}. */
  static Expected present(String file, boolean force) throws StopException {
    if (!force || file.equals(STANDARD)) {
      return Expected.NOTHING;
    }
    try {
      return Expected.of(path(file));
    } catch (IOException e) {
      throw StopException.file(file + ": cannot be overwritten: " + reason(e));
    }
  }

  private static boolean same(Path one, Path other) throws StopException {
    try {
      return Files.exists(one) && Files.exists(other) && Files.isSameFile(one, other);
    } catch (IOException e) {
      throw StopException.file(one + ": cannot be written: " + reason(e));
    }
  }

  private static StopException exists(String file) {
    return StopException.usage(file + ": exists already; --force overwrites it.");
  }

  private static Path folder(Path path) {
    Path parent = path.toAbsolutePath().getParent();
    return parent == null ? path : parent;
  }

  /**
   * The path of a file's name.
   *
   * @throws StopException where it is none
   */
  static Path path(String file) throws StopException {
    if (file.isEmpty()) {
      throw StopException.usage("\"\": is no file name: it is empty.");
    }
    try {
      return Path.of(file);
    } catch (InvalidPathException e) {
      throw StopException.usage(file + ": is no file name: " + e.getReason() + ".");
    }
  }

  /** Why a file cannot be used, in words; the exceptions of the platform often say a name only. */
  static String reason(Exception e) {
    if (e instanceof NoSuchFileException) {
      return "there is no such file.";
    }
    if (e instanceof AccessDeniedException) {
      return "access is denied.";
    }
    if (e instanceof FileSystemException of && of.getReason() != null) {
      return of.getReason() + ".";
    }
    return e.getMessage() == null ? e.getClass().getSimpleName() + "." : e.getMessage() + ".";
  }
}
