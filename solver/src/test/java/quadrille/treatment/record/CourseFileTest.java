package quadrille.treatment.record;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.PlanChange.Why;

final class CourseFileTest {
  @TempDir private Path folder;
  private Path file;

  @BeforeEach
  void begin() throws Exception {
    file = folder.resolve("course.ndjson");
    CourseFile.begin(file, SampleLogs.NINE, SampleLogs.planned());
  }

  private CourseFile.Appended append(Event event) throws Exception {
    return CourseFile.append(file, SampleLogs.NINE.plusHours(1), log -> event);
  }

  @Test
  void readsBackWhatWasWritten() throws Exception {
    List<Event> events =
        List.of(
            SampleLogs.planned(),
            SampleLogs.done(1),
            SampleLogs.booked("clinician-b"),
            new Corrected(2, SampleLogs.done(1), "the wrong day"),
            new Event.Replanned(
                SampleLogs.course(2),
                SampleLogs.chart(),
                List.of(new PlanChange(3, new What.FallsAway(false), Why.Known.NOTHING_LEFT))));
    for (Event event : events.subList(1, events.size())) {
      append(event);
    }
    CourseLog log = CourseFile.read(file);
    assertEquals(events, log.entries().stream().map(LogEntry::event).toList());
    assertEquals(List.of(1, 2, 3, 4, 5), log.entries().stream().map(LogEntry::number).toList());
    assertEquals(SampleLogs.NINE, log.entries().get(0).at());
    assertNull(log.torn());
    assertEquals(5, Files.readString(file, UTF_8).lines().count());
  }

  @Test
  void neverWritesOverACourse() {
    assertThrows(
        FileAlreadyExistsException.class,
        () -> CourseFile.begin(file, SampleLogs.NINE, SampleLogs.planned()));
  }

  /** As if the writer had been stopped after any byte of the last entry. */
  @Test
  void anEntryCutOffAtAnyByteIsLeftOutAndSaid() throws Exception {
    byte[] before = Files.readAllBytes(file);
    append(SampleLogs.done(1));
    byte[] after = Files.readAllBytes(file);
    for (int length = before.length; length <= after.length; length++) {
      CourseLog log = CourseFile.parse(Arrays.copyOf(after, length), "course.ndjson");
      // The line end alone may be missing: then the entry is whole.
      boolean whole = length >= after.length - 1;
      assertEquals(whole ? 2 : 1, log.entries().size(), "after " + length + " bytes");
      assertEquals(
          whole || length == before.length ? null : Integer.valueOf(2),
          log.torn(),
          "after " + length + " bytes");
    }
  }

  @Test
  void aFileOfAnotherKindIsNotReadToItsEnd() throws Exception {
    Files.writeString(file, "{\"number\":1}\n".repeat(2000));
    InvalidDocumentException invalid =
        assertThrows(InvalidDocumentException.class, () -> CourseFile.read(file));
    assertEquals(1001, invalid.faults().size());
    assertEquals("so many faults; it was read no further", invalid.faults().get(1000).found());
  }

  @Test
  void theNextWriterRemovesWhatWasCutOffAndIsTold() throws Exception {
    byte[] before = Files.readAllBytes(file);
    append(SampleLogs.done(1));
    byte[] after = Files.readAllBytes(file);
    for (int length : new int[] {before.length + 1, before.length + 200, after.length - 2}) {
      Files.write(file, Arrays.copyOf(after, length));
      CourseFile.Appended appended = append(SampleLogs.booked("b"));
      assertNotNull(appended.torn());
      assertEquals(2, appended.entry().number());
      CourseLog log = CourseFile.read(file);
      assertEquals(SampleLogs.booked("b"), log.entries().get(1).event());
      assertNull(log.torn());
    }
    Files.write(file, Arrays.copyOf(after, after.length - 1));
    assertNull(append(SampleLogs.booked("b")).torn());
    assertEquals(3, CourseFile.read(file).entries().size());
  }

  @Test
  void anEntryThatWasChangedIsAFaultWithItsLine() throws Exception {
    append(SampleLogs.done(1));
    append(SampleLogs.booked("b"));
    String text = Files.readString(file, UTF_8);
    Files.writeString(file, text.replace("\"share\":0.4", "\"share\":0.5"), UTF_8);
    assertEquals(
        "course.ndjson:2: found an entry that is not as it was written (its check does not fit);"
            + " allowed: entries as they were written; to put one right, record a correction",
        fault());
    Files.writeString(file, text.lines().skip(1).findFirst().orElseThrow() + "\n", UTF_8);
    assertTrue(fault().contains("course.ndjson:1 /entry: found 2; allowed: "), fault());
    Files.writeString(
        file, text.lines().toList().get(0) + "\n" + text.lines().toList().get(2) + "\n", UTF_8);
    assertEquals("course.ndjson:2 /entry: found 3; allowed: a whole number from 2 to 2", fault());
    Files.writeString(file, "", UTF_8);
    assertEquals(
        "course.ndjson: found an empty file; allowed: a course, whose first entry is its plan",
        fault());
  }

  private String fault() {
    return assertThrows(InvalidDocumentException.class, () -> CourseFile.read(file)).getMessage();
  }

  /** RFC 3720, appendix B.4: 32 bytes of zeros have the CRC-32C aa 36 91 8a, low byte first. */
  @Test
  void theCheckIsCrc32c() {
    CRC32C crc = new CRC32C();
    crc.update(new byte[32]);
    assertEquals(0x8a9136aaL, crc.getValue());
  }

  @Test
  void refusesASecondRecordOfAVisitAndACorrectionOfNothing() throws Exception {
    append(SampleLogs.done(1));
    assertEquals(
        "course.ndjson:3: found a second record of visit 1; allowed: one record a visit; a"
            + " correction takes its place",
        assertThrows(InvalidDocumentException.class, () -> append(SampleLogs.done(1)))
            .getMessage());
    assertEquals(
        "course.ndjson:3: found a correction of entry 1 by a record of visit 1; allowed: entry 2,"
            + " the record of that visit",
        assertThrows(
                InvalidDocumentException.class,
                () -> append(new Corrected(1, SampleLogs.done(1), "")))
            .getMessage());
    assertEquals(2, CourseFile.read(file).entries().size());
  }

  @Test
  void aCorrectionCountsAndTheFirstRecordStays() throws Exception {
    append(SampleLogs.done(1));
    VisitDone right = SampleLogs.done(1);
    VisitDone other =
        new VisitDone(
            1,
            right.date(),
            "clinician-b",
            right.steps(),
            List.of(),
            new TreeMap<>(),
            60.0,
            List.of(),
            60,
            false,
            List.of(),
            "");
    append(new Corrected(2, other, "mistyped"));
    append(new Corrected(3, right, "it was right"));
    CourseLog log = CourseFile.read(file);
    assertEquals(1, log.recorded().size());
    assertEquals(2, log.recorded().get(0).entry());
    assertEquals(right, log.recorded().get(0).done());
    assertEquals(SampleLogs.done(1), log.entries().get(1).event());
  }
}
