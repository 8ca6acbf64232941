package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.file.Path;
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
    if (searching) {
      answers.putAll(ServedOnce.pages(folder));
    }
    return answers;
  }

  public static void main(String[] args) throws Exception {
    StringBuilder all = new StringBuilder();
    answers(Path.of(args[0]), true)
        .forEach((command, answer) -> all.append(command).append(answer));
    System.out.writeBytes(all.toString().getBytes(UTF_8));
    System.out.flush();
  }
}
