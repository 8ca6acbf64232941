package quadrille.diary.desk;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Journal;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.Signature;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Rebooker;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.desk.RebookingAnswer.Rebooked;
import quadrille.diary.file.ChangedDiaryException;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** New times after changes, audited, and the diary replaced by what was found. */
public final class RebookingDesk {

  private RebookingDesk() {}

  /**
   * Finds new times.
   *
   * @param changes at least one
   * @param first day on which something may be booked
   * @param last such day, not before the first
   * @param now what ended then or before is history
   * @throws InvalidDocumentException with every fault of a calendar
   * @throws RefusedDiaryException where the audit finds something in the new diary
   */
  public static RebookingAnswer rebook(
      LoadedDiary read,
      List<DiaryChange> changes,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      Instant now)
      throws InvalidDocumentException, RefusedDiaryException {
    return rebook(read, changes, weights, first, last, now, null);
  }

  /**
   * The same.
   *
   * @param longer by how much a clinician lets the gaps grow of the courses whose bookings the
   *     changes name; null where nothing is said, and what the diary knows holds
   */
  public static RebookingAnswer rebook(
      LoadedDiary read,
      List<DiaryChange> changes,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      Instant now,
      @Nullable LongerGaps longer)
      throws InvalidDocumentException, RefusedDiaryException {
    List<RebookingAnswer.Fault> faults = faults(read.diary(), changes);
    if (!faults.isEmpty()) {
      return new RebookingAnswer.Unworkable(faults);
    }
    Diary whole = allowed(read.over(LoadedDiary.days(read.diary(), first, last)), changes, longer);
    Rebooking rebooking = Rebooker.of(whole, changes, weights, first, last, now);
    Instant from = first.atStartOfDay(read.diary().zone()).toInstant();
    Instant settled = from.isBefore(now) ? from : now;
    BookingDesk.audit(read, rebooking.diary(), settled);
    return new Rebooked(read, rebooking, settled);
  }

  /**
   * Replaces the diary on disk by the new one, whole or not at all.
   *
   * @param signed who rebooks, when and why
   * @param store by whose rules it is written
   * @return false where the diary is not the one any more that was read; nothing was written
   * @throws InvalidDocumentException where a calendar cannot be read
   * @throws RefusedDiaryException where the audit finds something; nothing was written
   * @throws IOException where the diary cannot be written; the old one is untouched
   */
  public static boolean write(Path file, Rebooked rebooked, Signature signed, FileStore store)
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    try {
      Diary after =
          Journal.entered(
              rebooked.read().diary(),
              rebooked.rebooking().diary(),
              Deed.REBOOK,
              signed,
              rebooked.why());
      DiaryFile.replace(file, rebooked.read(), after, rebooked.settled(), store);
      return true;
    } catch (ChangedDiaryException changed) {
      return false;
    }
  }

  private static Diary allowed(
      Diary diary, List<DiaryChange> changes, @Nullable LongerGaps longer) {
    if (longer == null) {
      return diary;
    }
    Set<String> named = new HashSet<>();
    for (DiaryChange change : changes) {
      if (change instanceof DiaryChange.Cancelled cancelled) {
        diary.booking(cancelled.booking()).ifPresent(one -> named.add(one.caseName()));
      } else if (change instanceof DiaryChange.Missed missed) {
        diary.booking(missed.booking()).ifPresent(one -> named.add(one.caseName()));
      }
    }
    return diary.withCourses(
        diary.courses().stream()
            .map(one -> named.contains(one.caseName()) ? one.withLongerGaps(longer) : one)
            .toList());
  }

  private static List<RebookingAnswer.Fault> faults(Diary diary, List<DiaryChange> changes) {
    List<RebookingAnswer.Fault> faults = new ArrayList<>();
    Set<String> named = new HashSet<>();
    for (DiaryChange change : changes) {
      if (change instanceof DiaryChange.Cancelled cancelled) {
        booking(diary, change, cancelled.booking(), named, faults);
      } else if (change instanceof DiaryChange.Missed missed) {
        booking(diary, change, missed.booking(), named, faults);
      } else if (change instanceof DiaryChange.Away away
          && diary.clinician(away.clinician()).isEmpty()) {
        faults.add(new RebookingAnswer.NoSuchClinician(away));
      }
    }
    return faults;
  }

  private static void booking(
      Diary diary,
      DiaryChange change,
      String id,
      Set<String> named,
      List<RebookingAnswer.Fault> faults) {
    boolean stands =
        diary
            .booking(id)
            .map(
                one -> one.status() == BookingStatus.HELD || one.status() == BookingStatus.PROMISED)
            .orElse(false);
    if (!stands) {
      faults.add(new RebookingAnswer.NotStanding(change, id));
    } else if (!named.add(id)) {
      faults.add(new RebookingAnswer.NamedTwice(id));
    }
  }
}
