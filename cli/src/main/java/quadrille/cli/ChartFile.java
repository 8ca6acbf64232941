package quadrille.cli;

import picocli.CommandLine.Parameters;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;

/** The chart that a command is about. */
final class ChartFile {

  @Parameters(
      paramLabel = "CHART",
      description = "A chart as JSON, YAML or CSV; - is standard input.")
  private String file = "";

  /** The name as given. */
  String name() {
    return file;
  }

  Chart read(Documents documents) throws InvalidDocumentException, StopException {
    return read(file, documents);
  }

  /** Reads a chart file by its name. */
  static Chart read(String file, Documents documents)
      throws InvalidDocumentException, StopException {
    return ChartReader.read(Documents.name(file), documents.read(file));
  }
}
