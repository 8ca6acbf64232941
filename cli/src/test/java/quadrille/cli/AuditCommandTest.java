package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.cli.render.PlanFileWords;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.PlanWriter;

final class AuditCommandTest {

  @TempDir private Path folder;

  private String plan = "";
  private String healthy = "";

  @BeforeEach
  void writeAPlanWithNothingInIt() throws IOException {
    Map<CourseTerm, Long> terms = new EnumMap<>(CourseTerm.class);
    for (CourseTerm term : CourseTerm.values()) {
      terms.put(term, 0L);
    }
    Course nothing =
        new Course(
            "K-1", List.of(), 7, 14, 6, 12, new Cost(0, 0, terms), List.of(), List.of(), List.of());
    plan =
        file(
            "plan.json",
            PlanWriter.write(
                nothing, Numbering.ISO3950, PlanFileWords.of(PracticeReader.defaults())));
    healthy =
        file(
            "healthy.json",
            """
            {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "iso3950",
             "patient": {}, "teeth": [{"tooth": "11", "deposit": "none", "facial": {"depthMm": [2, 2, 2]},
                        "lingual": {"depthMm": [2, 2, 2]}}]}
            """);
  }

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  @Test
  void workThatIsLeftOutIsFound() {
    Run run = Run.of("audit", plan, "--chart", Golden.demo("mild-one-visit.json"));
    assertEquals(Status.REFUSED, run.status());
    assertEquals("", run.err());
    assertTrue(
        run.out().contains("- WORK all work once: The step UR posterior, fine, facial (16 17)"),
        run.out());
    Golden.checkWidth(run.out().replace(folder + "/", ""));
  }

  @Test
  void findingsAsJson() {
    Run run =
        Run.of("audit", "--format", "json", plan, "--chart", Golden.demo("mild-one-visit.json"));
    assertEquals(Status.REFUSED, run.status());
    assertEquals("", run.err());
    assertTrue(run.out().startsWith("{\n  \"schema\": \"quadrille/audit/1\""), run.out());
    assertTrue(run.out().contains("\"rule\": \"WORK\""), run.out());
  }

  @Test
  void planFromStandardInput() throws IOException {
    Run run = Run.withInput(Files.readString(Path.of(plan)), "audit", "-", "--chart", healthy);
    assertEquals(
        """
        standard input: was made by the rules of 0.1.0 and is read by them, against the
        default practice of then. It is not held to what has come since: that areas are
        finished in the visit in which they are begun, what is asked before anything is
        touched, the frame of a visit, blocks that fail, and cover that is not
        dependable. Planned again, it keeps the present rules.
        standard input: nothing found. Every rule that is known here is kept.
        A proposal for a licensed clinician to check. Dose limits and codes follow local
        rules.
        """,
        run.done());
  }

  @Test
  void faultsOfPlanAndChartAreReportedTogether() throws IOException {
    String broken = file("broken.json", "{\"schema\": \"quadrille/plan/1\"}");
    String chart = file("chart.json", "{\"schema\": \"quadrille/chart/2\"}");
    Run run = Run.of("audit", broken, "--chart", chart);
    assertEquals(Status.FILE, run.status());
    assertEquals("", run.out());
    assertTrue(run.err().contains("/broken.json:1"), run.err());
    assertTrue(run.err().contains("/chart.json:1 /schema: "), run.err());
  }

  @Test
  void chartOrCourseIsRequired() {
    Run run = Run.of("audit", plan);
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains("(--chart=CHART | [--course=COURSE"), run.err());
    Run both = Run.of("audit", plan, "--chart", "a.json", "--course", "b.jsonl");
    assertEquals(Status.USAGE, both.status());
    assertTrue(both.err().contains("Not all of these at once"), both.err());
    assertTrue(both.err().contains("--chart, --course."), both.err());
    Run day = Run.of("audit", plan, "--chart", "a.json", "--on", "2026-01-01");
    assertEquals(Status.USAGE, day.status());
  }

  /** Made by the release 0.1.0 from its own default practice. */
  @ParameterizedTest
  @ValueSource(strings = {"mild-one-visit", "heart-disease"})
  void aPlanOfTheFirstRulesIsReadByThemAndThatIsSaid(String name) throws IOException {
    Path of = Path.of("src", "test", "resources", "plans-0.1.0");
    String plan = of.resolve(name + ".plan.json").toString();
    String chart = of.resolve(name + ".json").toString();
    Run run = Run.of("audit", plan, "--chart", chart);
    assertEquals(Status.DONE, run.status(), run.out());
    assertTrue(
        run.out().replaceAll("\\s+", " ").contains("was made by the rules of 0.1.0"), run.out());
    String json = Run.of("audit", plan, "--chart", chart, "--format", "json").out();
    assertTrue(json.contains("\"rules\": \"0.1.0\""), json);
    // What was wrong by its own rules still is.
    Path wrong = folder.resolve("wrong.json");
    Files.writeString(
        wrong,
        Files.readString(Path.of(plan))
            .replaceFirst("\"startMinute\": 10.0*,", "\"startMinute\": 11,")
            .replaceFirst("\"bookedMinutes\": [0-9]+", "\"bookedMinutes\": 20"));
    Run found = Run.of("audit", wrong.toString(), "--chart", chart);
    assertEquals(Status.REFUSED, found.status(), found.out());
  }
}
