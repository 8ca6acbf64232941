package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import quadrille.cli.serve.ServedOnce;

/** What every command answers; as a process of its own, on standard output. */
public final class EveryCommand {

  private EveryCommand() {}

  /**
   * @param folder a {@link WorkFolder} with a course
   * @param searching whether also the commands that search for a plan, which take seconds each
   */
  static Map<String, String> answers(Path folder, boolean searching) throws Exception {
    String typical = folder.resolve("typical.json").toString();
    String after = folder.resolve("typical-after.json").toString();
    String mild = folder.resolve("mild-one-visit.json").toString();
    String plan = folder.resolve("plan.json").toString();
    String diary = folder.resolve("diary.json").toString();
    String course = folder.resolve("course.ndjson").toString();
    List<List<String>> searches =
        List.of(
            List.of("plan", mild, "--effort=quick", "--explain"),
            List.of("plan", mild, "--effort=quick", "--format=json"),
            List.of("plan", mild, "--effort=quick", "--format=html", "--language=de"),
            List.of("compare", mild, "--effort=quick", "--visits=1-2"),
            List.of("compare", mild, "--effort=quick", "--visits=1-2", "--format=json"),
            List.of("compare", mild, "--effort=quick", "--visits=1-2", "--format=html"));
    List<List<String>> commands =
        List.of(
            List.of("chart", typical),
            List.of("chart", typical, "--format=csv"),
            List.of("chart", typical, "--format=json"),
            List.of("chart", "--new"),
            List.of("chart", "--new", "--numbering=universal", "--format=csv"),
            List.of("chart", "--new", "--teeth=32", "--format=json"),
            List.of("check", typical),
            List.of("check", Golden.demo("moderate.csv"), "--format=json"),
            List.of("practice", "--practice", Golden.demo("small-clinic.practice.json")),
            List.of("kit", plan),
            List.of("kit", plan, "--format=json"),
            List.of("reassess", typical, after),
            List.of("reassess", typical, after, "--format=json"),
            List.of("audit", plan, "--chart", typical),
            List.of("audit", plan, "--chart", typical, "--format=json"),
            List.of("page", plan, "--chart", typical),
            List.of("page", course, "--language=de"),
            List.of("page", course, "--page=progress"),
            List.of("page", diary, "--week=2026-03-02"),
            List.of("diary", diary, "--week=2026-03-02"),
            List.of("diary", diary, "--week=2026-03-02", "--format=json"),
            List.of("diary", diary, "--week=2026-03-02", "--format=html"),
            List.of("book", plan, "--diary", diary, "--from=2026-03-02"),
            List.of("book", plan, "--diary", diary, "--from=2026-03-02", "--format=json"),
            List.of("rebook", diary, "--from=2026-03-02", "--away=ines@2026-03-05"),
            List.of("rebook", diary, "--from=2026-03-02", "--closed=2026-03-05", "--format=json"),
            List.of("record", course, "--show"),
            List.of("record", course, "--show", "--format=json"),
            List.of("record", course, "--show", "--format=html"),
            List.of("calibrate", course),
            List.of("calibrate", course, "--format=json"),
            List.of("plan", "--help"));
    Map<String, String> answers = new TreeMap<>();
    for (List<String> command :
        Stream.concat(commands.stream(), searching ? searches.stream() : Stream.empty()).toList()) {
      Run run = Run.of(command.toArray(String[]::new));
      answers.put(String.join(" ", command), run.status() + "\n" + run.out() + run.err());
      if (run.status() != Status.DONE && run.status() != Status.REFUSED) {
        throw new IllegalStateException(String.join(" ", command) + ": " + run.err());
      }
    }
    answers.putAll(verbs(folder));
    if (searching) {
      answers.putAll(ServedOnce.pages(folder));
    }
    return answers;
  }

  /** The desk's verbs, what the diary holds after them all, and what it exports then. */
  private static Map<String, String> verbs(Path folder) throws IOException {
    Path copy = folder.resolve("desk.json");
    Path exported = folder.resolve("exported");
    // What is exported already would not be written again.
    for (Path old : files(exported)) {
      Files.delete(old);
    }
    Files.copy(folder.resolve("diary.json"), copy, StandardCopyOption.REPLACE_EXISTING);
    String diary = copy.toString();
    Map<String, String> answers = new TreeMap<>();
    for (List<String> verb :
        List.of(
            List.of("hold", diary, "DEMO-201/3"),
            List.of("promise", diary, "DEMO-201/3"),
            List.of("move", diary, "DEMO-201/3", "--to=2026-03-19T09:20"),
            List.of("undo", diary),
            List.of("call-off", diary, "DEMO-201/3", "--because=patient-ill", "--sooner"),
            List.of("end", diary, "DEMO-201", "--because=medical"),
            List.of("diary", diary, "--journal"),
            List.of("diary", diary, "--calls"),
            List.of("diary", diary, "--export=" + exported),
            List.of("forget", diary, "DEMO-201"))) {
      Run run = Run.of(verb.toArray(String[]::new));
      answers.put(String.join(" ", verb), run.status() + "\n" + run.out() + run.err());
      if (run.status() != Status.DONE) {
        throw new IllegalStateException(String.join(" ", verb) + ": " + run.err());
      }
    }
    answers.put("the diary afterwards", Files.readString(copy));
    for (Path file : files(exported)) {
      answers.put("exported " + exported.relativize(file), Files.readString(file));
    }
    return answers;
  }

  private static List<Path> files(Path folder) throws IOException {
    if (!Files.exists(folder)) {
      return List.of();
    }
    try (Stream<Path> all = Files.walk(folder)) {
      return all.filter(Files::isRegularFile).toList();
    }
  }

  public static void main(String[] args) throws Exception {
    StringBuilder all = new StringBuilder();
    answers(Path.of(args[0]), true)
        .forEach((command, answer) -> all.append(command).append(answer));
    System.out.writeBytes(all.toString().getBytes(UTF_8));
    System.out.flush();
  }
}
