package quadrille.diary.file;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CalendarLink;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryReader;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.calendar.CalendarReader;
import quadrille.diary.calendar.Interval;
import quadrille.document.Fault;
import quadrille.document.FileStore;
import quadrille.document.FileTurn;
import quadrille.document.FilesTogether;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;

/**
 * Diary files on disk. A diary is read with the bytes of the calendars that it names, and its
 * revision tells whether any of these has changed since.
 *
 * <p>{@link #replace} holds the {@linkplain FileTurn turn} while it looks and writes. Of two
 * processes that would replace the same revision, one does, and the other is told.
 */
public final class DiaryFile {

  private DiaryFile() {}

  /**
   * Reads a diary and the calendars that it names.
   *
   * @throws InvalidDocumentException with every fault of the diary, or where a calendar cannot be
   *     read; faults within calendars come to light in {@link LoadedDiary#over}
   * @throws IOException where the diary cannot be read
   */
  public static LoadedDiary read(Path file) throws IOException, InvalidDocumentException {
    return read(file, FileStore.USUAL);
  }

  /** Reads a diary as {@link #read(Path)} does, by the rules of a store. */
  public static LoadedDiary read(Path file, FileStore store)
      throws IOException, InvalidDocumentException {
    byte[] bytes = store.bytes(file);
    String name = name(file);
    Diary diary = DiaryReader.read(name, TextFiles.decode(name, bytes));
    Map<String, byte[]> calendars =
        calendars(file, diary.calendars().stream().map(CalendarLink::file).toList(), store);
    return new LoadedDiary(diary, revision(bytes, calendars), readers(diary, calendars));
  }

  /**
   * Replaces a diary by another, whole or not at all.
   *
   * @param read the diary as it was read; it must still be the one on disk
   * @param diary without the busy times of calendars, or with: they are not written
   * @param now what ended then or before is history
   * @param store by whose rules it is written
   * @throws ChangedDiaryException where the diary or one of its calendars has changed, or is gone
   * @throws RefusedDiaryException where the audit finds something that the change makes, or makes
   *     worse
   * @throws InvalidDocumentException where a linked calendar cannot be read, or the new diary could
   *     not be read again, such as one that names somebody who is no longer in it
   * @throws IOException where the file cannot be written; the old one is untouched
   */
  public static void replace(Path file, LoadedDiary read, Diary diary, Instant now, FileStore store)
      throws IOException, ChangedDiaryException, RefusedDiaryException, InvalidDocumentException {
    replace(file, read, diary, now, store, finding -> false);
  }

  /**
   * The same.
   *
   * @param allowed what the change may make
   */
  public static void replace(
      Path file,
      LoadedDiary read,
      Diary diary,
      Instant now,
      FileStore store,
      Predicate<DiaryFinding> allowed)
      throws IOException, ChangedDiaryException, RefusedDiaryException, InvalidDocumentException {
    try (FileTurn turn = store.turn(file)) {
      if (!read.revision().equals(onDisk(file, read, store))) {
        throw new ChangedDiaryException(file.toString());
      }
      List<DiaryFinding> made = made(read, diary, now).stream().filter(allowed.negate()).toList();
      if (!made.isEmpty()) {
        throw new RefusedDiaryException(made);
      }
      String text = DiaryWriter.write(diary);
      DiaryReader.read("the new " + name(file), text);
      turn.replace(text);
    }
  }

