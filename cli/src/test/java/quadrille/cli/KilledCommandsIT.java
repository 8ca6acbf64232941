package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.serve.PracticeFolder;
import quadrille.cli.serve.ServedOnce;
import quadrille.document.FileStore;

/**
 * Every command that writes, as a process that the system kills as it enters each of its calls that
 * change the disk, or whose disk is full. Takes minutes, so only {@code -Pkills} runs it.
 */
@EnabledIfSystemProperty(named = "quadrille.kills", matches = "true")
final class KilledCommandsIT {

  /** Not the opening, of which the machine's load decides how many there are; a call follows it. */
  private static final String CALLS =
      "write,pwrite64,fsync,fdatasync,ftruncate,chmod,fchmod,fchmodat,chown,fchown,lchown,"
          + "link,linkat,rename,renameat,renameat2,unlink,unlinkat";

  private static final Pattern CALL = Pattern.compile("^(\\d+) +(\\w+)\\(.*");

  private static final String[] OPTIONS = {"-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"};

  private static final Path NOTHING = Path.of("/dev/null");

  @TempDir private Path folder;

  /** The n-th call of its kind by the thread that made it. */
  private record Call(String name, int number, String line) {
    boolean writes() {
      return List.of("write", "pwrite64", "fsync").contains(name)
          && (line.contains(".part>") || line.contains(".ndjson>"));
    }
  }

  /** A command in a folder of its own. */
  private static final class Case {
    private final Path folder;
    private final WorkFolder work;
    private final String name;
    private String[] args = {};
    private List<String> program = Spawned.program(OPTIONS);
    private int worst = Status.REFUSED;

    /** Whether each of its files is whole or not there, and not all of them together. */
    private boolean eachAlone;

    Case(Path all, String name) throws IOException {
      this.name = name;
      folder = Files.createDirectory(all.resolve(name.replace(' ', '-'))).toRealPath();
      work = new WorkFolder(folder);
    }

    Case of(String... words) {
      args = words;
      return this;
    }

    /**
     * @param filtered whether the kernel lets all other calls pass untraced, at a tenth of the cost
     */
    private List<String> traced(boolean filtered, String... how) {
      List<String> words = new ArrayList<>(List.of("strace", "-f"));
      if (filtered) {
        words.add("--seccomp-bpf");
      }
      words.addAll(List.of("-y", "-qq", "-e", "signal=none", "-o", log().toString()));
      words.addAll(List.of(how));
      words.addAll(program);
      words.addAll(List.of(args));
      return words;
    }

    private Path log() {
      return folder.resolveSibling(folder.getFileName() + ".log");
    }

    /** What it does to its folder; calls on other files are counted, too. */
    List<Call> calls() throws IOException, InterruptedException {
      Run run = Spawned.run(NOTHING, traced(true, "-e", "trace=" + CALLS));
      assertTrue(run.status() <= worst, name + ": " + run.err());
      Map<String, Integer> counts = new HashMap<>();
      List<Call> calls = new ArrayList<>();
      for (String line : Files.readAllLines(log())) {
        Matcher call = CALL.matcher(line);
        if (call.matches()) {
          String kind = call.group(2);
          int number = counts.merge(call.group(1) + kind, 1, Integer::sum);
          if (line.contains(folder + "/") || line.contains("<" + folder + ">")) {
            calls.add(new Call(kind, number, line));
          }
        }
      }
      return calls;
    }

    /** Whether the last that it did to its folder was to enter that call. */
    boolean died(Call call) throws IOException {
      return Files.readAllLines(log()).stream()
          .anyMatch(
              line ->
                  line.contains(" " + call.name() + "(")
                      && line.contains(folder.toString())
                      && line.matches(".*= \\?.*"));
    }

    Run injected(Call call, String fault) throws IOException, InterruptedException {
      work.restore();
      return Spawned.run(
          NOTHING,
          traced(
              // Of those that are filtered, strace 6.1 kills at the first of a kind only.
              !fault.startsWith("signal") || call.number() == 1,
              "-e",
              "trace=" + call.name(),
              "-e",
              "inject=" + call.name() + ":" + fault + ":when=" + call.number()));
    }

