package quadrille.cli;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.audit.Audit;
import quadrille.audit.Finding;
import quadrille.chart.Chart;
import quadrille.chart.ChartReader;
import quadrille.cli.render.AuditJson;
import quadrille.cli.render.AuditText;
import quadrille.course.PlanFile;
import quadrille.course.PlanReader;
import quadrille.practice.Practice;
import quadrille.reading.InvalidDocumentException;

/** {@code quadrille audit}: the second reading of a plan file. */
@Command(
    name = "audit",
    customSynopsis = "quadrille audit PLAN --chart CHART [OPTION ...]",
    description = {
      "Read a plan file a second time and list every rule it breaks.",
      "",
      "Clock, numbness and doses are worked out anew from the chart and the",
      "practice. A finding ends it with status 1."
    })
final class AuditCommand extends BaseCommand {

  @Parameters(paramLabel = "PLAN", description = "A plan file; - is standard input.")
  private String planFile = "";

  @Option(
      names = "--chart",
      required = true,
      paramLabel = "CHART",
      description = "The chart it was made for; - is standard input.")
  private String chartFile = "";

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  AuditCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    Gathering gathering = new Gathering();
    Documents documents = documents();
    Gathering.Read<PlanFile> plan =
        gathering.read(() -> PlanReader.read(Documents.name(planFile), documents.read(planFile)));
    Gathering.Read<Chart> chart =
        gathering.read(
            () -> ChartReader.read(Documents.name(chartFile), documents.read(chartFile)));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents));
    gathering.check();

    List<Finding> findings = Audit.audit(plan.get(), chart.get(), practice.get());
    answer(
        format(Format.TEXT) == Format.JSON
            ? AuditJson.of(plan.get().course().caseName(), findings)
            : AuditText.of(Documents.name(planFile), chart.get().numbering(), findings));
    return findings.isEmpty() ? Status.DONE : Status.REFUSED;
  }
}
