package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.ReassessJson;
import quadrille.cli.render.ReassessText;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Reassessment;
import quadrille.facts.practice.Practice;

/** {@code quadrille reassess}: the mouth before treatment and after it. */
@Command(
    name = "reassess",
    customSynopsis = "quadrille reassess BEFORE AFTER [OPTION ...]",
    description = {
      "Compare two charts of one mouth: what has closed, what is still open.",
      "",
      "A pocket is a site of 5 mm or more; it has closed where it is 4 mm or less",
      "afterwards and does not bleed.",
      "",
      "With -o, a chart of the residual sites, for plan to stage a retreatment from.",
      "It is no record of the mouth: sites that have closed are written as sound."
    })
final class ReassessCommand extends BaseCommand {

  @Parameters(index = "0", paramLabel = "BEFORE", description = "The chart before treatment.")
  private String beforeFile = "";

  @Parameters(
      index = "1",
      paramLabel = "AFTER",
      description = "The chart after it; - is standard input.")
  private String afterFile = "";

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  @Mixin private OutputOption output = new OutputOption();

  ReassessCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    output.checkBesideReport();
    output.checkJson();
    output.check(beforeFile, afterFile, practiceOption.name());
    Gathering gathering = new Gathering();
    Gathering.Read<Chart> before = gathering.read(() -> ChartFile.read(beforeFile, documents()));
    Gathering.Read<Chart> after = gathering.read(() -> ChartFile.read(afterFile, documents()));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();
    Reassessment reassessment = Reassessment.of(before.get(), after.get());
    if (output.toFile()) {
      if (reassessment.residual().isEmpty()) {
        throw StopException.refused("No site is residual, so there is no chart to write.");
      }
      output.write(documents(), ChartWriter.json(Reassessment.retreatment(after.get())));
      message("Wrote " + output.name() + ": " + ReassessText.RETREATMENT);
    }
    answer(
        format(Format.TEXT) == Format.JSON
            ? ReassessJson.of(before.get(), after.get(), reassessment)
            : ReassessText.of(
                before.get(), after.get(), practice.get(), reassessment, streams().styled()));
    reassessment.doubts().forEach(this::message);
    return Status.DONE;
  }
}