    /** Kills it at each call; answers how often it died there, and how often it did not. */
    int[] kill() throws IOException, InterruptedException {
      List<Call> calls = calls();
      Map<String, String> after = work.texts();
      int[] kills = {0, 0};
      for (Call call : calls) {
        Run run = injected(call, "signal=KILL");
        kills[died(call) && run.status() != 0 ? 0 : 1]++;
        work.check(name + ", " + call.line(), after);
      }
      return kills;
    }

    /** Refuses each write, as a full disk does; answers how often. */
    int refuse() throws IOException, InterruptedException {
      int refused = 0;
      List<Call> calls = calls();
      Map<String, String> after = work.texts();
      for (Call call : calls) {
        if (call.writes()) {
          Run run = injected(call, "error=ENOSPC");
          if (eachAlone) {
            assertSaid(run, "No space left on device");
            work.check(name + ", " + call.line(), after);
          } else {
            assertRefused(run, "No space left on device");
          }
          refused++;
        }
      }
      return refused;
    }

    /** Whether it changes a diary, or writes what a diary holds. */
    boolean ofDiary() {
      return List.of(args).contains(work.path("diary.json"))
          || List.of(args).contains("--diary=" + work.path("diary.json"));
    }

    /**
     * Kills it at moments by the clock, once a fifth of its time is over, and lets the next command
     * export all that the diary holds then; answers how often it died.
     */
    int killAtMoments(int moments, Random random) throws IOException, InterruptedException {
      List<String> words = new ArrayList<>(program);
      words.addAll(List.of(args));
      Set<String> old = exported();
      work.restore();
      long begun = System.nanoTime();
      assertTrue(Spawned.run(NOTHING, words).status() <= worst, name);
      double took = System.nanoTime() - begun;
      Map<String, String> after = work.texts();
      Set<String> now = exported();
      int died = 0;
      for (int moment = 0; moment < moments; moment++) {
        work.restore();
        long wait = (long) (took * (0.2 + 0.7 * random.nextDouble()));
        Process process =
            new ProcessBuilder(words)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        if (!process.waitFor(wait, TimeUnit.NANOSECONDS)) {
          process.destroyForcibly();
        }
        died += process.waitFor() == 128 + 9 ? 1 : 0;
        String when = name + ", killed after " + wait / 1_000_000 + " ms";
        work.check(when, after);
        Set<String> all = exported();
        assertTrue(all.equals(old) || all.equals(now), when + ": " + all);
      }
      return died;
    }

    /** What an export of the whole diary writes. */
    private Set<String> exported() throws IOException {
      Path to = folder.resolveSibling(folder.getFileName() + "-all");
      Run export = Run.of("diary", work.path("diary.json"), "--export=" + to, "--force");
      assertEquals(Status.DONE, export.status(), name + ": " + export.err());
      Set<String> names = new TreeSet<>();
      try (Stream<Path> files = Files.walk(to)) {
        for (Path file : files.filter(Files::isRegularFile).toList()) {
          assertFalse(file.toString().endsWith(".part"), file::toString);
          names.add(to.relativize(file).toString());
          Files.delete(file);
        }
      }
      return names;
    }

    void assertRefused(Run run, String why) throws IOException {
      assertSaid(run, why);
      work.checkUntouched(name);
    }

    private void assertSaid(Run run, String why) {
      assertEquals(Status.FILE, run.status(), name + ": " + run.err());
      assertTrue(run.err().contains("cannot be written: " + why), name + ": " + run.err());
    }
  }

