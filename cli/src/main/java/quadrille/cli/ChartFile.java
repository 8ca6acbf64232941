package quadrille.cli;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import picocli.CommandLine.Parameters;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartDoubts;
import quadrille.facts.chart.ChartReader;

/** The chart that a command is about. */
final class ChartFile {

  @Parameters(
      paramLabel = "CHART",
      description = "A chart as JSON, YAML, CSV or tooth lines; - is standard input.")
  private String file = "";

  /** The name as given. */
  String name() {
    return file;
  }

  Chart read(Documents documents) throws InvalidDocumentException, StopException {
    return read(file, documents);
  }

  /** Reads a chart file by its name; says what in it is worth a second look. */
  static Chart read(String file, Documents documents)
      throws InvalidDocumentException, StopException {
    Chart chart = readOnly(file, documents);
    doubts(Documents.name(file), chart).forEach(documents::tell);
    return chart;
  }

  /** Reads a chart file by its name, and says nothing of it. */
  static Chart readOnly(String file, Documents documents)
      throws InvalidDocumentException, StopException {
    return ChartReader.read(Documents.name(file), documents.read(file));
  }

  /**
   * What in a chart is worth a second look, in sentences.
   *
   * @param place where the chart stands
   */
  static List<String> doubts(String place, Chart chart) {
    return ChartDoubts.of(chart, LocalDate.now(Clock.systemDefaultZone())).stream()
        .map(doubt -> "Please look again, " + place + ": " + doubt + ".")
        .toList();
  }
}
