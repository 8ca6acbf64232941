package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;

/** Holds docs/chart-csv.md against what the reader does. */
final class ChartCsvDocumentTest {

  private static String document() throws IOException {
    return Files.readString(Path.of("..", "docs", "chart-csv.md"));
  }

  private static String example() throws IOException {
    return document().split("```csv\n")[1].split("```")[0];
  }

  @Test
  void theExampleReadsAsItSays() throws IOException, InvalidDocumentException {
    Chart chart = ChartReader.csv("chart.csv", example());
    assertEquals(
        new Patient(54, 70.5, 90, EnumSet.of(Alert.DIABETES, Alert.ANXIOUS), Quadrant.UR, false),
        chart.patient());
    ToothChart molar = chart.tooth(Tooth.ofIso(16)).orElseThrow();
    assertEquals(Deposit.HEAVY, molar.deposit());
    assertEquals(EnumSet.of(Feature.CROWDED, Feature.SENSITIVE), EnumSet.copyOf(molar.features()));
    assertNull(molar.sites(Aspect.LINGUAL).get(1).depthMm());
    assertTrue(chart.tooth(Tooth.ofIso(46)).orElseThrow().implant());
  }

  @Test
  void everyKeyAndColumnIsExplained() throws IOException {
    String tables = document().split("## In front of the header")[1];
    String header =
        example().lines().filter(line -> line.startsWith("tooth,")).findFirst().orElseThrow();
    Stream.of(
            List.of("schema", "case", "charted", "numbering"),
            ChartReader.PATIENT_FACTS,
            List.of(header.split(",")))
        .flatMap(List::stream)
        .forEach(name -> assertTrue(tables.contains("`" + name + "`"), name));
  }

  /** The fault that the page quotes; the reader's own words. */
  @Test
  void theFaultIsQuotedAsTheReaderPutsIt() throws IOException {
    String quoted = document().replaceAll("\\s+", " ");
    assertTrue(
        BrokenChartsTest.cases().stream()
            .flatMap(one -> one.faults().stream())
            .anyMatch(fault -> quoted.contains("`" + fault + "`")));
  }
}
