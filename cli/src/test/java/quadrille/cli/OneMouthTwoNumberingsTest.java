package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/**
 * What every command says of a mouth is the same in either numbering, tooth by tooth. Most codes
 * are teeth of both, so that digits prove nothing; the teeth are marked ({@link MarkedProgram}),
 * and each answer about the mouth charted in ISO 3950 codes, its marked teeth renamed one by one,
 * must be the answer about the mouth numbered 1 to 32.
 */
final class OneMouthTwoNumberingsTest {
  private static final Pattern NAMED = Pattern.compile("Q(\\d+)Q");
  private static final Pattern UNNAMED = Pattern.compile(".{0,60}R\\d\\dR.{0,20}");
  private static final Pattern STEP =
      Pattern.compile("\"do\": \"debride\",\\s*\"area\": \"([^\"]*)\"[^}]*?\"pass\": \"([^\"]*)\"");

  @TempDir private static Path shared;
  private static MarkedProgram program;

  @TempDir private Path folder;

  @BeforeAll
  static void mark() throws Exception {
    program = new MarkedProgram(shared);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 3})
  void everyAnswerNamesTheSameTeeth(long seed) throws Exception {
    Map<String, String> iso = new Answers(mouth(seed, Numbering.ISO3950)).all();
    Map<String, String> universal = new Answers(mouth(seed, Numbering.UNIVERSAL)).all();
    assertEquals(iso.keySet(), universal.keySet());
    List<String> wrong = new ArrayList<>();
    int named = 0;
    for (Map.Entry<String, String> one : iso.entrySet()) {
      String of = universal.get(one.getKey());
      Matcher unnamed = UNNAMED.matcher(one.getValue() + of);
      if (unnamed.find()) {
        wrong.add(one.getKey() + ": without a numbering: " + unnamed.group());
      }
      String renamed = NAMED.matcher(one.getValue()).replaceAll(n -> renamed(n.group(1)));
      if (!renamed.equals(of)) {
        wrong.add(one.getKey() + ": " + firstDifference(renamed, of));
      }
      named += (int) NAMED.matcher(of).results().count();
    }
    assertEquals(List.of(), wrong, String.join("\n", wrong));
    assertTrue(named > 100, "teeth are named: " + named);
  }

  private static String renamed(String iso) {
    return "Q" + Numbering.UNIVERSAL.name(Tooth.ofIso(Integer.parseInt(iso))) + "Q";
  }

  private static String firstDifference(String one, String other) {
    int at = 0;
    while (at < Math.min(one.length(), other.length()) && one.charAt(at) == other.charAt(at)) {
      at++;
    }
    int from = Math.max(0, at - 80);
    return one.substring(from, Math.min(one.length(), at + 60))
        + "\n    but numbered 1 to 32: "
        + other.substring(from, Math.min(other.length(), at + 60));
  }

  /** A small mouth; the same for the same seed, whatever the numbering. */
  static Chart mouth(long seed, Numbering numbering) {
    Random random = new Random(seed);
    List<ToothChart> teeth = new ArrayList<>();
    for (Tooth tooth : Tooth.values()) {
      if (random.nextInt(4) == 0) {
        boolean implant = random.nextInt(8) == 0;
        teeth.add(
            new ToothChart(
                tooth,
                implant ? ToothStatus.IMPLANT : ToothStatus.NATURAL,
                Deposit.values()[1 + random.nextInt(3)],
                !implant && tooth.furcated() ? random.nextInt(3) : 0,
                implant ? 0 : random.nextInt(3),
                random.nextInt(4) == 0 ? EnumSet.of(Feature.CROWDED) : Set.of(),
                reading(random),
                reading(random)));
      }
    }
    return new Chart(
        "MADE-UP " + seed,
        LocalDate.of(2026, 2, 20),
        numbering,
        new Patient(54, seed == 3 ? null : 70.0, 90, Set.of(), null, false),
        teeth);
  }

  private static AspectReading reading(Random random) {
    return new AspectReading(site(random), site(random), site(random));
  }

  private static Site site(Random random) {
    return new Site(2 + random.nextInt(6), random.nextInt(2), random.nextBoolean());
  }

  /** What the commands answer to one mouth, by the command. */
  private final class Answers {
    private final Map<String, String> answers = new LinkedHashMap<>();
    private final Chart mouth;
    private final Path own;

    Answers(Chart mouth) throws IOException {
      this.mouth = mouth;
      this.own = Files.createDirectories(folder.resolve(mouth.numbering().word()));
    }

    Map<String, String> all() throws Exception {
      String chart = write("chart.json", marked(ChartWriter.json(mouth)));
      String diary = AtTheDesk.copyDiary(own).toString();
      String plan = own.resolve("plan.json").toString();
      String course = own.resolve("course.ndjson").toString();

      shown("check", chart);
      forms(chart);
      served(chart);
      answer("plan", "plan", chart, "--effort", "quick", "--visits", "1-2", "-o", plan);
      shownOnce("compare", chart, "--visits", "2", "--effort", "quick");
      String after = write("after.json", shallower(Files.readString(Path.of(chart))));
      shown("reassess", chart, after);
      faults(chart);
      if (!Files.exists(Path.of(plan))) {
        // What stands in the way is named above, tooth by tooth.
        return answers;
      }
      file(plan);
      answer("plan text", "plan", chart, "--effort", "quick", "--visits", "1-2", "--explain");
      answer(
          "plan html", "plan", chart, "--effort", "quick", "--visits", "1-2", "--format", "html");
      shown("kit", plan);
      shown("audit", plan, "--chart", chart);
      shown("audit", write("wrong.json", wrong(Files.readString(Path.of(plan)))), "--chart", chart);

      answer("begin", "record", course, "--start", plan, "--chart", chart, "--at", at(1));
      record(course, Files.readString(Path.of(plan)));
      shows(course);
      String again = own.resolve("again.json").toString();
      answer("again", "plan", "--course", course, "--effort", "quick");
      answer("again html", "plan", "--course", course, "--effort", "quick", "--format", "html");
      answer("adopt", "plan", "--course", course, "--effort", "quick", "-o", again, "--adopt");
      file(again);
      shows(course);
      shown("kit", again);
      file(course);
      shown("calibrate", course);

      book(plan, diary);
      shown("diary", diary);
      return answers;
    }

    /** The chart in each form, and what is read of tooth lines and of an empty chart. */
    private void forms(String chart) throws IOException {
      for (String form : List.of("lines", "csv", "json")) {
        answer("chart " + form, "chart", chart, "--format", form);
        answer(
            "new " + form,
            "chart",
            "--new",
            "--numbering",
            mouth.numbering().word(),
            "--format",
            form);
      }
      String lines = write("mouth.teeth", program.run("chart", chart).out());
      answer("lines again", "chart", lines, "--format", "json");
      answer("wrong lines", "check", write("wrong.teeth", wrongLines(lines)));
      String many = write("many.ndjson", Files.readString(Path.of(chart)).replaceAll("\n *", ""));
      answer("many", "plan", "--many", many, "--visits", "2", "--effort", "quick");
    }

    private static String wrongLines(String lines) throws IOException {
      return Files.readString(Path.of(lines))
          .replaceFirst("\\| (\\d)", "| 4$1")
          .replace("light", "lihgt");
    }

    /** What the page's server shows of the mouth, and says while it is typed. */
    private void served(String chart) throws Exception {
      Path practice = own.resolve("practice");
      try (Served page = program.serve(practice)) {
        String text = Files.readString(Path.of(chart));
        Files.writeString(practice.resolve("charts/mouth.json"), text);
        String home = page.get("/mouths");
        keep("home", home);
        String at = "/mouth/" + home.split("/mouth/")[1].split("[/\"]")[0];
        String lines = program.run("chart", chart).out();
        keep("taken in", page.post("/read", text));
        keep("typed", page.post(at + "/look", lines));
        keep(
            "typed wrong",
            page.post(at + "/look", wrongLines(own.resolve("mouth.teeth").toString())));
        keep("typed deep", page.post(at + "/look", lines.replaceFirst("\\| \\db? ", "| 14 ")));
        for (String part :
            List.of("", "/readback", "/course", "/course/2", "/course/2/ring", "/course/2/print")) {
          keep("page" + part, page.get(at + part + (part.startsWith("/c") ? "?effort=quick" : "")));
        }
      }
    }

    private void record(String course, String plan) {
      Tooth found = mouth.teeth().get(0).tooth();
      Tooth other = mouth.teeth().get(mouth.teeth().size() - 1).tooth();
      Matcher step = STEP.matcher(plan);
      List<String> said =
          new ArrayList<>(
              List.of(
                  "record",
                  course,
                  "--visit=1",
                  "--date=2026-03-02",
                  "--clinician=C2",
                  "--minutes=64",
                  "--at=" + at(2),
                  "--depth=" + name(found) + " lingual distal=9",
                  "--depth=" + name(other) + " facial mesial=8 bleeding"));
      if (step.find()) {
        said.add("--not-done=" + step.group(1) + " " + step.group(2));
      }
      answer("record", said.toArray(String[]::new));
      said.add("--given=upper infiltration " + name(found) + " articaine-4-200 0.6");
      said.add("--sleeve-broken=" + name(found));
      said.add("--depth=" + name(Tooth.ofIso(18)) + " facial mesial=8");
      said.add("--depth=99 facial mesial=8");
      said.add("--correct=2");
      answer("record wrong", said.toArray(String[]::new));
    }

    private void shows(String course) {
      shown("record", course, "--show");
      answer("show html", "record", course, "--show", "--format", "html");
    }

    private void book(String plan, String diary) throws IOException {
      shownOnce("book", plan, "--diary", diary, "--from", "2026-03-09");
      String calendar = own.resolve("practice.ics").toString();
      String patient = own.resolve("patient.ics").toString();
      String fhir = own.resolve("fhir.json").toString();
      answer(
          "take",
          "book",
          plan,
          "--diary",
          diary,
          "--from",
          "2026-03-09",
          "--take",
          "1",
          "--ics-practice",
          calendar,
          "--ics-patient",
          patient,
          "--fhir",
          fhir);
      for (String one : List.of(calendar, patient, fhir, diary)) {
        if (Files.exists(Path.of(one))) {
          file(one);
        }
      }
    }

    private void faults(String chart) throws IOException {
      String text = Files.readString(Path.of(chart));
      String twice = NAMED.matcher(text).results().map(r -> r.group()).findFirst().orElseThrow();
      shown(
          "check",
          write(
              "broken.json",
              text.replaceFirst("\"depthMm\": \\[\\d", "\"depthMm\": [44")
                  .replaceFirst("(?s)(.*)Q\\d+Q", "$1" + twice)
                  .replace("\"deposit\": \"moderate\"", "\"deposit\": \"some\"")));
    }

    /** A dose far too large, and work that no step does. */
    private String wrong(String plan) {
      return plan.replaceFirst("\"ml\": [0-9.]+", "\"ml\": 44")
          .replaceFirst("(\"teeth\": \\[\\s*\"Q\\d+Q\"),[^\\]]*]", "$1]");
    }

    private String shallower(String chart) {
      return chart.replace("2026-02-20", "2026-06-20").replaceAll("([ \\[])[67]([,\\]])", "$13$2");
    }

    private String name(Tooth tooth) {
      return "Q" + mouth.numbering().name(tooth) + "Q";
    }

    private static String marked(String chart) {
      return chart.replaceAll("\"tooth\": \"(\\d+)\"", "\"tooth\": \"Q$1Q\"");
    }

    private static String at(int hour) {
      return "2026-03-02T1%d:00:00+01:00".formatted(hour);
    }

    private String write(String name, String text) throws IOException {
      return Files.writeString(own.resolve(name), text).toString();
    }

    /** As text of one mouth and as JSON of the other, where the answer takes long. */
    private void shownOnce(String... args) {
      List<String> all = new ArrayList<>(List.of(args));
      all.addAll(List.of("--format", mouth.patient().weightKg() == null ? "json" : "text"));
      answer(args[0], all.toArray(String[]::new));
    }

    /** As text and as JSON. */
    private void shown(String... args) {
      answer(args[0] + " text", args);
      List<String> json = new ArrayList<>(List.of(args));
      json.addAll(List.of("--format", "json"));
      answer(args[0] + " json", json.toArray(String[]::new));
    }

    private void answer(String what, String... args) {
      Run run = program.run(args);
      assertFalse(run.err().contains("A fault of the program"), what + run.err());
      keep(what, "status " + run.status() + "\n" + run.out() + "\n" + run.err());
    }

    private void file(String name) throws IOException {
      String text = Files.readString(Path.of(name));
      boolean folded = name.endsWith(".ics");
      keep("file " + Path.of(name).getFileName(), folded ? text.replace("\r\n ", "") : text);
    }

    /** Lines are wrapped by width, so that white space is none of it. */
    private void keep(String what, String answer) {
      String plain =
          answer
              .replace(own.toString(), "FOLDER")
              .replaceAll("(numbering:? |numbering\": ?\")iso3950", "$1universal")
              .replaceAll("column \\d+", "column N")
              .replaceAll("data-(tooth|label)=\"R\\d\\dR\"|\"tooth\": \"R\\d\\dR\"", "KEY")
              .replaceAll("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}|[0-9a-f]{16,64}", "HASH")
              .replaceAll("\"check\":\"[0-9a-f]{8}\"", "")
              .replace("an ISO 3950 code in quotes, \"11\" to \"48\"", "A TOOTH")
              .replace("the number of a tooth in quotes, \"1\" to \"32\"", "A TOOTH")
              .replaceAll("\\d{4}-?\\d\\d-?\\d\\dT[0-9:]+(Z|[+-][0-9:]+)", "TIME")
              .replaceAll("-{3,}|={3,}", "--")
              .replaceAll("[\\s\u00a0]+", " ")
              .replaceAll(
                  "Teeth (are |by |)(numbered |numbers |)(ISO 3950 codes|1 to 32 from the upper"
                      + " right third molar)\\.? *",
                  "");
      answers.put(answers.size() + " " + what, plain);
    }
  }
}
