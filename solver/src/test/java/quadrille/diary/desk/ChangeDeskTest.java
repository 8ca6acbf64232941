package quadrille.diary.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.diary.book.Diaries.at;
import static quadrille.diary.book.Diaries.booking;
import static quadrille.diary.book.Diaries.small;
import static quadrille.diary.book.Diaries.span;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.audit.DiaryRule;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diaries;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryReader;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.Journal;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.Signature;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.Why;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

/** Changes of a diary in which course A has three visits and course B one. */
final class ChangeDeskTest {

  private static final Instant NOW = at("2026-03-03T12:00");
  private static final Diary BOOKED =
      Diaries.with(
          booking("A", 1, "2026-03-02T09:00"),
          booking("A", 2, "2026-03-09T09:00"),
          booking("A", 3, "2026-03-16T09:00"),
          booking("B", 1, "2026-03-09T10:00"));

  private static LoadedDiary loaded(Diary diary) {
    return new LoadedDiary(diary, "", Map.of());
  }

  private static Signature because(@Nullable Why why) {
    return new Signature("Ines", NOW, why, null);
  }

  private static ChangeAnswer ask(Diary diary, DeskChange change) throws InvalidDocumentException {
    return ChangeDesk.ask(loaded(diary), change, because(Why.PATIENT_ASKED));
  }

  private static ChangeAnswer.Changed changed(Diary diary, DeskChange change)
      throws InvalidDocumentException {
    return assertInstanceOf(ChangeAnswer.Changed.class, ask(diary, change));
  }

  private static DeskChange.Move to(String booking, String start) {
    return new DeskChange.Move(booking, at(start), null, null, false);
  }

  private static BookingStatus status(Diary diary, String id) {
    return diary.booking(id).orElseThrow().status();
  }

  static List<DeskChange> verbs() {
    return List.of(
        new DeskChange.CallOff("A/2", false),
        new DeskChange.CallOff("A/2", true),
        new DeskChange.EndCourse("A"),
        to("A/3", "2026-03-17T10:00"),
        new DeskChange.Hold("A/3", at("2026-03-05T12:00")),
        new DeskChange.Hold("A/3", null),
        new DeskChange.Done("A/1"));
  }

  @ParameterizedTest
  @MethodSource("verbs")
  void takenBackGivesAllBytesOutsideTheJournal(DeskChange verb) throws InvalidDocumentException {
    Diary after = changed(BOOKED, verb).after();
    assertTrue(
        !DiaryWriter.writeWithoutJournal(after).equals(DiaryWriter.writeWithoutJournal(BOOKED)));
    Diary read = DiaryReader.read("diary", DiaryWriter.write(after));
    assertEquals(after, read);
    Diary back = changed(read, new DeskChange.Undo(false)).after();
    assertEquals(DiaryWriter.writeWithoutJournal(BOOKED), DiaryWriter.writeWithoutJournal(back));
    assertEquals(2, back.journal().size());
    assertEquals(1, back.journal().get(1).undoes());
    assertInstanceOf(ChangeAnswer.NothingToUndo.class, ask(back, new DeskChange.Undo(false)));
  }

  @Test
  void journalSaysWhoWhenFromToAndWhy() throws InvalidDocumentException {
    JournalEntry entry = changed(BOOKED, to("A/3", "2026-03-17T10:00")).entry();
    assertEquals(1, entry.number());
    assertEquals(NOW, entry.at());
    assertEquals("Ines", entry.by());
    assertEquals(Deed.MOVE, entry.did());
    assertEquals(Why.PATIENT_ASKED, entry.because());
    JournalEntry.BookingChange change = entry.bookings().get(0);
    assertEquals(BOOKED.booking("A/3").orElseThrow(), change.from());
    assertEquals(at("2026-03-17T10:00"), change.any().start());
    assertEquals(1, change.any().changes());
  }

  /** Needles come from the tenth to the twentieth minute of each of A's visits. */
  private static Diary withNeedles() {
    return BOOKED.withCourses(
        BOOKED.courses().stream()
            .map(
                course ->
                    course.withVisits(
                        course.visits().stream()
                            .map(visit -> visit.withNeedles(List.of(new NeedleTime(10, 20))))
                            .toList()))
            .toList());
  }

