package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.SequenceInputStream;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.document.FileRules;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;

final class ManyChartsTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String MILD = Golden.demo("mild-one-visit.json");

  @TempDir private Path folder;

  /** The mild demo mouth under another name, on one line. */
  private static String mild(String name) throws IOException {
    String text = Files.readString(Path.of(MILD)).replace("DEMO-mild-one-visit", name);
    return JSON.writeValueAsString(JSON.readTree(text));
  }

  private static List<JsonNode> results(String out) throws IOException {
    assertTrue(out.isEmpty() || out.endsWith("\n"), "a last line without its end");
    List<JsonNode> results = new ArrayList<>();
    for (String line : out.lines().toList()) {
      results.add(JSON.readTree(line));
    }
    return results;
  }

  private static List<String> texts(List<JsonNode> results, String field) {
    return results.stream().map(result -> result.path(field).asText("-")).toList();
  }

  @Test
  void oneBadLineIsOneResultAndStopsNoOther() throws IOException {
    String wrongDepth = mild("K-3").replaceFirst("\"depthMm\":\\[\\d+", "\"depthMm\":[99");
    String lines =
        String.join(
            "\n",
            mild("K-1"),
            "",
            "not a chart",
            wrongDepth,
            "{\"schema\":1}",
            mild("K-5") + "\r",
            "");
    Run run = Run.withInput(lines, "plan", "--many", "-", "--effort=quick");
    assertEquals(Status.FILE, run.status());
    assertEquals("5 charts: 2 planned, 0 without a plan, 3 invalid, 0 failed.\n", run.err());
    List<JsonNode> results = results(run.out());
    assertEquals(
        List.of("planned", "invalid", "invalid", "invalid", "planned"), texts(results, "status"));
    assertEquals(List.of("1", "2", "3", "4", "5"), texts(results, "index"));
    assertEquals(List.of("K-1", "-", "-", "-", "K-5"), texts(results, "case"));
    assertEquals(
        List.of(1, 3, 4, 5, 6).stream().map(line -> "standard input:" + line).toList(),
        texts(results, "source"));
    JsonNode fault = results.get(2).at("/faults/0");
    assertTrue(
        fault
            .get("place")
            .asText()
            .matches("standard input:4 /teeth/\\d+/\\w+/depthMm/0 \\(tooth .*, facial, distal\\)"),
        fault.toString());
    assertEquals("99", fault.get("found").asText());
    assertTrue(results.get(3).get("faults").size() > 1, "every fault of the chart");
  }

  @Test
  void planOfALineIsThePlanOfTheChartAlone() throws IOException {
    Run run =
        Run.withInput(mild("K-1") + "\n", "plan", "--many", "-", "--visits=2", "--effort=quick");
    assertEquals(Status.DONE, run.status());
    String chart = Files.writeString(folder.resolve("chart.json"), mild("K-1")).toString();
    JsonNode alone =
        JSON.readTree(
            Run.of("plan", chart, "--visits=2", "--effort=quick", "--format=json").done());
    // Why there are so many visits is asked of one chart at a time.
    ((ObjectNode) alone).remove("oneVisitFewer");
    alone.get("visits").forEach(visit -> ((ObjectNode) visit).remove("why"));
    assertEquals(alone, results(run.out()).get(0).get("plan"));
    assertEquals(1, run.out().lines().count());
  }

  @Test
  void chartWithoutAPlanIsStatusOne() throws IOException {
    String shortVisits =
        mild("K-2").replaceFirst("\"longestVisitMinutes\":\\d+", "\"longestVisitMinutes\":30");
    Run run =
        Run.withInput(
            mild("K-1") + "\n" + shortVisits,
            "plan",
            "--many",
            "-",
            "--visits=1",
            "--effort=quick");
    assertEquals(Status.REFUSED, run.status(), run.err());
    List<JsonNode> results = results(run.out());
    assertEquals(List.of("planned", "no-plan"), texts(results, "status"));
    assertTrue(results.get(1).at("/clashes/0").asText().startsWith("length"), run.out());
  }

  @Test
  void folderIsTakenByNameAndFileByLine() throws IOException {
    Files.writeString(folder.resolve("b.json"), mild("K-b"));
    Files.writeString(folder.resolve("a.yaml"), Files.readString(Path.of(MILD)));
    Files.writeString(folder.resolve("c.JSON"), "[]");
    Files.writeString(folder.resolve("notes.txt"), "no chart");
    Files.createDirectory(folder.resolve("d.json"));
    Run run = Run.of("plan", "--many", folder.toString(), "--effort=quick");
    assertEquals(Status.FILE, run.status());
    List<JsonNode> results = results(run.out());
    assertEquals(List.of("DEMO-mild-one-visit", "K-b", "-"), texts(results, "case"));
    assertEquals(folder.resolve("a.yaml").toString(), results.get(0).get("source").asText());
    String charts =
        Files.writeString(folder.resolve("charts.ndjson"), mild("K-1") + "\n" + mild("K-2"))
            .toString();
    Run lines = Run.of("plan", "--many", charts, "--effort=quick");
    assertEquals(Status.DONE, lines.status());
    assertEquals(List.of(charts + ":1", charts + ":2"), texts(results(lines.out()), "source"));
  }

  @Test
  void lineThatIsNotUtf8OrTooLongIsOneResult() throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(new byte[] {'{', (byte) 0xE4, '}', '\n'});
    bytes.write(" ".repeat(10).getBytes(UTF_8));
    bytes.write("x".repeat(ChartLines.MOST_BYTES + 5).getBytes(UTF_8));
    bytes.write(("\n" + mild("K-3")).getBytes(UTF_8));
    List<String> lines = run(new ByteArrayInputStream(bytes.toByteArray()), 2);
    List<JsonNode> results = results(String.join("\n", lines) + "\n");
    assertEquals(List.of("invalid", "invalid", "planned"), texts(results, "status"));
    assertEquals("charts:1", results.get(0).at("/faults/0/place").asText());
    assertEquals("a byte that is not UTF-8 (0xE4)", results.get(0).at("/faults/0/found").asText());
    assertEquals("charts:2", results.get(1).at("/faults/0/place").asText());
    assertEquals(
        "a line of more than 4194304 bytes", results.get(1).at("/faults/0/found").asText());
  }

  @Test
  void linesAreTheSameOnOneThreadAndOnThree() throws Exception {
    StringBuilder charts = new StringBuilder();
    for (int i = 0; i < 8; i++) {
      charts.append(i % 3 == 1 ? "{}" : mild("K-" + i)).append('\n');
    }
    byte[] bytes = charts.toString().getBytes(UTF_8);
    assertEquals(run(new ByteArrayInputStream(bytes), 1), run(new ByteArrayInputStream(bytes), 3));
  }

  private static List<String> run(InputStream in, int threads) throws StopException {
    List<String> lines = new ArrayList<>();
    new ManyCharts(PracticeReader.defaults(), VisitRange.exactly(1), Effort.QUICK, threads)
        .run(new ChartLines("charts", in, FileRules.USUAL.mostBytes()), lines::add);
    return lines;
  }

  /** However many charts come, no more than a window of them has been read and not yet answered. */
  @Test
  void readsAheadNoFurtherThanItsWindow() throws Exception {
    Chart chart = ChartReader.read("mild", Files.readString(Path.of(MILD)));
    int[] handed = {0};
    int[] answered = {0};
    int[] most = {0};
    ChartSource source =
        () -> {
          most[0] = Math.max(most[0], handed[0] - answered[0]);
          return handed[0]++ < 40 ? new ChartItem("chart", () -> chart) : null;
        };
    new ManyCharts(PracticeReader.defaults(), VisitRange.exactly(1), Effort.QUICK, 2)
        .run(source, line -> answered[0]++);
    assertEquals(40, answered[0]);
    assertTrue(most[0] <= 8, most[0] + " charts in flight");
  }

  @Test
  void faultOfTheProgramIsOneResult() throws Exception {
    Chart chart = ChartReader.read("mild", Files.readString(Path.of(MILD)));
    List<ChartItem> items =
        List.of(
            new ChartItem(
                "one",
                () -> {
                  throw new IllegalStateException("planted");
                }),
            new ChartItem("two", () -> chart));
    int[] at = {0};
    List<String> lines = new ArrayList<>();
    Map<ManyCharts.End, Integer> ends =
        new ManyCharts(PracticeReader.defaults(), VisitRange.exactly(1), Effort.QUICK, 2)
            .run(() -> at[0] < items.size() ? items.get(at[0]++) : null, lines::add);
    assertEquals(Map.of(ManyCharts.End.FAILED, 1, ManyCharts.End.PLANNED, 1), ends);
    assertTrue(lines.get(0).contains("IllegalStateException (planted)"), lines.get(0));
  }

  @Test
  void streamThatBreaksOffIsAnsweredSoFar() throws IOException {
    byte[] first = (mild("K-1") + "\n").getBytes(UTF_8);
    InputStream broken =
        new InputStream() {
          private int at;

          @Override
          public int read() throws IOException {
            if (at < first.length) {
              return first[at++];
            }
            throw new IOException("the line went dead");
          }

          @Override
          public int read(byte[] into, int from, int length) throws IOException {
            into[from] = (byte) read();
            return 1;
          }
        };
    List<String> lines = new ArrayList<>();
    StopException stop =
        assertThrows(
            StopException.class,
            () ->
                new ManyCharts(PracticeReader.defaults(), VisitRange.exactly(1), Effort.QUICK, 2)
                    .run(
                        new ChartLines("charts", broken, FileRules.USUAL.mostBytes()), lines::add));
    assertEquals("charts: cannot be read on: the line went dead", stop.getMessage());
    assertEquals(Status.FILE, stop.status());
    assertEquals(1, lines.size());
  }

  /** A full disk behind standard output ends it, and does not look like success. */
  @Test
  void lineThatCannotBeWrittenEndsIt() throws IOException {
    StringWriter err = new StringWriter();
    int status =
        Main.run(
            new Streams(
                new ByteArrayInputStream((mild("K-1") + "\n").getBytes(UTF_8)),
                new java.io.OutputStream() {
                  @Override
                  public void write(int b) throws IOException {
                    throw new IOException("No space left on device");
                  }
                },
                new PrintWriter(err, true),
                false),
            "plan",
            "--many=-");
    assertEquals(Status.FILE, status);
    assertEquals("standard output: cannot be written: No space left on device.\n", err.toString());
  }

  @Test
  @Timeout(60)
  void lineWithoutAnEndIsGivenUp() throws IOException {
    InputStream endless =
        new SequenceInputStream(
            new ByteArrayInputStream((mild("K-1") + "\n").getBytes(UTF_8)),
            new InputStream() {
              @Override
              public int read() {
                return '0';
              }

              @Override
              public int read(byte[] into, int from, int length) {
                Arrays.fill(into, from, from + length, (byte) '0');
                return length;
              }
            });
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    StringWriter err = new StringWriter();
    int status =
        Main.run(
            new Streams(endless, out, new PrintWriter(err, true), false),
            "plan",
            "--many=-",
            "--effort=quick");
    assertEquals(Status.FILE, status);
    assertEquals(1, out.toString(UTF_8).lines().count(), "what came before is answered");
    assertEquals(
        "standard input:2: cannot be read on: a line of more than 33554432 bytes;"
            + " QUADRILLE_MOST_MEGABYTES sets that.\n",
        err.toString());
  }

  @Test
  void whatIsOddInAChartIsSaidWithItsPlace() throws IOException {
    String odd = mild("K-1").replace("2026-03-11", "9998-01-01");
    Run run = Run.withInput(mild("K-0") + "\n" + odd + "\n", "plan", "--many=-", "--effort=quick");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(2, run.out().lines().count());
    assertEquals(
        "Please look again, standard input:2: it was charted on 9998-01-01, a day that has not"
            + " come yet.\n2 charts: 2 planned, 0 without a plan, 0 invalid, 0 failed.\n",
        run.err());
  }

  @Test
  void emptyStreamHasNoLineAndIsDone() {
    Run run = Run.withInput("\n\n", "plan", "--many", "-", "--effort=quick");
    assertEquals(Status.DONE, run.status());
    assertEquals("", run.out());
    assertEquals("0 charts: 0 planned, 0 without a plan, 0 invalid, 0 failed.\n", run.err());
  }

  @Test
  void folderWithoutChartsAndMissingFileAreSaid() {
    Run empty = Run.of("plan", "--many", folder.toString(), "--effort=quick");
    assertEquals(Status.FILE, empty.status());
    assertEquals(
        folder + ": holds no file that ends in .json, .yaml, .yml, .csv, .teeth.\n", empty.err());
    String none = folder.resolve("none.ndjson").toString();
    Run missing = Run.of("plan", "--many", none);
    assertEquals(Status.FILE, missing.status());
    assertEquals(none + ": cannot be read: there is no such file.\n", missing.err());
  }

  @ParameterizedTest
  @ValueSource(strings = {"--explain", "-o=plans.json", "--format=text"})
  void whatIsForOneChartIsWrongUsage(String option) {
    Run run = Run.withInput("", "plan", "--many", "-", option);
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().startsWith("--many: writes lines of JSON"), run.err());
    assertFalse(Files.exists(Path.of("plans.json")));
  }

  @Test
  void chartAndManyAreOneTooMuchAndNeitherIsTooLittle() {
    Run both = Run.of("plan", MILD, "--many", "-");
    assertEquals(Status.USAGE, both.status());
    assertTrue(both.err().contains("Not all of these at once"), both.err());
    assertTrue(both.err().contains("CHART, --many."), both.err());
    Run neither = Run.of("plan");
    assertEquals(Status.USAGE, neither.status());
    assertTrue(
        neither.err().contains("([CHART] | --many=SOURCE | [--course=COURSE"), neither.err());
  }
}
