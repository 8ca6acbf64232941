package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import quadrille.cli.render.CheckJson;
import quadrille.cli.render.CheckText;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.planning.ChartSummary;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkPlanner;

/** {@code quadrille check}: what a chart says. */
@Command(
    name = "check",
    customSynopsis = "quadrille check CHART [OPTION ...]",
    description = {
      "Sum up what a chart says, or report every fault in it.",
      "",
      "Sites, depths, deposit and extent; the minutes and the numbing that each",
      "area needs; and where each number comes from."
    })
final class CheckCommand extends AnswerCommand {

  @Mixin private ChartFile chartFile = new ChartFile();

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  CheckCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    checkOutput(chartFile.name(), practiceOption.name());
    Gathering gathering = new Gathering();
    Gathering.Read<Chart> chartRead = gathering.read(() -> chartFile.read(documents()));
    Gathering.Read<Practice> practiceRead = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();
    Chart chart = chartRead.get();
    Practice practice = practiceRead.get();
    ChartSummary summary;
    try {
      summary = ChartSummary.of(chart, practice, WorkPlanner.plan(chart, practice, Area.of(chart)));
    } catch (UnworkableException unworkable) {
      throw StopException.refused(Unworkables.message(unworkable, chart));
    }
    answer(
        format(Format.TEXT) == Format.JSON
            ? CheckJson.of(chart, summary)
            : CheckText.of(chart, summary, styled()));
    return Status.DONE;
  }
}