  private static DeskChange.Move toBen(String booking, String start) {
    return new DeskChange.Move(booking, at(start), "ben", null, false);
  }

  @Test
  void movedToWhoMayNotInjectSomeoneComesToInject() throws InvalidDocumentException {
    Diary after = changed(withNeedles(), toBen("A/3", "2026-03-17T10:00")).after();
    Booking moved = after.booking("A/3").orElseThrow();
    assertEquals("ben", moved.clinician());
    assertEquals(List.of(new InjectorCall("ada", 10, 20)), moved.injectors());
    // And back to one who may: nobody comes any more.
    Diary back =
        changed(after, new DeskChange.Move("A/3", at("2026-03-17T11:00"), "ada", null, false))
            .after();
    assertEquals(List.of(), back.booking("A/3").orElseThrow().injectors());
    // Taken back, whoever came comes again.
    assertEquals(after.bookings(), changed(back, new DeskChange.Undo(false)).after().bookings());
  }

  @Test
  void notMovedToWhereNobodyCanInject() throws InvalidDocumentException {
    // Ada treats B then.
    ChangeAnswer.Stopped stopped =
        assertInstanceOf(
            ChangeAnswer.Stopped.class, ask(withNeedles(), toBen("A/2", "2026-03-09T10:00")));
    assertEquals(
        List.of(DiaryRule.CAPABILITY), stopped.made().stream().map(DiaryFinding::rule).toList());
    assertInstanceOf(ChangeAnswer.Stopped.class, ask(BOOKED, toBen("A/3", "2026-03-17T10:00")));
  }

  @Test
  void callingOffFreesAndBooksNothing() throws InvalidDocumentException {
    ChangeAnswer.Changed off = changed(BOOKED, new DeskChange.CallOff("A/2", false));
    assertEquals(BookingStatus.CANCELLED, status(off.after(), "A/2"));
    assertEquals(1, off.changed().size());
    // The visit that follows stands, and is shown.
    assertEquals(
        List.of(DiaryRule.ORDER), off.verdict().made().stream().map(DiaryFinding::rule).toList());
    assertEquals(
        BookingStatus.CANCELLED,
        status(changed(BOOKED, new DeskChange.CallOff("A/2", true)).after(), "A/3"));
  }

  @Test
  void missedOnlyOnceItHasBegun() throws InvalidDocumentException {
    ChangeAnswer answer =
        ChangeDesk.ask(
            loaded(BOOKED), new DeskChange.CallOff("A/2", false), because(Why.PATIENT_MISSED));
    assertInstanceOf(ChangeAnswer.NotBegun.class, answer);
    ChangeAnswer.Changed missed =
        assertInstanceOf(
            ChangeAnswer.Changed.class,
            ChangeDesk.ask(
                loaded(BOOKED), new DeskChange.CallOff("A/1", false), because(Why.PATIENT_MISSED)));
    assertEquals(BookingStatus.MISSED, status(missed.after(), "A/1"));
  }

  @Test
  void endedCourseAsksForNothing() throws InvalidDocumentException {
    Diary after = changed(BOOKED, new DeskChange.EndCourse("A")).after();
    assertEquals(BookingStatus.CANCELLED, status(after, "A/2"));
    assertEquals(BookingStatus.CANCELLED, status(after, "A/3"));
    // It lies in the past: somebody says whether it took place.
    assertEquals(BookingStatus.PROMISED, status(after, "A/1"));
    assertEquals(List.of(), after.unbooked(after.course("A").orElseThrow()));
    assertInstanceOf(ChangeAnswer.NothingChanges.class, ask(after, new DeskChange.EndCourse("A")));
  }

