package quadrille.cli.render.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import quadrille.chart.Chart;
import quadrille.chart.ChartReader;
import quadrille.course.Course;
import quadrille.course.PlanReader;
import quadrille.course.PlanWriter;
import quadrille.planning.CoursePlanner;
import quadrille.planning.PlanOutcome.Planned;
import quadrille.planning.VisitRange;
import quadrille.practice.Practice;
import quadrille.practice.PracticeReader;
import quadrille.reading.InvalidDocumentException;
import quadrille.staging.Effort;
import quadrille.work.UnworkableException;

/**
 * A demo chart with a plan kept in a file, so that a page can be looked at without solving. {@code
 * -Dgolden.write=true} plans anew; {@link PlanPagesTest} holds the kept plans to the audit.
 *
 * @param json the plan file as plain JSON, against which the pages are read
 */
record Sample(String name, Chart chart, Practice practice, Course course, JsonNode json) {

  private static final Path DEMO = Path.of("../demo-data");
  private static final Path PLANS = Path.of("src/test/resources/pages");

  /** The default practice under a name of its own, with a contact; all invented. */
  static Practice practiceOfItsOwn() throws InvalidDocumentException {
    return practiceOfItsOwn("\"weights\": {}");
  }

  /** The same, with more members of the practice file. */
  static Practice practiceOfItsOwn(String more) throws InvalidDocumentException {
    return PracticeReader.read(
        "practice.json",
        """
        {
          "schema": "quadrille/practice/1",
          "name": "DEMO practice",
          "contact": {
            "address": "1 Example Street, Sampletown",
            "phone": "555 0100",
            "email": "desk@practice.example",
            "hours": "Monday to Friday, 8 to 17",
            "outOfHours": "the emergency service, 555 0199"
          },
          %s
        }
        """
            .formatted(more));
  }

  /**
   * Named after its demo chart; the practice of {@code pocket-gel} owns gel, and books by codes.
   */
  static Sample of(String name) throws IOException, InvalidDocumentException, UnworkableException {
    boolean gel = name.equals("pocket-gel");
    String mouth = gel ? "pregnancy" : name;
    Chart chart = ChartReader.read(mouth, Files.readString(DEMO.resolve(mouth + ".json"), UTF_8));
    Practice practice =
        gel
            ? practiceOfItsOwn("\"gel\": { \"owned\": true }, \"codeHint\": { \"shown\": true }")
            : practiceOfItsOwn();
    Path file = PLANS.resolve(name + ".plan.json");
    if (Boolean.getBoolean("golden.write")) {
      Planned planned =
          (Planned) new CoursePlanner(Effort.QUICK).plan(chart, practice, VisitRange.USUAL);
      Files.createDirectories(PLANS);
      Files.writeString(file, PlanWriter.write(planned.course()), UTF_8);
    }
    String plan = Files.readString(file, UTF_8);
    return new Sample(
        name,
        chart,
        practice,
        PlanReader.read(file.toString(), plan).course(),
        new ObjectMapper().readTree(plan));
  }

  String html() {
    return html(EnumSet.allOf(PageKind.class), "en");
  }

  String html(Set<PageKind> pages, String language) {
    return PlanPages.of(chart, practice, course, pages, Language.of(language));
  }
}