  /**
   * What the audit finds in a diary that is to take another's place.
   *
   * @param now what ended then or before is history
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static DiaryVerdict verdict(LoadedDiary read, Diary after, Instant now)
      throws InvalidDocumentException {
    Touched touched = Touched.between(read.diary(), after);
    List<DiaryFinding> was = audit(read, now);
    Map<String, List<DiaryFinding>> byBooking = new LinkedHashMap<>();
    was.forEach(one -> byBooking.computeIfAbsent(one.booking(), id -> new ArrayList<>()).add(one));
    Map<String, List<DiaryFinding>> again = new LinkedHashMap<>();
    audit(read.with(after), now, touched)
        .forEach(one -> again.computeIfAbsent(one.booking(), id -> new ArrayList<>()).add(one));
    List<DiaryFinding> is = new ArrayList<>();
    for (Booking booking : after.bookings()) {
      is.addAll((touched.test(booking) ? again : byBooking).getOrDefault(booking.id(), List.of()));
    }
    return DiaryVerdict.of(read.diary(), was, after, is);
  }

  /**
   * Of what the audit finds in a diary that is to take another's place, what the change makes, or
   * makes worse; only what it can touch is looked at.
   *
   * @param now what ended then or before is history
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static List<DiaryFinding> made(LoadedDiary read, Diary after, Instant now)
      throws InvalidDocumentException {
    Touched touched = Touched.between(read.diary(), after);
    return DiaryVerdict.of(
            read.diary(), audit(read, now, touched), after, audit(read.with(after), now, touched))
        .made();
  }

  /**
   * Reads a diary a second time, with what its calendars take while anything is booked.
   *
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public static List<DiaryFinding> audit(LoadedDiary loaded) throws InvalidDocumentException {
    return audit(loaded, Instant.MIN);
  }

  /**
   * The same.
   *
   * @param now what ended then or before is history
   */
  public static List<DiaryFinding> audit(LoadedDiary loaded, Instant now)
      throws InvalidDocumentException {
    return audit(loaded, now, booking -> true);
  }

  private static List<DiaryFinding> audit(
      LoadedDiary loaded, Instant now, Predicate<Booking> judged) throws InvalidDocumentException {
    Diary diary = loaded.diary();
    List<Interval> booked =
        diary.bookings().stream()
            .filter(Booking::coming)
            .filter(judged)
            .map(Booking::time)
            .filter(time -> time.end().isAfter(now))
            .sorted()
            .toList();
    if (booked.isEmpty()) {
      return List.of();
    }
    Instant end = booked.stream().map(Interval::end).max(Comparator.naturalOrder()).orElseThrow();
    return DiaryAudit.read(loaded.over(new Interval(booked.get(0).start(), end)), now, judged);
  }

  /**
   * The revision on disk; null where there is no diary any more, or a calendar cannot be read. A
   * diary that names other calendars than the one that was read is another one anyhow.
   */
  private static @Nullable String onDisk(Path file, LoadedDiary read, FileStore store)
      throws IOException {
    if (!Files.exists(file)) {
      return null;
    }
    try {
      return revision(store.bytes(file), calendars(file, read.calendars().keySet(), store));
    } catch (InvalidDocumentException changed) {
      return null;
    }
  }

  private static String name(Path file) {
    Path name = file.getFileName();
    return name == null ? file.toString() : name.toString();
  }

  private static Map<String, byte[]> calendars(Path file, Collection<String> named, FileStore store)
      throws InvalidDocumentException {
    Map<String, byte[]> calendars = new LinkedHashMap<>();
    List<Fault> faults = new ArrayList<>();
    FilesTogether together = store.together();
    for (String calendar : named) {
      if (calendars.containsKey(calendar)) {
        continue;
      }
      try {
        calendars.put(calendar, together.bytes(store.named(file, calendar)));
      } catch (IOException unreadable) {
        @Nullable String why =
            unreadable instanceof FileSystemException known ? known.getReason() : null;
        faults.add(
            new Fault(
                name(file) + " /calendars",
                "the calendar \""
                    + calendar
                    + "\", which cannot be read"
                    + (why == null ? "" : " (" + why + ")"),
                "a file in the folder of the diary, or a path from there"));
      }
    }
    if (!faults.isEmpty()) {
      throw new InvalidDocumentException(faults);
    }
    return calendars;
  }

  private static Map<String, CalendarReader> readers(Diary diary, Map<String, byte[]> calendars) {
    Map<String, CalendarReader> readers = new LinkedHashMap<>();
    calendars.forEach(
        (name, bytes) -> readers.put(name, new CalendarReader(name, bytes, diary.zone())));
    return readers;
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