  @Test
  void moveIsChecked() throws InvalidDocumentException {
    ChangeAnswer.Stopped gap =
        assertInstanceOf(ChangeAnswer.Stopped.class, ask(BOOKED, to("A/3", "2026-03-12T09:00")));
    assertEquals(DiaryRule.GAP, gap.made().get(0).rule());
    ChangeAnswer.Stopped busy =
        assertInstanceOf(ChangeAnswer.Stopped.class, ask(BOOKED, to("A/2", "2026-03-09T09:30")));
    assertEquals(
        List.of(DiaryRule.CLINICIAN_ONCE), busy.made().stream().map(DiaryFinding::rule).toList());
    assertInstanceOf(ChangeAnswer.Past.class, ask(BOOKED, to("A/1", "2026-03-02T10:00")));
    assertEquals(
        "2026-03-02T09:00:00Z",
        changed(BOOKED, new DeskChange.Move("A/1", at("2026-03-02T10:00"), null, null, true))
            .after()
            .booking("A/1")
            .orElseThrow()
            .start()
            .toString());
  }

  @Test
  void moveTakesAnotherChairWhereItsOwnIsTaken() throws InvalidDocumentException {
    Diary taken =
        BOOKED.withBusy(
            List.of(
                new BusyTime(
                    span("2026-03-17T09:00", "2026-03-17T12:00"), null, "one", List.of(), null)));
    assertEquals(
        "two",
        changed(taken, to("A/3", "2026-03-17T10:00")).after().booking("A/3").orElseThrow().chair());
  }

  @Test
  void holdRunsOutByItself() throws InvalidDocumentException {
    Instant until = at("2026-03-05T12:00");
    Diary held = changed(BOOKED, new DeskChange.Hold("A/3", until)).after();
    assertEquals(BookingStatus.HELD, status(held, "A/3"));
    assertEquals(held, Journal.asOf(held, until.minusSeconds(1)));
    Diary over = Journal.asOf(held, until);
    assertEquals(BookingStatus.CANCELLED, status(over, "A/3"));
    assertEquals(Deed.EXPIRE, over.journal().get(1).did());
    assertEquals(over, Journal.asOf(over, until.plusSeconds(60)));
    // Nobody can bring back the time; what was done before it is taken back as it was left.
    assertInstanceOf(ChangeAnswer.ChangedSince.class, ask(over, new DeskChange.Undo(false)));
    Diary promised = changed(held, new DeskChange.Promise("A/3")).after();
    assertEquals(promised, Journal.asOf(promised, until));
    assertInstanceOf(ChangeAnswer.NoHold.class, ask(BOOKED, new DeskChange.Hold("A/3", NOW)));
  }

  @Test
  void holdEndsBeforeItsVisitBeginsOrNotByItself() throws InvalidDocumentException {
    Instant begins = at("2026-03-16T09:00");
    assertInstanceOf(
        ChangeAnswer.NoHold.class, ask(BOOKED, new DeskChange.Hold("A/3", begins.plusSeconds(60))));
    changed(BOOKED, new DeskChange.Hold("A/3", begins));
    // As another program wrote it: who has come is not called off meanwhile.
    Diary late =
        BOOKED.withBookings(
            BOOKED.bookings().stream()
                .map(one -> one.heldUntil(one.start().plusSeconds(600)))
                .toList());
    assertEquals(late, Journal.asOf(late, at("2026-03-31T12:00")));
  }

  /** Else it would be called off the moment it is looked at again, and the move not taken back. */
  @Test
  void whatBeganBeforeItsHoldEndedStaysHeldWhereItIsMoved() throws InvalidDocumentException {
    Instant until = at("2026-03-03T11:40");
    Diary begun = Diaries.with(booking("A", 1, "2026-03-03T11:30").heldUntil(until));
    Diary moved = changed(begun, to("A/1", "2026-03-04T10:00")).after();
    assertEquals(BookingStatus.HELD, status(Journal.asOf(moved, NOW), "A/1"));
    Diary back = changed(moved, new DeskChange.Undo(false)).after();
    assertEquals(DiaryWriter.writeWithoutJournal(begun), DiaryWriter.writeWithoutJournal(back));
  }

