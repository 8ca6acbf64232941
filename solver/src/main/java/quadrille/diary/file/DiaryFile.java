package quadrille.diary.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CalendarLink;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryReader;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.calendar.Interval;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;

/**
 * Diary files on disk. A diary is read with the bytes of the calendars that it names, and its
 * revision tells whether any of these has changed since.
 *
 * <p>{@link #replace} holds a lock while it looks and writes: an operating system's lock on a file
 * beside the diary, {@code .NAME.lock}, which stays there and ends with the process that holds it.
 * Of two processes that would replace the same revision, one does, and the other is told.
 */
public final class DiaryFile {

  /** One process's threads; the operating system's lock is only between processes. */
  private static final Map<Path, ReentrantLock> THREADS = new ConcurrentHashMap<>();

  private DiaryFile() {}

  /**
   * Reads a diary and the calendars that it names.
   *
   * @throws InvalidDocumentException with every fault of the diary, or where a calendar cannot be
   *     read; faults within calendars come to light in {@link LoadedDiary#over}
   * @throws IOException where the diary cannot be read
   */
  public static LoadedDiary read(Path file) throws IOException, InvalidDocumentException {
    byte[] bytes = Files.readAllBytes(file);
    String name = name(file);
    Diary diary = DiaryReader.read(name, TextFiles.decode(name, bytes));
    Map<String, byte[]> calendars = calendars(file, diary);
    return new LoadedDiary(diary, revision(bytes, calendars), calendars);
  }

  /**
   * Replaces a diary by another, whole or not at all.
   *
   * @param revision of the diary as it was read; it must still be the one on disk
   * @param diary without the busy times of calendars, or with: they are not written
   * @throws ChangedDiaryException where the diary or one of its calendars has changed, or is gone
   * @throws RefusedDiaryException where the audit finds something in the new diary
   * @throws InvalidDocumentException where a linked calendar cannot be read
   * @throws IOException where the file cannot be written; the old one is untouched
   */
  public static void replace(Path file, String revision, Diary diary)
      throws IOException, ChangedDiaryException, RefusedDiaryException, InvalidDocumentException {
    Path target = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
    ReentrantLock thread = THREADS.computeIfAbsent(target, key -> new ReentrantLock());
    thread.lock();
    try (FileChannel channel =
            FileChannel.open(
                target.resolveSibling("." + name(target) + ".lock"),
                StandardOpenOption.CREATE,
                StandardOpenOption.WRITE);
        FileLock lock = channel.lock()) {
      if (!lock.isValid() || !revision.equals(onDisk(target))) {
        throw new ChangedDiaryException(file.toString());
      }
      List<DiaryFinding> findings =
          audit(new LoadedDiary(diary, revision, calendars(target, diary)));
      if (!findings.isEmpty()) {
        throw new RefusedDiaryException(findings);
      }
      clear(target);
      TextFiles.write(target, DiaryWriter.write(diary), true);
    } finally {
      thread.unlock();
    }
  }

  /** What a process left that was killed while it wrote; nobody else writes under the lock. */
  private static void clear(Path target) throws IOException {
    Path folder = target.toAbsolutePath().getParent();
    if (folder != null) {
      try (DirectoryStream<Path> parts =
          Files.newDirectoryStream(folder, part -> left(target, part))) {
        for (Path part : parts) {
          Files.deleteIfExists(part);
        }
      }
    }
  }

  private static boolean left(Path target, Path part) {
    String name = name(part);
    String start = "." + name(target) + ".";
    return name.startsWith(start) && name.substring(start.length()).matches("[0-9]+\\.part");
  }

  /**
   * Reads a diary a second time, with what its calendars take while anything is booked.
   *
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static List<DiaryFinding> audit(LoadedDiary loaded) throws InvalidDocumentException {
    Diary diary = loaded.diary();
    List<Interval> booked =
        diary.bookings().stream()
            .filter(booking -> booking.status().takesTime())
            .filter(booking -> booking.status() != BookingStatus.DONE)
            .map(Booking::time)
            .sorted()
            .toList();
    if (booked.isEmpty()) {
      return DiaryAudit.read(diary);
    }
    Instant end = booked.stream().map(Interval::end).max(Comparator.naturalOrder()).orElseThrow();
    return DiaryAudit.read(loaded.over(new Interval(booked.get(0).start(), end)));
  }

  /** The revision on disk; null where there is no diary any more, or none that can be read. */
  private static @Nullable String onDisk(Path file) throws IOException {
    if (!Files.exists(file)) {
      return null;
    }
    try {
      return read(file).revision();
    } catch (InvalidDocumentException changed) {
      return null;
    }
  }

  private static String name(Path file) {
    Path name = file.getFileName();
    return name == null ? file.toString() : name.toString();
  }

  private static Map<String, byte[]> calendars(Path file, Diary diary)
      throws InvalidDocumentException {
    Map<String, byte[]> calendars = new LinkedHashMap<>();
    List<Fault> faults = new ArrayList<>();
    for (CalendarLink link : diary.calendars()) {
      if (calendars.containsKey(link.file())) {
        continue;
      }
      try {
        calendars.put(link.file(), Files.readAllBytes(file.resolveSibling(link.file())));
      } catch (IOException unreadable) {
        faults.add(
            new Fault(
                name(file) + " /calendars",
                "the calendar \"" + link.file() + "\", which cannot be read",
                "a file in the folder of the diary, or a path from there"));
      }
    }
    if (!faults.isEmpty()) {
      throw new InvalidDocumentException(faults);
    }
    return calendars;
  }

  private static String revision(byte[] diary, Map<String, byte[]> calendars) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      add(digest, diary);
      for (Map.Entry<String, byte[]> calendar : calendars.entrySet()) {
        add(digest, calendar.getKey().getBytes(StandardCharsets.UTF_8));
        add(digest, calendar.getValue());
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("Every Java platform has SHA-256.", impossible);
    }
  }

  /** With its length in front, so that no two lists of texts look alike. */
  private static void add(MessageDigest digest, byte[] bytes) {
    digest.update((bytes.length + "\n").getBytes(StandardCharsets.UTF_8));
    digest.update(bytes);
  }
}
