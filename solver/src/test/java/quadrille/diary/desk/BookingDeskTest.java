package quadrille.diary.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.Signature;
import quadrille.diary.book.TimeOff;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** Offers and changes of a diary on disk, as a server would ask for them. */
final class BookingDeskTest {

  private static final Signature SIGNED = new Signature("desk", Diaries.at("2026-02-27T12:00"));

  private static final LocalDate LAST = Diaries.MONDAY.plusDays(55);
  private static final BookingOrder WAITING =
      new BookingOrder(
          List.of(), true, PatientWishes.NONE, BookingWeights.defaults(), Diaries.MONDAY, LAST, 3);

  @TempDir private Path folder;

  private Path written(Diary diary) throws IOException {
    return Files.writeString(folder.resolve("diary.json"), DiaryWriter.write(diary));
  }

  private static BookingAnswer offer(Path file)
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    return BookingDesk.offer(DiaryFile.read(file), WAITING);
  }

  @Test
  void offerOfADiaryThatHasChangedIsNotTakenAndOthersAreMade()
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    Path file = written(Diaries.small());
    BookingAnswer.Offered offered = assertInstanceOf(BookingAnswer.Offered.class, offer(file));
    List<Booking> fresh = offered.fresh(1);
    assertEquals(6, fresh.size());
    Booking first = Diaries.booking("A", 1, "2026-03-02T09:00");
    String changed = DiaryWriter.write(Diaries.with(first));
    Files.writeString(file, changed);

    BookingTaken.Changed told =
        assertInstanceOf(
            BookingTaken.Changed.class,
            BookingDesk.take(file, offered, 1, SIGNED, FileStore.USUAL));
    assertEquals(List.of(new DiaryDifference.Booked("A/1")), told.differences());
    assertEquals(changed, Files.readString(file));
    BookingAnswer.Offered again = assertInstanceOf(BookingAnswer.Offered.class, told.again());
    assertTrue(again.fresh(1).stream().noneMatch(one -> one.id().equals("A/1")));

    assertEquals(
        new BookingTaken.Done(), BookingDesk.take(file, again, 1, SIGNED, FileStore.USUAL));
    Diary now = DiaryFile.read(file).diary();
    assertEquals(6, now.bookings().size());
    assertTrue(now.bookings().contains(first));
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(file)));
    assertEquals(new BookingAnswer.NobodyWaits(), offer(file));
  }

  @Test
  void changesThatTheDiaryCannotHaveSeenAreAllNamed()
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    Path file = written(Diaries.with(Diaries.booking("A", 1, "2026-03-02T09:00")));
    DiaryChange missed = new DiaryChange.Missed("B/1");
    DiaryChange.Away away = new DiaryChange.Away("carl", Diaries.MONDAY, Diaries.MONDAY);
    assertEquals(
        new RebookingAnswer.Unworkable(
            List.of(
                new RebookingAnswer.NamedTwice("A/1"),
                new RebookingAnswer.NotStanding(missed, "B/1"),
                new RebookingAnswer.NoSuchClinician(away))),
        RebookingDesk.rebook(
            DiaryFile.read(file),
            List.of(
                new DiaryChange.Cancelled("A/1"), new DiaryChange.Cancelled("A/1"), missed, away),
            BookingWeights.defaults(),
            Diaries.MONDAY,
            LAST,
            SIGNED.at()));
  }

  @Test
  void changedDiaryIsNotReplacedByNewTimes()
      throws IOException, InvalidDocumentException, RefusedDiaryException {
    Path file = written(Diaries.with(Diaries.booking("A", 1, "2026-03-02T09:00")));
    RebookingAnswer.Rebooked rebooked =
        assertInstanceOf(
            RebookingAnswer.Rebooked.class,
            RebookingDesk.rebook(
                DiaryFile.read(file),
                List.of(new DiaryChange.Closed(Diaries.MONDAY, Diaries.MONDAY)),
                BookingWeights.defaults(),
                Diaries.MONDAY,
                LAST,
                SIGNED.at()));
    assertEquals(1, rebooked.changed().size());
    written(Diaries.small());
    assertEquals(false, RebookingDesk.write(file, rebooked, SIGNED, FileStore.USUAL));
    assertEquals(List.of(), DiaryFile.read(file).diary().bookings());
  }

  /**
   * Ada, who has A's first visit, has something else then; B's first visit lies on a closed day.
   */
  private static Diary imperfect() {
    return Diaries.with(
            Diaries.booking("A", 1, "2026-03-02T09:00"),
            Diaries.booking("A", 2, "2026-03-09T09:00"),
            Diaries.booking("B", 1, "2026-03-03T09:00"))
        .withBusy(
            List.of(
                new BusyTime(
                    Diaries.span("2026-03-02T09:30", "2026-03-02T11:00"),
                    "ada",
                    null,
                    List.of(),
                    null)))
        .withClosed(List.of(TimeOff.day(Diaries.MONDAY.plusDays(1), null)));
  }

  @Test
  void whatOthersLeftWrongKeepsNobodyFromBooking() throws Exception {
    Path file = written(imperfect());
    assertEquals(2, DiaryFile.audit(DiaryFile.read(file)).size());
    BookingAnswer.Offered offered = assertInstanceOf(BookingAnswer.Offered.class, offer(file));
    assertEquals(
        new BookingTaken.Done(), BookingDesk.take(file, offered, 1, SIGNED, FileStore.USUAL));
    LoadedDiary now = DiaryFile.read(file);
    assertEquals(2, DiaryFile.audit(now).size(), "as before");
    assertEquals(List.of(), now.diary().unbooked(now.diary().course("B").orElseThrow()));
  }

  @Test
  void whatOthersLeftWrongKeepsNobodyFromRebooking() throws Exception {
    Path file = written(imperfect());
    RebookingAnswer.Rebooked rebooked =
        assertInstanceOf(
            RebookingAnswer.Rebooked.class,
            RebookingDesk.rebook(
                DiaryFile.read(file),
                List.of(new DiaryChange.Cancelled("A/2")),
                BookingWeights.defaults(),
                Diaries.MONDAY,
                LAST,
                SIGNED.at()));
    assertEquals(1, rebooked.rebooking().moves().size());
    assertTrue(RebookingDesk.write(file, rebooked, SIGNED, FileStore.USUAL));
  }

  @Test
  void whatIsPastIsNotTouchedByADayThatIsClosedNow() throws Exception {
    Path file = written(Diaries.with(Diaries.booking("A", 1, "2026-02-23T09:00")));
    RebookingAnswer.Rebooked rebooked =
        assertInstanceOf(
            RebookingAnswer.Rebooked.class,
            RebookingDesk.rebook(
                DiaryFile.read(file),
                List.of(
                    new DiaryChange.Closed(Diaries.MONDAY.minusDays(30), Diaries.MONDAY),
                    new DiaryChange.Away("ada", Diaries.MONDAY.minusDays(30), Diaries.MONDAY)),
                BookingWeights.defaults(),
                Diaries.MONDAY,
                LAST,
                SIGNED.at()));
    assertEquals(List.of(), rebooked.changed());
    assertTrue(RebookingDesk.write(file, rebooked, SIGNED, FileStore.USUAL));
  }
}
