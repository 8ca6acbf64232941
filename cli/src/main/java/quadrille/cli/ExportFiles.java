package quadrille.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.CardText;
import quadrille.cli.render.MindWords;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingCalendars;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Journal;
import quadrille.diary.exchange.FhirBundle;
import quadrille.document.Expected;
import quadrille.document.FileStore;
import quadrille.facts.practice.Contact;
import quadrille.facts.practice.Practice;

/**
 * What a diary holds, as files for other programs and for patients. They can be made again at any
 * time, so that none that was lost is lost for good.
 */
final class ExportFiles {

  private final Diary diary;
  private final @Nullable String practiceName;
  private final Contact contact;
  private final Instant now;

  /**
   * @param practice whose name patients are told; null where it is not
   */
  ExportFiles(Diary diary, @Nullable Practice practice, Instant now) {
    this.diary = diary;
    this.practiceName = practice == null ? null : practice.name();
    this.contact = practice == null ? Contact.NONE : practice.contact();
    this.now = now;
  }

  /**
   * All files, by their path in the folder.
   *
   * @param caseName of one course; null for all, and the practice's own calendar
   */
  Map<String, String> all(@Nullable String caseName) {
    // The same diary gives the same bytes, as soon as it has been changed once.
    Instant stamp = Journal.changed(diary).orElse(now);
    List<Booking> told = Journal.told(diary);
    Map<String, String> files = new LinkedHashMap<>();
    if (caseName == null) {
      files.put("practice.ics", BookingCalendars.forPractice(diary, told, MindWords::of, stamp));
      BookingCalendars.eventsForPractice(diary, told, MindWords::of, stamp)
          .forEach((name, text) -> files.put("events/" + name, text));
    }
    for (String of : cases(diary)) {
      if (caseName == null || of.equals(caseName)) {
        String at = "courses/" + folder(of) + "/";
        List<Booking> own = told.stream().filter(one -> one.caseName().equals(of)).toList();
        files.put(
            at + "appointments.ics",
            BookingCalendars.forPatient(diary, own, practiceName, contact, stamp));
        if (diary.course(of).isPresent()) {
          files.put(at + "course.fhir.json", FhirBundle.of(diary, of));
        }
        files.put(
            at + "card.txt",
            CardText.of(
                diary,
                own.stream()
                    .filter(one -> one.coming() && one.end().isAfter(now))
                    .sorted(Comparator.comparing(Booking::start))
                    .toList(),
                practiceName,
                contact));
      }
    }
    return files;
  }

  /** The cases of all that is told: also of a course that was taken back with its visits. */
  static Set<String> cases(Diary diary) {
    Set<String> cases = new LinkedHashSet<>();
    diary.courses().forEach(course -> cases.add(course.caseName()));
    Journal.told(diary).forEach(booking -> cases.add(booking.caseName()));
    return cases;
  }

  /** A case as every file system takes it; no two cases have the same. */
  private static String folder(String caseName) {
    StringBuilder safe = new StringBuilder();
    for (byte one : caseName.getBytes(StandardCharsets.UTF_8)) {
      boolean plain =
          one >= 'a' && one <= 'z'
              || one >= 'A' && one <= 'Z'
              || one >= '0' && one <= '9'
              || one == '-';
      safe.append(plain ? String.valueOf((char) one) : "_" + Integer.toHexString(one & 0xFF));
    }
    return safe.toString();
  }

  /**
   * Writes files into a folder, each whole or not at all; one that is there with the same bytes
   * stays.
   *
   * @param force whether others may be written over
   * @return how many were written
   */
  static int write(FileStore store, String folder, Map<String, String> files, boolean force)
      throws StopException {
    Path root = Documents.path(folder);
    Map<Path, Expected> expected = new LinkedHashMap<>();
    Map<Path, String> texts = new LinkedHashMap<>();
    List<String> there = new ArrayList<>();
    try {
      for (Map.Entry<String, String> file : files.entrySet()) {
        Path path = root.resolve(file.getKey());
        if (!Files.exists(path)) {
          expected.put(path, Expected.NOTHING);
          texts.put(path, file.getValue());
          continue;
        }
        byte[] bytes = store.bytes(path);
        if (!Arrays.equals(bytes, file.getValue().getBytes(StandardCharsets.UTF_8))) {
          there.add(path.toString());
          expected.put(path, Expected.bytes(bytes));
          texts.put(path, file.getValue());
        }
      }
      if (!there.isEmpty() && !force) {
        throw StopException.usage(
            there.get(0)
                + (there.size() == 1 ? "" : " and " + (there.size() - 1) + " more")
                + ": exists already and is another; --force overwrites it.");
      }
      for (Map.Entry<Path, String> text : texts.entrySet()) {
        store.folder(Objects.requireNonNull(text.getKey().getParent()));
        store.write(
            text.getKey(), text.getValue(), expected.getOrDefault(text.getKey(), Expected.NOTHING));
      }
      return texts.size();
    } catch (FileAlreadyExistsException somebodyElse) {
      throw StopException.refused(
          somebodyElse.getFile() + ": was written by somebody else meanwhile. Export again.");
    } catch (IOException e) {
      throw StopException.file(
          folder + ": cannot be written: " + Documents.reason(e) + " Export again.");
    }
  }
}
