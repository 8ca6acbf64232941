package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.render.SamplePlan;
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

  private static final Path DEMO = Path.of("..", "demo-data");

  @TempDir private Path folder;

  private final Map<String, String> before = new TreeMap<>();

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

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  @BeforeEach
  void copy() throws IOException {
    Files.writeString(folder.resolve("plan.json"), SamplePlan.text());
    for (String name : List.of("diary.json", "hanna.ics", "typical.json", "typical-after.json")) {
      Files.copy(DEMO.resolve(name), folder.resolve(name));
    }
    Files.writeString(folder.resolve("practice.json"), "{\"old\": true}\n");
    for (Path file : all()) {
      Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
    }
    before.putAll(texts());
  }

  private List<Path> all() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.sorted().toList();
    }
  }

  private Map<String, String> texts() throws IOException {
    Map<String, String> texts = new TreeMap<>();
    for (Path file : all()) {
      texts.put(file.getFileName().toString(), Files.readString(file));
    }
    return texts;
  }

  /** Without the moment at which it was written. */
  private static String timeless(String text) {
    return text.replaceAll("(DTSTAMP|LAST-MODIFIED|CREATED):[0-9TZ]+", "$1")
        .replaceAll("\"at\":\"[^\"]+\"", "at")
        .replaceAll("\"check\":\"[^\"]+\"", "check");
  }

  private void restore() throws IOException {
    for (Path file : all()) {
      Files.delete(file);
    }
    for (Map.Entry<String, String> file : before.entrySet()) {
      Files.writeString(folder.resolve(file.getKey()), file.getValue());
      Files.setPosixFilePermissions(
          folder.resolve(file.getKey()), PosixFilePermissions.fromString("rw-------"));
    }
  }

  /** Answers with how often the command was ended. */
  private int endedAtEachStep(String... args) throws IOException {
    assertTrue(Run.of(args).status() <= Status.REFUSED, () -> Run.of(args).err());
    Map<String, String> after = texts();
    int ends = 0;
    while (true) {
      restore();
      Ending ending = new Ending(ends);
      Run.over(new FileStore(FileRules.USUAL, ending), args);
      String when = args[0] + ", step " + ends;
      for (Map.Entry<String, String> file : texts().entrySet()) {
        String name = file.getKey();
        String mode =
            PosixFilePermissions.toString(Files.getPosixFilePermissions(folder.resolve(name)));
        if (name.endsWith(".lock")) {
          assertEquals("", file.getValue(), when);
        } else if (name.endsWith(".part")) {
          assertEquals("rw-------", mode, when);
        } else {
          assertEquals("rw-------", mode, when + " " + name);
          String text = timeless(file.getValue());
          assertTrue(
              text.equals(timeless(before.getOrDefault(name, "none")))
                  || text.equals(timeless(after.getOrDefault(name, "none"))),
              when + ": " + name);
        }
      }
      for (String name : before.keySet()) {
        assertTrue(Files.exists(folder.resolve(name)), when + " lost " + name);
      }
      Run.of("practice", "-o", path("next.json")).done();
      assertEquals(
          List.of(),
          texts().keySet().stream().filter(name -> name.endsWith(".part")).toList(),
          when);
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
    String chart = DEMO.resolve("mild-one-visit.json").toString();
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
    String chart = DEMO.resolve("mild-one-visit.json").toString();
    String plan = path("mild.plan.json");
    assertEquals(Status.DONE, Run.of("plan", chart, "--effort=quick", "-o", plan).status());
    before.putAll(texts());
    String at = "--at=2026-03-02T12:00:00+01:00";
    String course = path("course.ndjson");
    int ends = endedAtEachStep("record", course, "--start", plan, "--chart", chart, at);
    before.put("course.ndjson", Files.readString(Path.of(course)));
    List<String> visit = new ArrayList<>(List.of("record", course, at));
    visit.addAll(List.of("--visit=1", "--date=2026-03-02", "--clinician=C", "--minutes=30"));
    ends += endedAtEachStep(visit.toArray(String[]::new));
    assertTrue(ends >= 9, ends + " ends");
    assertEquals(2, CourseFile.read(Path.of(course)).entries().size());
  }
}
