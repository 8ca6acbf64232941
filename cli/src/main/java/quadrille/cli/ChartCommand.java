package quadrille.cli;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;

/** {@code quadrille chart}: a chart read back, in another form, or an empty one. */
@Command(
    name = "chart",
    customSynopsis = {
      "quadrille chart CHART [OPTION ...]",
      "       quadrille chart --new [OPTION ...]"
    },
    description = {
      "Read a chart back as tooth lines, to check against what was called out, or",
      "write it in another form: --format lines (the default; text is the same),",
      "csv or json. The ending of the file that -o names (.teeth, .csv, .json)",
      "chooses the form too.",
      "",
      "With --new, an empty chart to fill in. A question mark stands wherever",
      "something is to be said, and no command takes one for an answer."
    })
final class ChartCommand extends BaseCommand {

  @ArgGroup(multiplicity = "1")
  private Source of = new Source();

  @Option(
      names = "--teeth",
      order = 10,
      paramLabel = "N",
      description = "With --new: 28 teeth (the default) or, with third molars, 32.")
  @Nullable
  private Integer teeth;

  @Option(
      names = "--numbering",
      order = 11,
      paramLabel = "WORD",
      description = "With --new: iso3950 (11 to 48, the default) or universal (1 to 32).")
  @Nullable
  private Numbering numbering;

  @Mixin private OutputOption output = new OutputOption();

  ChartCommand(Streams streams) {
    super(streams);
  }

  @Override
  OutputOption output() {
    return output;
  }

  @Override
  boolean writesCharts() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    Format form = format(Format.LINES);
    if (of.empty) {
      output.check();
      output.write(documents(), empty(form));
      return Status.DONE;
    }
    if (teeth != null || numbering != null) {
      throw StopException.usage("--teeth and --numbering: go with --new.");
    }
    String file = Objects.requireNonNull(of.chartFile);
    output.check(file);
    Chart chart = ChartFile.read(file, documents());
    output.write(
        documents(),
        switch (form) {
          case JSON -> ChartWriter.json(chart);
          case CSV -> ChartWriter.csv(chart);
          default -> ChartWriter.lines(chart);
        });
    return Status.DONE;
  }

  private String empty(Format form) throws StopException {
    int count = teeth == null ? 28 : teeth;
    if (count != 28 && count != 32) {
      throw StopException.usage("--teeth " + count + ": must be 28 or 32.");
    }
    List<Tooth> positions =
        Tooth.values().stream().filter(tooth -> count == 32 || tooth.position() < 8).toList();
    Numbering by = numbering == null ? Numbering.ISO3950 : numbering;
    return switch (form) {
      case JSON -> ChartWriter.emptyJson(by, positions);
      case CSV -> ChartWriter.emptyCsv(by, positions);
      default -> ChartWriter.emptyLines(by, positions);
    };
  }

  /** What is written: a chart, or an empty one. */
  private static final class Source {

    @Parameters(
        paramLabel = "CHART",
        arity = "0..1",
        description = "A chart as JSON, YAML, CSV or tooth lines; - is standard input.")
    @Nullable
    private String chartFile;

    @Option(names = "--new", order = 5, description = "In place of CHART: an empty one.")
    private boolean empty;
  }
}
