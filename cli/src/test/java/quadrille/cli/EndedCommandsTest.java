package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.diary.file.DiaryFile;
import quadrille.document.FileRules;
import quadrille.document.FileSteps;
import quadrille.document.FileStore;
import quadrille.treatment.record.CourseFile;

/**
 * Every command that writes, ended just before each thing that it does to the disk: each file is as
 * before or as after, nothing that is left can be read by others, and the next run leaves nothing.
 */
@Tag("slow")
final class EndedCommandsTest {

  @TempDir private Path folder;

  private WorkFolder work;

  /** Ends the process as the disk sees it: from a step on, nothing is done any more. */
  private static final class Ending implements FileSteps {
    private int left;
    private boolean ended;

    Ending(int left) {
      this.left = left;
    }

    @Override
    public void before(Step step, Path file) {
      if (left-- <= 0) {
        ended = true;
        throw new Ended();
      }
    }
  }

  private static final class Ended extends Error {
    private static final long serialVersionUID = 1L;
  }

  @BeforeEach
  void fill() throws IOException {
    work = new WorkFolder(folder);
  }

  private String path(String name) {
    return work.path(name);
  }

  /** Answers with how often the command was ended. */
  private int endedAtEachStep(String... args) throws IOException {
    assertTrue(Run.of(args).status() <= Status.REFUSED, () -> Run.of(args).err());
    Map<String, String> after = work.texts();
    int ends = 0;
    while (true) {
      work.restore();
      Ending ending = new Ending(ends);
      Run.over(new FileStore(FileRules.USUAL, ending), args);
      work.check(args[0] + ", step " + ends, after);
      if (!ending.ended) {
        return ends;
      }
      ends++;
    }
  }

  @Test
  void practice() throws IOException {
    int ends = endedAtEachStep("practice", "-o", path("new.json"));
    ends += endedAtEachStep("practice", "-o", path("practice.json"), "--force");
    assertTrue(ends >= 13, ends + " ends");
  }

  @Test
  void plan() throws IOException {
    String chart = Golden.demo("mild-one-visit.json");
    int ends = endedAtEachStep("plan", chart, "--effort", "quick", "-o", path("new.json"));
    assertTrue(ends >= 6, ends + " ends");
  }

  @Test
  void reassess() throws IOException {
    int ends =
        endedAtEachStep(
            "reassess", path("typical.json"), path("typical-after.json"), "-o", path("new.json"));
    assertTrue(ends >= 6, ends + " ends");
  }

  @Test
  void book() throws Exception {
    int ends =
        endedAtEachStep(
            "book",
            path("plan.json"),
            "--diary=" + path("diary.json"),
            "--from=2026-03-02",
            "--take=1",
            "--ics-practice=" + path("desk.ics"),
            "--ics-patient=" + path("patient.ics"),
            "--fhir=" + path("course.fhir.json"));
    assertTrue(ends >= 25, ends + " ends");
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(folder.resolve("diary.json"))));
  }

  @Test
  void rebook() throws Exception {
    int ends =
        endedAtEachStep(
            "rebook",
            path("diary.json"),
            "--from=2026-03-02",
            "--away=ines@2026-03-05",
            "--write",
            "--ics-practice=" + path("desk.ics"));
    assertTrue(ends >= 12, ends + " ends");
  }

  @Test
  void record() throws Exception {
    String[] start = work.start();
    int ends = endedAtEachStep(start);
    work.keep();
    ends += endedAtEachStep(work.visit());
    assertTrue(ends >= 9, ends + " ends");
    assertEquals(2, CourseFile.read(folder.resolve("course.ndjson")).entries().size());
  }

  @Test
  void calibrate() throws IOException {
    work.record();
    String course = path("course.ndjson");
    int ends = endedAtEachStep("calibrate", course, "-o", path("new.json"));
    ends += endedAtEachStep("calibrate", course, "-o", path("practice.json"), "--force");
    assertTrue(ends >= 13, ends + " ends");
  }
}
