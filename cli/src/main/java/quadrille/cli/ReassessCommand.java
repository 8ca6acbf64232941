package quadrille.cli;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.ReassessJson;
import quadrille.cli.render.ReassessText;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.ReassessKind;
import quadrille.cli.render.page.ReassessPages;
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
      "With --format html, pages to look at and print, for the clinician and for the",
      "patient; none for a patient while the charts are in doubt.",
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

  @Option(
      names = "--page",
      order = 85,
      split = ",",
      paramLabel = "PAGE",
      description = "With --format html: only clinician or patient; may be repeated.")
  private List<ReassessKind> pages = List.of();

  @Option(
      names = "--language",
      order = 86,
      paramLabel = "CODE",
      description = "With --format html: what the patient reads, in en (the default) or de.")
  @Nullable
  private Language language;

  @Mixin private OutputOption output = new OutputOption();

  ReassessCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    boolean html = format(Format.TEXT) == Format.HTML;
    if ((!pages.isEmpty() || language != null) && !html) {
      throw StopException.usage("--page and --language: go with --format html.");
    }
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
    Set<ReassessKind> kinds =
        pages.isEmpty() ? EnumSet.allOf(ReassessKind.class) : EnumSet.copyOf(pages);
    if (html && !kinds.contains(ReassessKind.CLINICIAN) && !reassessment.doubts().isEmpty()) {
      throw StopException.refused(
          "No page is drawn for a patient while this is open:\n"
              + String.join("\n", reassessment.doubts()));
    }
    if (html) {
      answer(
          ReassessPages.of(
              before.get(),
              after.get(),
              practice.get(),
              reassessment,
              kinds,
              language == null ? Language.english() : language));
      reassessment.doubts().forEach(this::message);
      return Status.DONE;
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
