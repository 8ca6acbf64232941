package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;

/** Holds docs/tooth-lines.md against what the reader does. */
final class ToothLinesDocumentTest {

  private static String document() throws IOException {
    return Files.readString(Path.of("..", "docs", "tooth-lines.md"));
  }

  @Test
  void theExampleIsAsItWouldBePrinted() throws IOException, InvalidDocumentException {
    String example = document().split("```teeth\n")[1].split("```")[0];
    Chart chart = ChartReader.lines("mouth.teeth", example);
    ToothChart molar = chart.tooth(Tooth.ofIso(16)).orElseThrow();
    assertEquals(
        new AspectReading(new Site(6, 1, true), Site.ofDepth(4), new Site(7, 1, true)),
        molar.facial());
    assertEquals(chart, ChartReader.lines("mouth.teeth", ChartWriter.lines(chart)));
  }

  @Test
  void everyKeyAndWordIsExplained() throws IOException {
    String document = document();
    Stream.of(
            ToothLines.KEYS.keySet().stream(),
            Stream.of(Deposit.values()).map(Deposit::word),
            Stream.of(Feature.values()).map(Feature::word),
            Stream.of(ToothStatus.values())
                .filter(status -> status != ToothStatus.NATURAL)
                .map(ToothStatus::word))
        .flatMap(words -> words)
        .forEach(word -> assertTrue(document.contains("`" + word + "`"), word));
  }

  @Test
  void theFaultIsQuotedAsTheReaderPutsIt() throws IOException {
    String quoted = document().replaceAll("\\s+", " ");
    assertTrue(
        BrokenChartsTest.cases().stream()
            .flatMap(one -> one.faults().stream())
            .anyMatch(fault -> quoted.contains("`" + fault + "`")));
  }

  @Test
  void anEmptyChartIsAtFaultWhereverItIsNotFilledIn() {
    for (Numbering numbering : Numbering.values()) {
      for (String text :
          List.of(
              ChartWriter.emptyLines(numbering, Tooth.values()),
              ChartWriter.emptyCsv(numbering, Tooth.values()),
              ChartWriter.emptyJson(numbering, Tooth.values()))) {
        InvalidDocumentException invalid =
            org.junit.jupiter.api.Assertions.assertThrows(
                InvalidDocumentException.class, () -> ChartReader.read("standard input", text));
        for (Tooth tooth : Tooth.values()) {
          String named = "(tooth " + numbering.name(tooth);
          assertTrue(
              invalid.faults().stream().filter(one -> one.place().contains(named)).count() >= 3,
              named);
        }
      }
    }
  }
}
