package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import quadrille.cli.render.SamplePlan;

/**
 * Files that were changed at random, and arguments at their edges, through the commands: each ends
 * with a status of 0 to 3 and words, never as a fault of the program, within five seconds of the
 * processor, and leaves no part of a file behind.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
final class FuzzTest {

  private static final boolean THOROUGH = Boolean.getBoolean("quadrille.thorough");
  private static final int FILES = THOROUGH ? 14_000 : 160;
  private static final int LINES = THOROUGH ? 3_000 : 60;
  private static final long MOST_NANOS = 5_000_000_000L;
  private static final String VICTIM = "victim";

  /** Searching takes long by design; what they read is read by other commands too. */
  private static final Set<String> SEARCHING = Set.of("plan", "compare", "serve");

  @TempDir static Path folder;

  /** Whole files by name. */
  private final Map<String, String> whole = new TreeMap<>();

  /** Kinds of files: names of whole ones, and the commands that read one in place of VICTIM. */
  private final Map<List<String>, List<List<String>>> readers = new LinkedHashMap<>();

  private long slowest;
  private String slowestOf = "";

  @BeforeAll
  void prepare() throws IOException {
    for (String name :
        List.of(
            "diary.json",
            "hanna.ics",
            "heart-disease.json",
            "implants-both-sides.json",
            "mild-one-visit.json",
            "moderate.csv",
            "small-clinic.practice.json",
            "typical-after.json",
            "typical.json",
            "unprobed.json")) {
      Files.copy(Path.of(Golden.demo(name)), folder.resolve(name));
    }
    Files.writeString(folder.resolve("plan.json"), SamplePlan.text());
    chart("typical.json", "typical.teeth");
    chart("implants-both-sides.json", "implants.teeth");
    chart("typical.json", "typical.csv");
    exported();
    String course = path("course.ndjson");
    String mild = path("mild-one-visit.json");
    well("plan", mild, "--effort=quick", "-o", path("mild.plan.json"));
    well("record", course, "--start", path("mild.plan.json"), "--chart", mild);
    Files.copy(Path.of(course), folder.resolve("begun.ndjson"));
    Files.writeString(folder.resolve("visit.json"), VISIT);
    well("record", course, "--from", path("visit.json"));
    Files.writeString(
        folder.resolve("answers.txt"), "2026-03-02\nC\n64\n1\n1\n\n\n\n\n\n\nno\nnote\n");
    keep();
    assertTrue(
        whole.getOrDefault("course.ndjson", "").lines().count() >= 2, "a course with a visit");
    readers();
  }

  private static final String VISIT =
      """
      {"schema": "quadrille/visit/1", "numbering": "iso3950", "visit": 1, "date": "2026-03-02",
       "clinician": "C2", "minutes": 64, "note": "left early"}
      """;

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private static void well(String... command) {
    Run run = Run.of(command);
    assertEquals(Status.DONE, run.status(), () -> told(String.join(" ", command), run));
  }

  private void chart(String from, String to) {
    Run.of("chart", path(from), "-o", path(to)).done();
  }

  /** A table of another program, a mapping that reads it, and the same chart as FHIR. */
  private void exported() throws IOException {
    Files.writeString(folder.resolve("export.csv"), EXPORT);
    Path mapping = folder.resolve("mapping.json");
    well("chart", path("export.csv"), "--propose", "-o", mapping.toString());
    Files.writeString(
        mapping,
        Files.readString(mapping)
            .replace("\"confirmed\": false", "\"confirmed\": true")
            .replace("\"words\"", CODES + ", \"words\""));
    Run read = Run.of("chart", path("export.csv"), "--mapping", mapping.toString());
    Path teeth = folder.resolve("export.teeth");
    Files.writeString(teeth, read.out().replaceFirst("\n", "\ncharted 2026-03-02\n"));
    Run bundle =
        Run.of(
            "chart",
            teeth.toString(),
            "--fhir",
            "--mapping=" + mapping,
            "--output=" + path("bundle.json"));
    assertEquals(Status.DONE, bundle.status(), bundle.err());
  }

  private static final String EXPORT =
      "Case;Tooth;Aspect;Depth distal;Depth middle;Depth mesial;Deposit\n"
          + "K-1;46;facial;3;4;3;heavy\nK-1;46;lingual;3;4;5;\n";

  private static final String CODES =
      "\"codes\": [ { \"system\": \"urn:x\", \"code\": \"d\", \"means\": \"deposit\" },"
          + " { \"system\": \"urn:x\", \"code\": \"p\", \"means\": \"depth facial distal\" } ]";

  private void readers() {
    String typical = path("typical.json");
    String plan = path("plan.json");
    String diary = path("diary.json");
    String mild = path("mild-one-visit.json");
    String course = path("begun.ndjson");
    kind(
        List.of("typical.json", "heart-disease.json", "implants-both-sides.json", "unprobed.json"),
        List.of(
            List.of("check", VICTIM),
            List.of("chart", VICTIM, "--format=csv"),
            List.of("audit", plan, "--chart", VICTIM),
            List.of("reassess", typical, VICTIM, "--format=json")));
    kind(
        List.of("moderate.csv", "typical.csv"),
        List.of(
            List.of("check", VICTIM),
            List.of("chart", VICTIM),
            List.of("chart", VICTIM, "--propose")));
    kind(
        List.of("typical.teeth", "implants.teeth"),
        List.of(
            List.of("check", VICTIM, "--format=json"), List.of("chart", VICTIM, "--format=json")));
    kind(
        List.of("bundle.json", "mapping.json", "export.csv"),
        List.of(
            List.of("chart", VICTIM, "--propose"),
            List.of("chart", VICTIM, "--mapping", path("mapping.json")),
            List.of("chart", path("export.csv"), "--mapping", VICTIM)));
    kind(
        List.of("small-clinic.practice.json"),
        List.of(
            List.of("practice", "--practice", VICTIM),
            List.of("check", typical, "--practice", VICTIM)));
    kind(
        List.of("plan.json", "mild.plan.json"),
        List.of(
            List.of("kit", VICTIM),
            List.of("audit", VICTIM, "--chart", typical),
            List.of("page", VICTIM, "--chart", typical),
            List.of("record", path("new.ndjson"), "--start", VICTIM, "--chart", mild),
            List.of("book", VICTIM, "--diary", diary, "--from=2026-03-02", "--until=2026-03-20")));
    kind(
        List.of("diary.json"),
        List.of(
            List.of("diary", VICTIM, "--week=2026-03-02"),
            List.of("diary", VICTIM, "--journal"),
            List.of("diary", VICTIM, "--calls"),
            List.of("diary", VICTIM, "--export", path("export")),
            List.of("call-off", VICTIM, "DEMO-201/3", "--because=patient-ill"),
            List.of("page", VICTIM, "--week=2026-03-02")));
    kind(
        List.of("hanna.ics"),
        List.of(
            List.of("book", plan, "--diary", diary, "--from=2026-03-02", "--patient-ics", VICTIM)));
    kind(
        List.of("course.ndjson", "begun.ndjson"),
        List.of(
            List.of("record", VICTIM, "--show"),
            List.of("record", VICTIM, "--show", "--format=html"),
            List.of("record", VICTIM, "--from", path("visit.json")),
            List.of("calibrate", VICTIM),
            List.of("page", VICTIM)));
    kind(List.of("visit.json"), List.of(List.of("record", course, "--from", VICTIM)));
    kind(List.of("answers.txt"), List.of(List.of("record", course, "--ask")));
  }

  private void kind(List<String> names, List<List<String>> commands) {
    readers.put(names, commands);
  }

  private void keep() throws IOException {
    whole.clear();
    whole.putAll(texts());
  }

  private Map<String, String> texts() throws IOException {
    Map<String, String> texts = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        texts.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return texts;
  }

  /** What commands wrote goes, and what they changed is as it was. */
  private void restore() throws IOException {
    List<Path> all;
    try (Stream<Path> files = Files.walk(folder)) {
      all = files.sorted((one, other) -> other.compareTo(one)).toList();
    }
    for (Path file : all) {
      String name = folder.relativize(file).toString();
      assertFalse(name.endsWith(".part"), name);
      if (!whole.containsKey(name) && !file.equals(folder)) {
        Files.delete(file);
      }
    }
    for (Map.Entry<String, String> file : whole.entrySet()) {
      Path path = folder.resolve(file.getKey());
      if (!Files.exists(path) || !Files.readString(path).equals(file.getValue())) {
        Files.writeString(path, file.getValue());
      }
    }
  }

  /** Runs a command and judges how it ended. */
  private Run judged(String what, String in, List<String> command) throws IOException {
    long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Run run = Run.withInput(in, command.toArray(String[]::new));
    long took = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
    if (took > slowest) {
      slowest = took;
      slowestOf = what;
    }
    assertTrue(run.status() >= Status.DONE && run.status() <= Status.FILE, () -> told(what, run));
    assertFalse(
        run.err().contains("\tat ") || run.err().contains("A fault of"), () -> told(what, run));
    assertTrue(
        run.status() == Status.DONE || !(run.out() + run.err()).isBlank(), () -> told(what, run));
    assertTrue(took < MOST_NANOS, () -> what + " took " + took / 1_000_000 + " ms");
    restore();
    return run;
  }

  private static String told(String what, Run run) {
    return what + "\nstatus " + run.status() + "\n" + run.err();
  }

  @Test
  void changedFilesAreReadOrRefused() throws IOException {
    Map<Integer, Integer> statuses = new TreeMap<>();
    for (int number = 0; number < FILES; number++) {
      Mutants mutants = new Mutants(new Random(20261130L + number));
      List<String> names = mutants.any(List.copyOf(readers.keySet()));
      String name = mutants.any(names);
      byte[] bytes = mutants.bytes(text(name), text(mutants.any(names)));
      List<String> command = mutants.any(readers.getOrDefault(names, List.of()));
      Path victim = folder.resolve(VICTIM + name.substring(name.lastIndexOf('.')));
      Files.write(victim, bytes);
      List<String> words =
          command.stream().map(word -> word.equals(VICTIM) ? victim.toString() : word).toList();
      String in = name.equals("answers.txt") ? new String(bytes, UTF_8) : "";
      String what = "file " + number + ": " + name + ", " + String.join(" ", command);
      statuses.merge(judged(what, in, words).status(), 1, Integer::sum);
    }
    System.err.println(FILES + " files, by status: " + statuses + slowest());
    assertTrue(statuses.containsKey(Status.DONE) && statuses.containsKey(Status.FILE), "both");
  }

  private String text(String name) {
    return whole.getOrDefault(name, "");
  }

  private String slowest() {
    return "; the slowest took " + slowest / 1_000_000 + " ms: " + slowestOf;
  }

  /** Every command but those that search, with options at random and values at their edges. */
  @Test
  void argumentsAtTheirEdgesAreTakenOrRefused() throws IOException {
    Set<String> before = here();
    Map<String, CommandLine> commands = new TreeMap<>(commands());
    SEARCHING.forEach(commands::remove);
    Map<Integer, Integer> statuses = new TreeMap<>();
    for (int number = 0; number < LINES; number++) {
      Mutants mutants = new Mutants(new Random(30261130L + number));
      CommandSpec spec = commands.get(mutants.any(List.copyOf(commands.keySet()))).getCommandSpec();
      List<String> words = new ArrayList<>(List.of(spec.name()));
      for (ArgSpec file : spec.positionalParameters()) {
        words.add(value(file, mutants));
      }
      List<OptionSpec> options =
          spec.options().stream().filter(one -> !one.usageHelp() && !one.versionHelp()).toList();
      for (int more = new Random(number).nextInt(4); more > 0; more--) {
        OptionSpec option = mutants.any(options);
        words.add(
            option.longestName() + (option.arity().max() == 0 ? "" : "=" + value(option, mutants)));
      }
      String what = "line " + number + ": " + words;
      statuses.merge(judged(what, mutants.any(Mutants.EDGES), words).status(), 1, Integer::sum);
    }
    System.err.println(LINES + " command lines, by status: " + statuses + slowest());
    assertEquals(before, here(), "nothing is written beside the folder");
  }

  private static Map<String, CommandLine> commands() {
    Streams none =
        new Streams(
            InputStream.nullInputStream(),
            OutputStream.nullOutputStream(),
            new PrintWriter(OutputStream.nullOutputStream(), true),
            false);
    return Main.commandLine(none).getSubcommands();
  }

  /** A file of the folder where a file is asked for, so that nothing else is ever written. */
  private String value(ArgSpec arg, Mutants mutants) {
    String label = arg.paramLabel();
    boolean file =
        Stream.of("FILE", "FOLDER", "DIARY", "PLAN", "CHART", "COURSE", "BEFORE", "AFTER")
            .anyMatch(label::contains);
    if (!file) {
      return mutants.oneIn(3) ? "DEMO-201/3" : mutants.any(Mutants.EDGES);
    }
    String name = mutants.oneIn(4) ? "no-such-file" : mutants.any(List.copyOf(whole.keySet()));
    return label.startsWith("CASE=") ? "DEMO-201=" + path(name) : path(name);
  }

  /** What lies in the folder that the tests run in. */
  private static Set<String> here() throws IOException {
    try (Stream<Path> files = Files.list(Path.of(""))) {
      return new TreeSet<>(files.map(Path::toString).toList());
    }
  }
}
