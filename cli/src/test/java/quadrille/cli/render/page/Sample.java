package quadrille.cli.render.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import quadrille.cli.render.PlanFileWords;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;

/**
 * A demo chart with a plan kept in a file, so that a page can be looked at without solving. {@code
 * -Dgolden.write=true} plans anew; {@link PlanPagesTest} holds the kept plans to the audit.
 *
 * @param json the plan file as plain JSON, against which the pages are read
 */
record Sample(String name, Chart chart, Practice practice, Course course, JsonNode json) {

  private static final Path DEMO = Path.of("../demo-data");
  private static final Path PLANS = Path.of("src/test/resources/pages");

  /** Both numberings, implants, sites not probed, work held back, gel, 1 to 4 visits. */
  static List<String> names() {
    return List.of(
        "typical",
        "implants-both-sides",
        "unprobed",
        "universal-numbering",
        "weight-missing",
        "pocket-gel");
  }

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
      Files.writeString(
          file,
          PlanWriter.write(planned.course(), chart.numbering(), PlanFileWords.of(practice)),
          UTF_8);
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
