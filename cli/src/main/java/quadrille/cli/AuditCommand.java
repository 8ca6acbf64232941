package quadrille.cli;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.AuditJson;
import quadrille.cli.render.AuditText;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;

/** {@code quadrille audit}: the second reading of a plan file. */
@Command(
    name = "audit",
    customSynopsis = {
      "quadrille audit PLAN --chart CHART [OPTION ...]",
      "       quadrille audit PLAN --course COURSE [OPTION ...]"
    },
    description = {
      "Read a plan file a second time and list every rule it breaks.",
      "",
      "Clock, numbness and doses are worked out anew from the chart and the",
      "practice. A finding ends it with status 1."
    })
final class AuditCommand extends BaseCommand {

  @Parameters(paramLabel = "PLAN", description = "A plan file; - is standard input.")
  private String planFile = "";

  @ArgGroup(multiplicity = "1")
  private Against against = new Against();

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  AuditCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    UnderWay underWay = against.underWay;
    return underWay == null
        ? againstChart(Objects.requireNonNull(against.chartFile))
        : against(underWay);
  }

  private int against(UnderWay underWay) throws InvalidDocumentException, StopException {
    Gathering gathering = new Gathering();
    Gathering.Read<PlanFile> plan = readPlan(gathering);
    Gathering.Read<CourseLog> log =
        gathering.read(() -> CourseFiles.read(underWay.courseFile, this));
    gathering.check();
    CourseState state = CourseState.of(log.get());
    Practice practice =
        practiceOption.name() == null ? log.get().practice() : practiceOption.read(documents());
    return answer(
        plan.get(),
        state.chart(),
        Audit.audit(plan.get(), state.before(underWay.day), state.chart(), practice));
  }

  private int againstChart(String chartName) throws InvalidDocumentException, StopException {
    Gathering gathering = new Gathering();
    Documents documents = documents();
    Gathering.Read<PlanFile> plan = readPlan(gathering);
    Gathering.Read<Chart> chart =
        gathering.read(
            () -> ChartReader.read(Documents.name(chartName), documents.read(chartName)));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents));
    gathering.check();

    return answer(plan.get(), chart.get(), Audit.audit(plan.get(), chart.get(), practice.get()));
  }

  private Gathering.Read<PlanFile> readPlan(Gathering gathering) throws StopException {
    return gathering.read(
        () -> PlanReader.read(Documents.name(planFile), documents().read(planFile)));
  }

  private int answer(PlanFile plan, Chart chart, List<Finding> findings) throws StopException {
    answer(
        format(Format.TEXT) == Format.JSON
            ? AuditJson.of(plan.course(), findings)
            : AuditText.of(Documents.name(planFile), plan.course(), chart.numbering(), findings));
    return findings.isEmpty() ? Status.DONE : Status.REFUSED;
  }

  /** What a plan is read against. */
  private static final class Against {

    @Option(
        names = "--chart",
        paramLabel = "CHART",
        description = "The chart it was made for; - is standard input.")
    @Nullable
    private String chartFile;

    @ArgGroup(exclusive = false)
    @Nullable
    private UnderWay underWay;
  }

  /** A course under way, and the day of its next visit. */
  private static final class UnderWay {

    @Option(
        names = "--course",
        required = true,
        paramLabel = "COURSE",
        description =
            "In place of --chart: the course that it carries on; what was done, found and given"
                + " there counts.")
    private String courseFile = "";

    @Option(
        names = "--on",
        paramLabel = "DAY",
        description = "With --course: the next visit's day; doses given that day count.")
    @Nullable
    private LocalDate day;
  }
}
