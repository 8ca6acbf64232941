package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.jspecify.annotations.Nullable;
import quadrille.document.InvalidDocumentException;

final class ChartRoundTripProperties {

  @Provide
  Arbitrary<Chart> charts() {
    return ChartArbitraries.charts();
  }

  @Property(tries = 200, seed = "20260302", edgeCases = EdgeCasesMode.NONE)
  void whatIsWrittenReadsBackEqualAndIsWrittenTheSame(@ForAll("charts") Chart chart)
      throws InvalidDocumentException {
    String json = ChartWriter.json(chart);
    Chart read = ChartReader.json("chart.json", json);
    assertEquals(chart, read);
    assertEquals(json, ChartWriter.json(read));
  }

  @Property(tries = 300, seed = "20260306", edgeCases = EdgeCasesMode.NONE)
  void toothLinesReadBackEqualAndAreWrittenTheSame(@ForAll("charts") Chart chart)
      throws InvalidDocumentException {
    String lines = ChartWriter.lines(chart);
    assertEquals(chart, ChartReader.read("standard input", lines));
    assertEquals(lines, ChartWriter.lines(ChartReader.lines("mouth.teeth", lines)));
  }

  @Property(tries = 200, seed = "20260307", edgeCases = EdgeCasesMode.NONE)
  void aTableReadsBackEqualWhateverStandsBetweenItsCells(@ForAll("charts") Chart chart)
      throws InvalidDocumentException {
    // A cell cannot tell whether spaces at its end belong to it.
    Chart named = chart.withCaseName(chart.caseName().replaceAll("[;,\t\"]", "-") + "x");
    String csv = ChartWriter.csv(named);
    assertEquals(named, ChartReader.read("standard input", csv));
    for (String between : List.of(";", "\t")) {
      String european = "\uFEFF" + csv.replace(",", between).replace("true", "1");
      assertEquals(
          named, ChartReader.csv("chart.csv", european.replaceAll("(weightKg: [0-9]+)\\.", "$1,")));
    }
  }

  @Property(tries = 100, seed = "20260303", edgeCases = EdgeCasesMode.NONE)
  void aTableSaysTheSameInAnyOrderOfItsRows(@ForAll("charts") Chart chart, @ForAll int seed)
      throws InvalidDocumentException {
    // A cell cannot tell whether spaces or commas at its end belong to it.
    Chart named =
        new Chart(
            chart.caseName() + "x",
            chart.charted(),
            chart.numbering(),
            chart.patient(),
            chart.teeth());
    assertEquals(named, ChartReader.csv("chart.csv", csv(named, new Random(seed))));
  }

  /** A table as an export might lay it out, with the tooth's facts in one of its rows. */
  private static String csv(Chart chart, Random random) {
    List<String> lines = new ArrayList<>();
    Patient patient = chart.patient();
    fact(lines, "case", chart.caseName());
    fact(lines, "charted", chart.charted());
    fact(lines, "numbering", chart.numbering().word());
    fact(lines, "ageYears", patient.ageYears());
    fact(lines, "weightKg", patient.weightKg());
    fact(lines, "longestVisitMinutes", patient.longestVisitMinutes());
    fact(
        lines,
        "wishes",
        patient.wishes().isEmpty() ? null : ChartCsvWriter.wishes(patient, chart.numbering()));
    fact(
        lines,
        "alerts",
        !patient.history().taken()
            ? null
            : patient.history().alerts().isEmpty()
                ? "none"
                : patient.history().alerts().stream()
                    .map(Alert::word)
                    .collect(Collectors.joining(" ")));
    fact(lines, "startWith", patient.startWith());
    fact(lines, "wishesNumbness", patient.wishesNumbness());
    fact(lines, "notes", patient.notes());
    lines.add(
        "depthMesial,depthMiddle,depthDistal,tooth,aspect,status,deposit,furcation,mobility,"
            + "features,bleedingDistal,bleedingMiddle,bleedingMesial,recessionDistal,"
            + "recessionMiddle,recessionMesial");
    List<String> rows = new ArrayList<>();
    for (ToothChart tooth : chart.teeth()) {
      List<Aspect> aspects = new ArrayList<>();
      for (Aspect aspect : Aspect.values()) {
        if (!tooth.sites(aspect).isEmpty()) {
          aspects.add(aspect);
        }
      }
      int facts = aspects.isEmpty() ? 0 : random.nextInt(aspects.size());
      for (int row = 0; row < Math.max(1, aspects.size()); row++) {
        rows.add(
            row(
                chart.numbering().name(tooth.tooth()),
                tooth,
                aspects.isEmpty() ? null : aspects.get(row),
                row == facts));
      }
    }
    Collections.shuffle(rows, random);
    lines.addAll(rows);
    return String.join("\n", lines);
  }

  private static void fact(List<String> lines, String key, @Nullable Object value) {
    if (value != null) {
      lines.add("\"# " + key + ": " + value.toString().replace("\"", "\"\"") + "\"");
    }
  }

  private static String row(String code, ToothChart tooth, @Nullable Aspect aspect, boolean facts) {
    List<Site> sites = aspect == null ? List.of() : tooth.sites(aspect);
    List<String> cells = new ArrayList<>();
    for (int site = 2; site >= 0; site--) {
      cells.add(sites.isEmpty() ? "" : blank(sites.get(site).depthMm()));
    }
    cells.add(code);
    cells.add(aspect == null ? "" : aspect.word());
    // The status in every row: without it a blank row would be a natural tooth's.
    cells.add(tooth.status().word());
    cells.add(facts ? tooth.deposit().word() : "");
    cells.add(facts ? "" + tooth.furcation() : "");
    cells.add(facts ? "" + tooth.mobility() : "");
    cells.add(
        facts ? tooth.features().stream().map(Feature::word).collect(Collectors.joining(" ")) : "");
    for (int site = 0; site < 3; site++) {
      cells.add(sites.isEmpty() ? "" : "" + sites.get(site).bleeding());
    }
    for (int site = 0; site < 3; site++) {
      cells.add(sites.isEmpty() ? "" : "" + sites.get(site).recessionMm());
    }
    return String.join(",", cells);
  }

  private static String blank(@Nullable Integer depth) {
    return depth == null ? "" : depth.toString();
  }
}
