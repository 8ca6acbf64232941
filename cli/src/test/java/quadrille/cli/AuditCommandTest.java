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
import quadrille.cli.render.PlanFileWords;
import quadrille.facts.chart.Numbering;
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
    plan = file("plan.json", PlanWriter.write(nothing, Numbering.ISO3950, PlanFileWords.ENGLISH));
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
        standard input: was made before areas had to be finished in the visit in which
        they are begun, and is not held to that rule.
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
}
