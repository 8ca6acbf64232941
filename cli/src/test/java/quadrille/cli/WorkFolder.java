package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import quadrille.cli.render.SamplePlan;

/** A folder in which commands write, as it was before them and as it is. */
final class WorkFolder {

  private static final String OWNER = "rw-------";
  private static final String AT = "--at=2026-03-02T12:00:00+01:00";

  /** Of a mouth that is begun, under a name of chance. */
  private static final Pattern NEW_MOUTH = Pattern.compile("drafts/new-[0-9a-f]{16}\\.draft");

  private final Path folder;
  private final Map<String, String> before = new TreeMap<>();

  /** Fills an empty folder with files of each kind. */
  WorkFolder(Path folder) throws IOException {
    this.folder = folder;
    Files.writeString(folder.resolve("plan.json"), SamplePlan.text());
    for (String name :
        List.of(
            "diary.json",
            "hanna.ics",
            "mild-one-visit.json",
            "typical.json",
            "typical-after.json")) {
      Files.copy(Path.of(Golden.demo(name)), folder.resolve(name));
    }
    // With a key of exports already, so that the same command leaves the same bytes.
    Path diary = folder.resolve("diary.json");
    Files.writeString(
        diary,
        Files.readString(diary)
            .replaceFirst("\\{", "{\n  \"exportKey\": \"" + "0a".repeat(16) + "\","));
    Files.writeString(folder.resolve("practice.json"), "{\"old\": true}\n");
    keep();
    restore();
  }

  String path(String name) {
    return folder.resolve(name).toString();
  }

  /** From now on, what is there now is what it was. */
  void keep() throws IOException {
    before.clear();
    before.putAll(texts());
  }

  /** Makes it as it was. */
  void restore() throws IOException {
    for (Path file : all()) {
      Files.delete(file);
    }
    for (Map.Entry<String, String> file : before.entrySet()) {
      Path path = folder.resolve(file.getKey());
      Files.writeString(path, file.getValue());
      Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(OWNER));
    }
  }

  private List<Path> all() throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    }
  }

  private List<Path> folders() throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isDirectory).sorted().toList();
    }
  }

  /** What is there now. */
  Map<String, String> texts() throws IOException {
    Map<String, String> texts = new TreeMap<>();
    for (Path file : all()) {
      texts.put(folder.relativize(file).toString(), Files.readString(file));
    }
    return texts;
  }

  /** Without the moment at which it was written. */
  private static String timeless(String text) {
    return text.replaceAll("(DTSTAMP|LAST-MODIFIED|CREATED):[0-9TZ]+", "$1")
        .replaceAll("\"at\": ?\"[^\"]+\"", "at")
        .replaceAll("\"check\":\"[^\"]+\"", "check");
  }

  /**
   * Checks what a command left that was ended: each file is old or new, none is lost, nothing can
   * be read by others, and the next command that writes there leaves nothing else.
   *
   * @param after what a command leaves that is not ended
   */
  void check(String when, Map<String, String> after) throws IOException {
    Map<String, String> now = texts();
    for (Map.Entry<String, String> file : now.entrySet()) {
      String name = file.getKey();
      assertEquals(
          OWNER,
          PosixFilePermissions.toString(Files.getPosixFilePermissions(folder.resolve(name))),
          when + " " + name);
      if (name.endsWith(".lock")) {
        assertEquals("", file.getValue(), when);
      } else if (!name.endsWith(".part")) {
        String text = timeless(file.getValue());
        assertTrue(
            text.equals(timeless(before.getOrDefault(name, "none")))
                || text.equals(timeless(after.getOrDefault(name, "none")))
                || NEW_MOUTH.matcher(name).matches() && after.containsValue(file.getValue()),
            when + ": " + name);
      }
    }
    for (String name : before.keySet()) {
      // What is taken away goes last, once all the rest is as it is to be.
      assertTrue(
          now.containsKey(name)
              || !after.containsKey(name) && now.keySet().containsAll(after.keySet()),
          when + " lost " + name);
    }
    for (Path inside : folders()) {
      Run.of("practice", "-o", inside.resolve("next.json").toString()).done();
      Files.delete(inside.resolve("next.json"));
    }
    assertEquals(
        List.of(), texts().keySet().stream().filter(name -> name.endsWith(".part")).toList(), when);
  }

  /** Checks that nothing has changed, and nothing is there that was not. */
  void checkUntouched(String when) throws IOException {
    assertEquals(before, texts(), when);
  }

  // ---- a course

  /** Begins a course, with the plan of a small mouth, which this makes. */
  String[] start() throws IOException {
    String chart = path("mild-one-visit.json");
    String plan = path("mild.plan.json");
    assertEquals(Status.DONE, Run.of("plan", chart, "--effort=quick", "-o", plan).status());
    keep();
    return new String[] {"record", path("course.ndjson"), "--start", plan, "--chart", chart, AT};
  }

  /** Records the course's one visit. */
  String[] visit() {
    return new String[] {
      "record",
      path("course.ndjson"),
      AT,
      "--visit=1",
      "--date=2026-03-02",
      "--clinician=C",
      "--minutes=30"
    };
  }

  /** A course with its visit, which is there from now on. */
  void record() throws IOException {
    assertEquals(Status.DONE, Run.of(start()).status());
    assertEquals(Status.DONE, Run.of(visit()).status());
    keep();
  }
}
