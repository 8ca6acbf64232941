package quadrille.diary.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static quadrille.diary.book.Diaries.booking;
import static quadrille.diary.book.Diaries.small;
import static quadrille.diary.book.Diaries.span;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.audit.DiaryRule;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.CalendarLink;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.calendar.Interval;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;

final class DiaryFileTest {

  private static final Booking A1 = booking("A", 1, "2026-03-02T09:00");
  private static final Interval MARCH = span("2026-03-01T00:00", "2026-04-01T00:00");

  @TempDir private Path folder;
  private Path file = Path.of("");

  @BeforeEach
  void begin() throws Exception {
    file = folder.resolve("diary.json");
    Files.writeString(file, DiaryWriter.write(small()));
  }

  private void calendar(String events) throws Exception {
    Files.writeString(
        folder.resolve("ada.ics"),
        "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:invented\n" + events + "END:VCALENDAR\n");
    Files.writeString(
        file,
        DiaryWriter.write(
            new Diary(
                small().zone(),
                10,
                small().clinicians(),
                small().chairs(),
                List.of(),
                small().stock(),
                small().courses(),
                List.of(),
                List.of(),
                List.of(new CalendarLink("ada.ics", "ada", null)))));
  }

  private static final String TALK =
      "BEGIN:VEVENT\nUID:1\nDTSTART;TZID=Europe/Rome:20260302T093000\nDURATION:PT30M\nEND:VEVENT\n";

  @Test
  void isReplacedByTheNewOne() throws Exception {
    LoadedDiary before = DiaryFile.read(file);
    DiaryFile.replace(
        file, before, small().withBookings(List.of(A1)), Instant.MIN, FileStore.USUAL);
    LoadedDiary after = DiaryFile.read(file);
    assertEquals(List.of(A1), after.diary().bookings());
    assertNotEquals(before.revision(), after.revision());
  }

  @Test
  void isLeftAloneWhereItHasChanged() throws Exception {
    LoadedDiary before = DiaryFile.read(file);
    Files.writeString(file, DiaryWriter.write(small().withBookings(List.of(A1))));
    String changed = Files.readString(file);
    assertThrows(
        ChangedDiaryException.class,
        () -> DiaryFile.replace(file, before, small(), Instant.MIN, FileStore.USUAL));
    assertEquals(changed, Files.readString(file));
  }

  @Test
  void isLeftAloneWhereItIsGoneOrNoDiaryAnyMore() throws Exception {
    LoadedDiary before = DiaryFile.read(file);
    Files.writeString(file, "{");
    assertThrows(
        ChangedDiaryException.class,
        () -> DiaryFile.replace(file, before, small(), Instant.MIN, FileStore.USUAL));
    assertEquals("{", Files.readString(file));
    Files.delete(file);
    assertThrows(
        ChangedDiaryException.class,
        () -> DiaryFile.replace(file, before, small(), Instant.MIN, FileStore.USUAL));
    assertEquals(false, Files.exists(file));
  }

  @Test
  void isLeftAloneWhereTheAuditFindsSomething() throws Exception {
    String text = Files.readString(file);
    LoadedDiary before = DiaryFile.read(file);
    Diary wrong = small().withBookings(List.of(booking("A", 1, "2026-03-02T13:30")));
    RefusedDiaryException refused =
        assertThrows(
            RefusedDiaryException.class,
            () -> DiaryFile.replace(file, before, wrong, Instant.MIN, FileStore.USUAL));
    assertEquals(
        List.of(DiaryRule.HOURS), refused.findings().stream().map(DiaryFinding::rule).toList());
    assertEquals(text, Files.readString(file));
  }

  @Test
  void calendarsCountAndAreNotWritten() throws Exception {
    calendar(TALK);
    LoadedDiary loaded = DiaryFile.read(file);
    BusyTime talk =
        new BusyTime(
            span("2026-03-02T09:30", "2026-03-02T10:00"), "ada", null, List.of(), "ada.ics");
    assertEquals(List.of(talk), loaded.over(MARCH).busy());
    Diary booked = loaded.over(MARCH).withBookings(List.of(A1));
    RefusedDiaryException refused =
        assertThrows(
            RefusedDiaryException.class,
            () -> DiaryFile.replace(file, loaded, booked, Instant.MIN, FileStore.USUAL));
    assertEquals(DiaryRule.CLINICIAN_ONCE, refused.findings().get(0).rule());
    Diary later = loaded.over(MARCH).withBookings(List.of(booking("A", 1, "2026-03-02T10:00")));
    DiaryFile.replace(file, loaded, later, Instant.MIN, FileStore.USUAL);
    assertEquals(List.of(), DiaryFile.read(file).diary().busy());
  }

  @Test
  void aChangedCalendarIsAChangedDiary() throws Exception {
    calendar(TALK);
    LoadedDiary loaded = DiaryFile.read(file);
    Files.writeString(folder.resolve("ada.ics"), "BEGIN:VCALENDAR\nEND:VCALENDAR\n");
    assertThrows(
        ChangedDiaryException.class,
        () -> DiaryFile.replace(file, loaded, loaded.diary(), Instant.MIN, FileStore.USUAL));
  }

  @Test
  void aCalendarThatIsMissingIsSaidToBe() throws Exception {
    calendar(TALK);
    Files.delete(folder.resolve("ada.ics"));
    InvalidDocumentException missing =
        assertThrows(InvalidDocumentException.class, () -> DiaryFile.read(file));
    assertEquals(
        "diary.json /calendars: found the calendar \"ada.ics\", which cannot be read; allowed:"
            + " a file in the folder of the diary, or a path from there",
        missing.getMessage());
  }

  @Test
  void whatAKilledProcessLeftIsClearedAway() throws Exception {
    Path left = folder.resolve(".diary.json.4711.part");
    Files.writeString(left, "{ \"schema\": \"quadr");
    Path other = folder.resolve(".diary.json.part");
    Files.writeString(other, "not ours");
    DiaryFile.replace(file, DiaryFile.read(file), small(), Instant.MIN, FileStore.USUAL);
    assertEquals(false, Files.exists(left));
    assertEquals(true, Files.exists(other));
  }
}