  /**
   * @param refusing whether only those that end by themselves where the disk refuses; a server says
   *     so to the browser, and goes on
   */
  private List<Case> cases(boolean refusing) throws Exception {
    List<Case> cases = new ArrayList<>();
    Case one = new Case(folder, "practice");
    cases.add(one.of("practice", "-o", one.work.path("new.json")));
    one = new Case(folder, "practice over");
    cases.add(one.of("practice", "-o", one.work.path("practice.json"), "--force"));
    one = new Case(folder, "plan");
    String mild = one.work.path("mild-one-visit.json");
    cases.add(one.of("plan", mild, "--effort=quick", "-o", one.work.path("new.json")));
    one = new Case(folder, "reassess");
    cases.add(
        one.of(
            "reassess",
            one.work.path("typical.json"),
            one.work.path("typical-after.json"),
            "-o",
            one.work.path("new.json")));
    cases.add(book(new Case(folder, "book")));
    one = book(new Case(folder, "book over"));
    List<String> force = new ArrayList<>(List.of(one.args));
    for (String name : List.of("desk.ics", "patient.ics", "course.fhir.json")) {
      Files.writeString(Path.of(one.work.path(name)), "old");
    }
    one.work.keep();
    force.add("--force");
    cases.add(one.of(force.toArray(String[]::new)));
    one = new Case(folder, "rebook");
    cases.add(
        one.of(
            "rebook",
            one.work.path("diary.json"),
            "--from=2026-03-02",
            "--away=ines@2026-03-05",
            "--write",
            "--ics-practice=" + one.work.path("desk.ics")));
    for (List<String> verb :
        List.of(
            List.of("call-off", "DEMO-201/3", "--because=patient-ill"),
            List.of("hold", "DEMO-201/3"),
            List.of("done", "DEMO-201/2"),
            List.of("end", "DEMO-201", "--because=medical"),
            List.of("move", "DEMO-201/3", "--to=2026-03-19T09:20", "--past"),
            List.of("promise", "DEMO-201/3"),
            List.of("forget", "DEMO-201", "--file=log.ndjson"),
            List.of("undo"))) {
      cases.add(verb(new Case(folder, verb.get(0)), verb));
    }
    one = new Case(folder, "export");
    one.eachAlone = true;
    cases.add(
        one.of("diary", one.work.path("diary.json"), "--export=" + one.work.path("exported")));
    one = new Case(folder, "record start");
    cases.add(one.of(one.work.start()));
    one = new Case(folder, "record append");
    assertEquals(Status.DONE, Run.of(one.work.start()).status());
    one.work.keep();
    cases.add(one.of(one.work.visit()));
    one = new Case(folder, "calibrate");
    one.work.record();
    cases.add(one.of("calibrate", one.work.path("course.ndjson"), "-o", one.work.path("new.json")));
    one = new Case(folder, "calibrate over");
    one.work.record();
    cases.add(over(one, "calibrate", one.work.path("course.ndjson")));
    one = new Case(folder, "plan over");
    cases.add(over(one, "plan", one.work.path("mild-one-visit.json"), "--effort=quick"));
    one = new Case(folder, "reassess over");
    cases.add(
        over(one, "reassess", one.work.path("typical.json"), one.work.path("typical-after.json")));
    cases.addAll(answers());
    if (!refusing) {
      cases.addAll(served());
    }
    for (Case each : cases) {
      each.work.restore();
    }
    return cases;
  }

  /** A change of the diary; of a folder in which all is there that it wants to be there. */
  private static Case verb(Case one, List<String> verb) throws IOException {
    List<String> args = new ArrayList<>(verb);
    String diary = one.work.path("diary.json");
    switch (verb.get(0)) {
      case "promise" -> Run.of("hold", diary, verb.get(1)).done();
      case "undo" -> Run.of("call-off", diary, "DEMO-201/3", "--because=patient-ill").done();
      case "forget" -> {
        String log = one.work.path("log.ndjson");
        Files.writeString(Path.of(log), "a patient's\n");
        args.set(2, "--file=" + log);
        Run.of("end", diary, verb.get(1), "--because=medical").done();
      }
      default -> {}
    }
    one.work.keep();
    args.add(1, diary);
    return one.of(args.toArray(String[]::new));
  }

