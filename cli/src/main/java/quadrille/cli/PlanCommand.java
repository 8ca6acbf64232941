package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import quadrille.chart.Chart;
import quadrille.cli.render.ExplainText;
import quadrille.cli.render.NoPlanJson;
import quadrille.cli.render.NoPlanText;
import quadrille.cli.render.PlanText;
import quadrille.course.Course;
import quadrille.course.PlanWriter;
import quadrille.planning.CoursePlanner;
import quadrille.planning.PlanOutcome;
import quadrille.planning.PlanOutcome.NoPlan;
import quadrille.planning.PlanOutcome.Planned;
import quadrille.planning.VisitRange;
import quadrille.practice.Practice;
import quadrille.reading.InvalidDocumentException;
import quadrille.staging.Effort;
import quadrille.work.UnworkableException;

/** {@code quadrille plan}: the staged course of a chart. */
@Command(
    name = "plan",
    customSynopsis = "quadrille plan CHART [OPTION ...]",
    description = {
      "Stage a charted mouth over visits.",
      "",
      "Prints the course at a glance, then each visit by the clock: injections,",
      "steps, inserts, doses, cautions. Every plan is audited before it is shown.",
      "It is a proposal for a licensed clinician.",
      "",
      "With -o, the file gets JSON, ready for audit, unless --format text is given.",
      "Where no plan keeps every rule, status 1 and what would help."
    })
final class PlanCommand extends BaseCommand {

  @Mixin private ChartFile chartFile = new ChartFile();

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  @Option(
      names = "--visits",
      order = 10,
      paramLabel = "N|A-B",
      description = "Exactly so many visits, or the best number from A to B (without it, 1-6).")
  private VisitRange visits = VisitRange.USUAL;

  @Option(
      names = "--explain",
      order = 11,
      description = "Also show what each term costs and why work went where it did.")
  private boolean explain;

  @Mixin private OutputOption output = new OutputOption();

  PlanCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    output.check(chartFile.name(), practiceOption.name());
    Gathering gathering = new Gathering();
    Gathering.Read<Chart> chart = gathering.read(() -> chartFile.read(documents()));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();

    PlanOutcome outcome = plan(chart.get(), practice.get());
    return outcome instanceof Planned planned
        ? show(chart.get(), practice.get(), planned)
        : refuse(chart.get(), (NoPlan) outcome);
  }

  private PlanOutcome plan(Chart chart, Practice practice) throws StopException {
    try {
      return new CoursePlanner(Effort.NORMAL).plan(chart, practice, visits);
    } catch (UnworkableException unworkable) {
      throw StopException.refused(Unworkables.message(unworkable, chart));
    }
  }

  private int show(Chart chart, Practice practice, Planned planned) throws StopException {
    Course course = planned.course();
    boolean styled = streams().styled() && !output.toFile();
    String why = explain ? ExplainText.of(chart, course, planned.explanation(), styled) : "";
    if (json()) {
      output.write(documents(), PlanWriter.write(course));
      message(why);
    } else {
      String plan = PlanText.of(chart, practice, course, explain, styled);
      output.write(documents(), explain ? plan + "\n" + why : plan);
    }
    if (output.toFile()) {
      int number = course.visits().size();
      message(
          "Wrote %s: %d %s, %d min booked."
              .formatted(
                  output.name(), number, number == 1 ? "visit" : "visits", course.bookedMinutes()));
    }
    return Status.DONE;
  }

  /** Says why there is no plan; a file that could be taken for one is not written. */
  private int refuse(Chart chart, NoPlan none) throws StopException {
    if (json() && !output.toFile()) {
      answer(NoPlanJson.of(chart, none));
    }
    message(NoPlanText.of(none));
    return Status.REFUSED;
  }

  /** A plan file is JSON unless text is asked for; standard output is for a person. */
  private boolean json() {
    return format(output.toFile() ? Format.JSON : Format.TEXT) == Format.JSON;
  }
}