  @Test
  void holdThatHasRunOutDoesNotComeBack() throws InvalidDocumentException {
    Instant until = at("2026-03-05T12:00");
    Diary held = changed(BOOKED, new DeskChange.Hold("A/3", until)).after();
    Diary off = changed(held, new DeskChange.CallOff("A/3", false)).after();
    changed(off, new DeskChange.Undo(false));
    assertInstanceOf(
        ChangeAnswer.HoldOver.class,
        ChangeDesk.ask(
            loaded(off), new DeskChange.Undo(true), new Signature("Ines", until, null, null)));
  }

  @Test
  void visitThatGoesOnIsNotCalledOffWithItsCourse() throws InvalidDocumentException {
    Diary now = Diaries.with(booking("A", 1, "2026-03-03T11:30"));
    Diary after = changed(now, new DeskChange.EndCourse("A")).after();
    assertEquals(BookingStatus.PROMISED, status(after, "A/1"));
  }

  @Test
  void doneIsSaidOfWhatWasWrongBefore() throws InvalidDocumentException {
    // Both with one clinician; who is found at whom changes once one of them is history.
    Diary clash =
        Diaries.with(
            booking("A", 1, "2026-03-03T11:45"),
            booking("B", 1, "2026-03-03T12:00").at(at("2026-03-03T12:00"), "ada", "two"));
    assertEquals(
        List.of("B/1"),
        changed(clash, new DeskChange.Done("A/1")).verdict().left().stream()
            .map(DiaryFinding::booking)
            .toList());
  }

  @Test
  void whatWasTakenBackKeepsItsId() throws InvalidDocumentException {
    Diary none = Diaries.small();
    Diary booked =
        Journal.entered(
            none,
            none.withBookings(List.of(booking("A", 1, "2026-03-09T09:00"))),
            Deed.BOOK,
            because(null),
            Map.of());
    assertEquals("A/1/2", booked.freshId("A", 1));
    assertEquals(
        "A/1/2", changed(booked, new DeskChange.Undo(false)).after().freshId("A", 1), "told of");
  }

  @Test
  void whatCouldNotBeReadAgainIsNotWritten(@TempDir Path folder) throws Exception {
    // Done by somebody who is no longer here: the past is not judged, but the file must be read.
    Diary moved =
        changed(BOOKED, new DeskChange.Move("A/1", at("2026-03-02T10:00"), "ada", "two", true))
            .after();
    Diary gone =
        moved
            .withChairs(List.of(moved.chairs().get(1)))
            .withBookings(List.of(moved.booking("A/1").orElseThrow()));
    Path file = folder.resolve("diary.json");
    Files.writeString(file, DiaryWriter.write(gone));
    ChangeAnswer.Changed back =
        (ChangeAnswer.Changed)
            ChangeDesk.ask(DiaryFile.read(file), new DeskChange.Undo(true), because(null));
    assertThrows(
        InvalidDocumentException.class, () -> ChangeDesk.write(file, back, FileStore.USUAL));
    assertEquals(gone, DiaryFile.read(file).diary());
  }

  @Test
  void onlyWhatAChangeMakesStopsIt() throws InvalidDocumentException {
    Diary clash =
        BOOKED.withBusy(
            List.of(
                new BusyTime(
                    span("2026-03-09T10:00", "2026-03-09T10:30"), "ada", null, List.of(), null)));
    ChangeAnswer.Changed other = changed(clash, to("A/3", "2026-03-17T10:00"));
    assertEquals(
        List.of("B/1"), other.verdict().left().stream().map(DiaryFinding::booking).toList());
    // Moved, and still in the way: that the change makes.
    assertInstanceOf(ChangeAnswer.Stopped.class, ask(clash, to("B/1", "2026-03-09T10:10")));
    changed(clash, to("B/1", "2026-03-09T11:00"));
  }

  @Test
  void pastIsNotJudgedByTheHoursOfToday() throws InvalidDocumentException {
    Diary closed =
        BOOKED.withClosed(
            List.of(TimeOff.day(NOW.atZone(BOOKED.zone()).toLocalDate().minusDays(1), null)));
    assertEquals(List.of(), changed(closed, to("A/3", "2026-03-17T10:00")).verdict().left());
    assertEquals(1, DiaryFile.audit(loaded(closed)).size());
    assertEquals(List.of(), DiaryFile.audit(loaded(closed), NOW));
  }