  /** What a browser has written of a folder that is served. */
  private List<Case> served() throws IOException, InterruptedException {
    List<Case> cases = new ArrayList<>();
    for (String what : List.of("begin", "keep", "keep over", "save", "accept")) {
      Case one = new Case(folder, "serve " + what);
      Files.delete(Path.of(one.work.path("practice.json")));
      Path charts = Files.createDirectory(one.folder.resolve("charts"));
      Files.copy(Path.of(Golden.demo("mild-one-visit.json")), charts.resolve("mild.json"));
      new PracticeFolder(one.folder, FileStore.USUAL, false).prepare();
      if (what.equals("keep over") || what.equals("save")) {
        ServedOnce.serve(one.folder, "mild.json", "keep");
      }
      one.work.keep();
      one.program = Spawned.program(ServedOnce.class, OPTIONS);
      one.worst = Status.DONE;
      cases.add(one.of(one.folder.toString(), "mild.json", what.replace(" over", "")));
    }
    return cases;
  }

  /** Commands that write what they answer. */
  private List<Case> answers() throws IOException {
    List<Case> cases = new ArrayList<>();
    Case one = new Case(folder, "chart");
    cases.add(one.of("chart", one.work.path("typical.json"), "-o", one.work.path("new.teeth")));
    one = new Case(folder, "chart new over");
    cases.add(over(one, "chart", "--new"));
    one = new Case(folder, "check");
    cases.add(one.of("check", one.work.path("typical.json"), "-o", one.work.path("new.json")));
    one = new Case(folder, "audit");
    cases.add(
        one.of(
            "audit",
            one.work.path("plan.json"),
            "--chart=" + one.work.path("typical.json"),
            "-o",
            one.work.path("new.txt")));
    one = new Case(folder, "kit");
    cases.add(one.of("kit", one.work.path("plan.json"), "-o", one.work.path("new.json")));
    one = new Case(folder, "compare");
    cases.add(
        one.of(
            "compare",
            one.work.path("mild-one-visit.json"),
            "--visits=1-2",
            "--effort=quick",
            "-o",
            one.work.path("new.html")));
    one = new Case(folder, "page");
    cases.add(one.of("page", one.work.path("diary.json"), "-o", one.work.path("new.html")));
    one = new Case(folder, "diary over");
    cases.add(over(one, "diary", one.work.path("diary.json"), "--week=2026-03-02"));
    one = new Case(folder, "record show");
    one.work.record();
    cases.add(
        one.of(
            "record", one.work.path("course.ndjson"), "--show", "-o", one.work.path("new.html")));
    return cases;
  }

  /** The same, over a file that is there. */
  private static Case over(Case one, String... words) {
    List<String> args = new ArrayList<>(List.of(words));
    args.addAll(List.of("-o", one.work.path("practice.json"), "--force"));
    return one.of(args.toArray(String[]::new));
  }

  private static Case book(Case one) {
    return one.of(
        "book",
        one.work.path("plan.json"),
        "--diary=" + one.work.path("diary.json"),
        "--from=2026-03-02",
        "--take=1",
        "--ics-practice=" + one.work.path("desk.ics"),
        "--ics-patient=" + one.work.path("patient.ics"),
        "--fhir=" + one.work.path("course.fhir.json"));
  }

