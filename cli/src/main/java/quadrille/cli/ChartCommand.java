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
import quadrille.facts.exchange.FhirFindings;
import quadrille.facts.exchange.ForeignChart;
import quadrille.facts.exchange.ForeignCharts;
import quadrille.facts.exchange.Mapping;

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
      "What another program exports, a table with columns of its own or a FHIR R4",
      "Bundle of dental findings, is read by --mapping FILE, which says what each",
      "column and each code means; --propose writes such a file, to be looked at and",
      "confirmed. What cannot be taken over is listed and left open (?).",
      "--fhir writes a Bundle, with the codes of the mapping.",
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

  @Option(
      names = "--mapping",
      order = 12,
      paramLabel = "FILE",
      description = "What the columns or codes of another program mean.")
  @Nullable
  private String mapping;

  @Option(
      names = "--propose",
      order = 13,
      description = "Write what the columns or codes of CHART may mean, as a mapping to confirm.")
  private boolean propose;

  @Option(
      names = "--fhir",
      order = 14,
      description = "Write a FHIR R4 Bundle of dental findings; needs --mapping.")
  private boolean fhir;

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
      if (mapping != null || propose || fhir) {
        throw StopException.usage("--mapping, --propose and --fhir: need a CHART.");
      }
      output.check();
      output.write(documents(), empty(form));
      return Status.DONE;
    }
    if (teeth != null || numbering != null) {
      throw StopException.usage("--teeth and --numbering: go with --new.");
    }
    String file = Objects.requireNonNull(of.chartFile);
    output.check(file, mapping);
    if (propose || fhir) {
      checkJson();
    }
    if (propose) {
      if (mapping != null || fhir) {
        throw StopException.usage("--propose, --mapping and --fhir: propose by itself.");
      }
      String text = documents().read(file);
      output.write(documents(), ForeignCharts.proposed(Documents.name(file), text).text());
      return Status.DONE;
    }
    String from = mapping;
    if (fhir) {
      return fhir(file, from);
    }
    if (from != null) {
      return foreign(file, mapping(from), form);
    }
    output.write(documents(), written(ChartFile.read(file, documents()), form));
    return Status.DONE;
  }

  private void checkJson() throws StopException {
    output.checkJson();
    Format asked = format(Format.JSON);
    if (asked != Format.JSON) {
      throw StopException.usage("--propose and --fhir: write JSON.");
    }
  }

  private Mapping mapping(String file) throws InvalidDocumentException, StopException {
    return Mapping.read(Documents.name(file), documents().read(file));
  }

  private int foreign(String file, Mapping by, Format form)
      throws InvalidDocumentException, StopException {
    String text = documents().read(file);
    ForeignChart foreign = ForeignCharts.read(Documents.name(file), text, by);
    foreign.notes().forEach(note -> message(Documents.name(file) + ": " + note));
    Chart chart = foreign.chart();
    if (chart == null && form != Format.LINES && form != Format.TEXT) {
      throw StopException.file(
          Documents.name(file)
              + ": something is left open, which only tooth lines can be (--format lines).");
    }
    output.write(documents(), chart == null ? foreign.lines() : written(chart, form));
    return Status.DONE;
  }

  private int fhir(String file, @Nullable String from)
      throws InvalidDocumentException, StopException {
    if (from == null) {
      throw StopException.usage("--fhir: needs --mapping, which names the codes.");
    }
    FhirFindings findings = FhirFindings.of(ChartFile.read(file, documents()), mapping(from));
    findings.notes().forEach(note -> message(Documents.name(file) + ": " + note));
    if (findings.text().isEmpty()) {
      throw StopException.file(Documents.name(file) + ": nothing of it can be written.");
    }
    output.write(documents(), findings.text());
    return Status.DONE;
  }

  private static String written(Chart chart, Format form) {
    return switch (form) {
      case JSON -> ChartWriter.json(chart);
      case CSV -> ChartWriter.csv(chart);
      default -> ChartWriter.lines(chart);
    };
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