  @Test
  void forgottenPatientIsInNoByteOfTheDiary() throws InvalidDocumentException {
    Diary moved = changed(BOOKED, to("B/1", "2026-03-09T11:00")).after();
    Diary noted =
        ChangeDesk.ask(
                    loaded(moved),
                    to("A/3", "2026-03-17T10:00"),
                    new Signature("Ines", NOW, null, "made room for B, by telephone"))
                instanceof ChangeAnswer.Changed both
            ? both.after()
            : moved;
    assertEquals(
        List.of("B/1"),
        assertInstanceOf(ChangeAnswer.StillComing.class, ask(noted, new DeskChange.Forget("B")))
            .bookings()
            .stream()
            .map(Booking::id)
            .toList());
    Diary off = changed(noted, new DeskChange.EndCourse("B")).after();
    Diary after = changed(off, new DeskChange.Forget("B")).after();
    assertTrue(!DiaryWriter.write(after).contains("room for"), DiaryWriter.write(after));
    assertTrue(!DiaryWriter.write(after).contains("\"B"), DiaryWriter.write(after));
    assertEquals(
        List.of(Deed.MOVE, Deed.FORGET), after.journal().stream().map(JournalEntry::did).toList());
    assertEquals(
        BOOKED.booking("A/3"), changed(after, new DeskChange.Undo(false)).after().booking("A/3"));
    assertInstanceOf(ChangeAnswer.NoSuchCase.class, ask(after, new DeskChange.Forget("B")));
  }

  @Test
  void whatCannotBeIsSaid() throws InvalidDocumentException {
    assertInstanceOf(ChangeAnswer.NoSuchBooking.class, ask(BOOKED, new DeskChange.Done("C/1")));
    assertInstanceOf(ChangeAnswer.NotBegun.class, ask(BOOKED, new DeskChange.Done("A/2")));
    Diary done = changed(BOOKED, new DeskChange.Done("A/1")).after();
    assertEquals(
        new ChangeAnswer.NotComing("A/1", BookingStatus.DONE),
        ask(done, new DeskChange.CallOff("A/1", false)));
    assertInstanceOf(ChangeAnswer.NothingChanges.class, ask(BOOKED, new DeskChange.Promise("A/2")));
    assertInstanceOf(
        ChangeAnswer.NoSuchClinician.class,
        ask(BOOKED, new DeskChange.Move("A/3", at("2026-03-17T10:00"), "eve", null, false)));
    assertInstanceOf(
        ChangeAnswer.NoSuchChair.class,
        ask(BOOKED, new DeskChange.Move("A/3", at("2026-03-17T10:00"), null, "nine", false)));
    assertInstanceOf(
        ChangeAnswer.NeedsNote.class,
        ChangeDesk.ask(loaded(BOOKED), new DeskChange.Done("A/1"), because(Why.OTHER)));
    Diary provisional =
        BOOKED
            .withCourses(BOOKED.courses().stream().map(one -> one.withProvisional(true)).toList())
            .withBookings(
                BOOKED.bookings().stream().map(one -> one.with(BookingStatus.HELD)).toList());
    assertInstanceOf(
        ChangeAnswer.Provisional.class, ask(provisional, new DeskChange.Promise("A/2")));
  }

  @Test
  void whoComesSecondIsTold(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("diary.json");
    Files.writeString(file, DiaryWriter.write(BOOKED));
    LoadedDiary read = DiaryFile.read(file);
    ChangeAnswer.Changed mine =
        (ChangeAnswer.Changed) ChangeDesk.ask(read, to("A/3", "2026-03-17T10:00"), because(null));
    ChangeAnswer.Changed theirs =
        (ChangeAnswer.Changed)
            ChangeDesk.ask(read, new DeskChange.CallOff("A/3", false), because(null));
    assertTrue(ChangeDesk.write(file, theirs, FileStore.USUAL));
    assertTrue(!ChangeDesk.write(file, mine, FileStore.USUAL));
    assertEquals(theirs.after(), DiaryFile.read(file).diary());
    assertEquals(small().zone(), DiaryFile.read(file).diary().zone());
  }
}