  /** Each by a thread of its own: most of the time goes to starting processes. */
  private static <T> List<T> each(List<Case> cases, Work<T> work) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      List<Callable<T>> tasks = new ArrayList<>();
      for (Case one : cases) {
        tasks.add(() -> work.with(one));
      }
      List<T> answers = new ArrayList<>();
      for (Future<T> future : pool.invokeAll(tasks)) {
        answers.add(future.get());
      }
      return answers;
    } finally {
      pool.shutdownNow();
    }
  }

  private interface Work<T> {
    T with(Case one) throws IOException, InterruptedException;
  }

  private static void assumeTracer() {
    assumeTrue(
        Spawned.can("strace", "-f", "--seccomp-bpf", "-qq", "-e", "inject=fsync:error=EIO", "true"),
        "strace is not here, or may not trace");
  }

  @Test
  void killedAtEachCall() throws Exception {
    assumeTracer();
    List<Case> cases = cases(false);
    List<int[]> kills = each(cases, Case::kill);
    int all = 0;
    int missed = 0;
    for (int i = 0; i < kills.size(); i++) {
      System.out.println(
          cases.get(i).name + ": " + kills.get(i)[0] + " kills, missed " + kills.get(i)[1]);
      all += kills.get(i)[0];
      missed += kills.get(i)[1];
    }
    System.out.println(all + " kills, missed " + missed);
    assertTrue(all >= 100, all + " kills");
    // A server answers by several threads, one of which may come to a call of that kind before.
    assertTrue(missed <= all / 10, missed + " kills missed their call");
  }

  /** So many of all together; -Dquadrille.moments says another number. */
  private static final int MOMENTS = Integer.getInteger("quadrille.moments", 40);

  @Test
  void allIsExportedAfterAKillAtAnyMoment() throws Exception {
    List<Case> cases = cases(true).stream().filter(Case::ofDiary).toList();
    assertTrue(cases.size() >= 12, cases.size() + " cases of a diary");
    int moments = (MOMENTS + cases.size() - 1) / cases.size();
    List<Integer> died =
        each(cases, one -> one.killAtMoments(moments, new Random(one.name.hashCode())));
    int all = 0;
    for (int i = 0; i < died.size(); i++) {
      System.out.println(cases.get(i).name + ": " + died.get(i) + " of " + moments + " killed");
      all += died.get(i);
    }
    System.out.println(all + " of " + moments * cases.size() + " killed before their end");
    assertTrue(all >= moments * cases.size() / 3, all + " killed");
  }

  @Test
  void refusedAtEachWrite() throws Exception {
    assumeTracer();
    List<Integer> refused = each(cases(true), Case::refuse);
    System.out.println(refused + " writes refused");
    assertTrue(refused.stream().allMatch(number -> number >= 2), refused.toString());
  }

  /** The system's own limit, before and within a file. */
  @Test
  void limitOfTheSystem() throws Exception {
    assumeTrue(Spawned.can("bash", "-c", "ulimit -f 0"), "no limits here");
    each(
        cases(true),
        one -> {
          // In blocks of 1024 bytes; an entry of a log comes after what is there.
          for (int blocks : new int[] {0, 1}) {
            one.work.restore();
            List<String> words =
                new ArrayList<>(
                    List.of(
                        "bash",
                        "-c",
                        "set -o pipefail; (ulimit -f " + blocks + "; exec \"$@\") 2>&1 | cat",
                        "-"));
            words.addAll(Spawned.program(OPTIONS));
            words.addAll(List.of(one.args));
            Run run = Spawned.run(NOTHING, words);
            one.assertRefused(new Run(run.status(), "", run.out()), "File too large");
          }
          return 2;
        });
  }

  /** A file system that is full. */
  @Test
  void fullFileSystem() throws Exception {
    Path small = Files.createDirectory(folder.resolve("small"));
    assumeTrue(
        Spawned.can("mount", "-t", "tmpfs", "-o", "size=16m", "tmpfs", small.toString()),
        "nothing can be mounted here");
    Path all = folder;
    folder = small;
    try {
      // Nothing more fits.
      for (Case one : cases(true)) {
        Path filler = small.resolve("filler");
        Spawned.run(NOTHING, List.of("dd", "if=/dev/zero", "of=" + filler, "bs=4096"));
        List<String> words = new ArrayList<>(Spawned.program(OPTIONS));
        words.addAll(List.of(one.args));
        one.assertRefused(Spawned.run(NOTHING, words), "No space left on device");
        Files.delete(filler);
      }
    } finally {
      folder = all;
      assertTrue(Spawned.can("umount", small.toString()));
    }
  }
}
