package quadrille.cli;

import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.AuditJson;
import quadrille.cli.render.AuditText;
import quadrille.document.InvalidDocumentException;

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
final class AuditCommand extends AnswerCommand {

  @Parameters(paramLabel = "PLAN", description = "A plan file; - is standard input.")
  private String planFile = "";

  @ArgGroup(multiplicity = "1")
  private PlanAgainst against = new PlanAgainst();

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  AuditCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    checkOutput(planFile, practiceOption.name());
    checkOutput(against.names());
    PlanAgainst.Audited audited =
        against.audited(() -> PlanAgainst.read(planFile, documents()), practiceOption, this);
    answer(
        format(Format.TEXT) == Format.JSON
            ? AuditJson.of(audited.plan().course(), audited.findings())
            : AuditText.of(
                Documents.name(planFile),
                audited.plan().course(),
                audited.chart().numbering(),
                audited.findings()));
    return audited.findings().isEmpty() ? Status.DONE : Status.REFUSED;
  }
}
