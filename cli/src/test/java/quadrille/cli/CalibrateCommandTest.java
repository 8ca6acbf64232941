package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** Six courses of one plan, each visit half as long again as planned. */
final class CalibrateCommandTest {

  private static final OffsetDateTime AT = OffsetDateTime.parse("2026-03-02T12:00:00+01:00");
  private static final int COURSES = 6;

  @TempDir private static Path shared;
  private static final List<String> FILES = new ArrayList<>();

  @TempDir private Path folder;

  @BeforeAll
  static void record() throws IOException, InvalidDocumentException {
    String plan = shared.resolve("plan.json").toString();
    String chartFile = Golden.demo("mild-one-visit.json");
    assertEquals(Status.DONE, Run.of("plan", chartFile, "-o", plan).status());
    Chart chart = ChartReader.read("chart", Files.readString(Path.of(chartFile)));
    Course course = PlanReader.read("plan", Files.readString(Path.of(plan))).course();
    FILES.clear();
    for (int i = 0; i < COURSES; i++) {
      Path file = shared.resolve("course-" + i + ".ndjson");
      CourseFile.begin(file, AT, new Event.Planned(course, chart, PracticeReader.defaults()));
      for (Visit visit : course.visits()) {
        VisitDone done = done(visit, i);
        CourseFile.append(file, AT, log -> done);
      }
      FILES.add(file.toString());
    }
  }

  /** The last course was interrupted. */
  private static VisitDone done(Visit visit, int course) {
    List<StepDone> steps = new ArrayList<>();
    for (Entry.Debride step : visit.steps()) {
      steps.add(StepDone.of(step, 1));
    }
    return new VisitDone(
        visit.number(),
        LocalDate.of(2026, 3, 2).plusDays(course),
        course % 2 == 0 ? "C1" : "C2",
        steps,
        visit.injections().stream().map(Given::of).toList(),
        Collections.emptySortedMap(),
        (double) Math.round(1.5 * visit.expectedSeconds() / 60) + course % 3,
        List.of(),
        visit.bookedMinutes(),
        course == COURSES - 1,
        List.of(),
        "");
  }

  private static Run calibrate(String... options) {
    List<String> args = new ArrayList<>(List.of("calibrate"));
    args.addAll(FILES);
    args.addAll(List.of(options));
    return Run.of(args.toArray(new String[0]));
  }

  @Test
  void wholeAnswer() {
    String text = calibrate().done();
    Golden.check("calibrate.txt", text);
    Golden.checkWidth(text);
  }

  @Test
  void wholeAnswerAsJson() {
    Golden.check("calibrate.json", calibrate("--format", "json").done());
  }

  @Test
  void writtenPracticeIsPlannedBy() throws IOException {
    String practice = folder.resolve("ours.json").toString();
    Run run = calibrate("-o", practice);
    assertEquals(practice + ": wrote the practice file.\n", run.err());
    assertEquals(Status.DONE, run.status());
    assertTrue(Files.readString(Path.of(practice)).contains("\"calibrated from 5 visits: "));
    String chart = Golden.demo("mild-one-visit.json");
    String before = Run.of("plan", chart).done();
    String after = Run.of("plan", chart, "--practice", practice).done();
    assertFalse(before.equals(after));
    Run again = calibrate("--practice", practice);
    assertEquals(Status.USAGE, again.status());
    assertTrue(again.err().startsWith("--practice: has times that were calibrated before"));
    assertEquals(Status.USAGE, calibrate("-o", practice).status());
  }

  @Test
  void cliniciansTimesAreWritten() throws IOException {
    String practice = folder.resolve("c1.json").toString();
    assertEquals(Status.DONE, calibrate("-o", practice, "--clinician", "C1").status());
    assertTrue(Files.readString(Path.of(practice)).contains(", for clinician C1"));
    Run unknown = calibrate("-o", folder.resolve("c9.json").toString(), "--clinician", "C9");
    assertEquals("--clinician: no visit of C9 is recorded; there are C1, C2.\n", unknown.err());
    assertEquals(Status.USAGE, unknown.status());
    assertFalse(Files.exists(folder.resolve("c9.json")));
    assertEquals(Status.USAGE, calibrate("--clinician", "C1").status());
  }

  @Test
  void everyBrokenCourseIsReportedAtOnce() throws IOException {
    String one = Files.writeString(folder.resolve("one.ndjson"), "{}\n{}\n").toString();
    String two = Files.writeString(folder.resolve("two.ndjson"), "").toString();
    Run run = Run.of("calibrate", one, two);
    assertEquals(Status.FILE, run.status());
    assertTrue(run.err().contains("one.ndjson"), run.err());
    assertTrue(run.err().contains("two.ndjson"), run.err());
    assertEquals("", run.out());
    assertEquals(Status.FILE, Run.of("calibrate", folder.resolve("no").toString()).status());
  }
}
