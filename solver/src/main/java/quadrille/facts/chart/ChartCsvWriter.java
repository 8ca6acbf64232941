package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;

/** Writes a chart as the table that {@link ChartCsv} reads. */
final class ChartCsvWriter {

  private ChartCsvWriter() {}

  static String text(Chart chart) {
    Patient patient = chart.patient();
    List<String> lines = new ArrayList<>();
    fact(lines, "case", chart.caseName());
    fact(lines, "charted", chart.charted());
    fact(lines, "numbering", chart.numbering().word());
    fact(lines, "ageYears", patient.ageYears());
    fact(
        lines,
        "weightKg",
        patient.weightKg() == null ? null : JsonLayout.number(patient.weightKg()));
    fact(lines, "longestVisitMinutes", patient.longestVisitMinutes());
    if (patient.history().taken()) {
      fact(lines, "alerts", alerts(patient));
    }
    fact(lines, "startWith", patient.startWith());
    fact(lines, "wishesNumbness", patient.wishesNumbness() ? "true" : null);
    if (!patient.wishes().isEmpty()) {
      fact(lines, "wishes", wishes(patient, chart.numbering()));
    }
    fact(lines, "notes", patient.notes());
    lines.add(String.join(",", ChartCsv.COLUMNS));
    for (ToothChart tooth : chart.teeth()) {
      List<Aspect> charted =
          Stream.of(Aspect.values()).filter(aspect -> !tooth.sites(aspect).isEmpty()).toList();
      if (charted.isEmpty()) {
        lines.add(row(chart.numbering(), tooth, null));
      }
      charted.forEach(aspect -> lines.add(row(chart.numbering(), tooth, aspect)));
    }
    return String.join("\n", lines) + "\n";
  }

  /** As sentences with semicolons between. */
  static String wishes(Patient patient, Numbering numbering) {
    return String.join("; ", patient.wishes().stream().map(wish -> wish.words(numbering)).toList());
  }

  static String empty(Numbering numbering, List<Tooth> teeth) {
    List<String> lines = new ArrayList<>();
    for (String key : List.of("case", "charted")) {
      fact(lines, key, "?");
    }
    fact(lines, "numbering", numbering.word());
    for (String key : List.of("ageYears", "weightKg", "longestVisitMinutes", "alerts")) {
      fact(lines, key, "?");
    }
    lines.add(String.join(",", ChartCsv.COLUMNS));
    for (Tooth tooth : teeth.stream().sorted().toList()) {
      for (Aspect aspect : Aspect.values()) {
        String deposit = aspect == Aspect.FACIAL ? "?" : "";
        lines.add(
            numbering.name(tooth) + "," + aspect.word() + ",," + deposit + ",,,,?,?,?,,,,?,?,?");
      }
    }
    return String.join("\n", lines) + "\n";
  }

  /** The alerts of a history that was taken, which has a word of its own where there are none. */
  static String alerts(Patient patient) {
    return patient.history().alerts().isEmpty()
        ? ChartCsv.NO_ALERTS
        : patient.history().alerts().stream().map(Alert::word).collect(Collectors.joining(" "));
  }

  private static void fact(List<String> lines, String key, @Nullable Object value) {
    if (value != null) {
      lines.add(quoted("# " + key + ": " + value));
    }
  }

  /** What concerns the tooth stands in each of its rows. */
  private static String row(Numbering numbering, ToothChart tooth, @Nullable Aspect aspect) {
    List<Site> sites = aspect == null ? List.of() : tooth.sites(aspect);
    List<String> cells = new ArrayList<>();
    cells.add(numbering.name(tooth.tooth()));
    cells.add(aspect == null ? "" : aspect.word());
    cells.add(tooth.status() == ToothStatus.NATURAL ? "" : tooth.status().word());
    cells.add(tooth.worked() || tooth.deposit() != Deposit.NONE ? tooth.deposit().word() : "");
    cells.add(tooth.furcation() == 0 ? "" : Integer.toString(tooth.furcation()));
    cells.add(tooth.mobility() == 0 ? "" : Integer.toString(tooth.mobility()));
    cells.add(tooth.features().stream().map(Feature::word).collect(Collectors.joining(" ")));
    for (int i = 0; i < 3; i++) {
      @Nullable Integer depth = sites.isEmpty() ? null : sites.get(i).depthMm();
      cells.add(depth == null ? "" : depth.toString());
    }
    for (int i = 0; i < 3; i++) {
      int recession = sites.isEmpty() ? 0 : sites.get(i).recessionMm();
      cells.add(recession == 0 ? "" : Integer.toString(recession));
    }
    // A row of blanks would be no reading at all.
    boolean blank = sites.stream().allMatch(new Site(null, 0, false)::equals);
    for (int i = 0; i < 3; i++) {
      boolean bled = !sites.isEmpty() && sites.get(i).bleeding();
      cells.add(bled ? "true" : blank && !sites.isEmpty() ? "false" : "");
    }
    return String.join(",", cells);
  }

  private static String quoted(String cell) {
    return cell.chars().anyMatch(c -> c == ',' || c == '"' || c == ';' || c == '\t')
        ? '"' + cell.replace("\"", "\"\"") + '"'
        : cell;
  }
}
