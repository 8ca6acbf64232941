package quadrille.facts.chart;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;

/**
 * Writes a chart as JSON, CSV or tooth lines, each in one way only: the same chart gives the same
 * bytes, and reading them gives the same chart. What a reader takes for granted (a natural tooth,
 * no recession, no bleeding) is left out.
 */
public final class ChartWriter {

  /** What a form has where something is to be said. */
  private static final String UNSAID = "?";

  private ChartWriter() {}

  /** The document, in the shape of {@code docs/chart.schema.json}. */
  public static String json(Chart chart) {
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", ChartReader.SCHEMA);
    root.put("case", chart.caseName());
    if (chart.charted() != null) {
      root.put("charted", chart.charted().toString());
    }
    root.put("numbering", chart.numbering().word());
    root.put("patient", patient(chart.patient()));
    if (!chart.patient().wishes().isEmpty()) {
      root.put(
          "wishes",
          chart.patient().wishes().stream()
              .map(wish -> WishFields.members(wish, chart.numbering()))
              .toList());
    }
    root.put("teeth", chart.teeth().stream().map(one -> tooth(one, chart.numbering())).toList());
    return JsonLayout.rows(root);
  }

  /** Tooth lines, in columns, from the upper right third molar around to the lower right one. */
  public static String lines(Chart chart) {
    return ToothLinesWriter.text(chart);
  }

  /** A table of comma-separated values, a row a tooth and aspect. */
  public static String csv(Chart chart) {
    return ChartCsvWriter.text(chart);
  }

  /**
   * A form to fill in, as tooth lines. A question mark stands wherever something is to be said, and
   * whoever reads one that was left reports it: nothing is taken as said.
   */
  public static String emptyLines(Numbering numbering, List<Tooth> teeth) {
    return ToothLinesWriter.empty(numbering, teeth);
  }

  /** As {@link #emptyLines}, as a table. */
  public static String emptyCsv(Numbering numbering, List<Tooth> teeth) {
    return ChartCsvWriter.empty(numbering, teeth);
  }

  /** As {@link #emptyLines}, as JSON. */
  public static String emptyJson(Numbering numbering, List<Tooth> teeth) {
    Map<String, Object> patient = new LinkedHashMap<>();
    for (String key : List.of("ageYears", "weightKg", "longestVisitMinutes")) {
      patient.put(key, UNSAID);
    }
    patient.put("alerts", List.of(UNSAID));
    List<String> sites = Collections.nCopies(3, UNSAID);
    Map<String, Object> aspect = new LinkedHashMap<>();
    aspect.put("depthMm", sites);
    aspect.put("bleeding", sites);
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", ChartReader.SCHEMA);
    root.put("case", UNSAID);
    root.put("charted", UNSAID);
    root.put("numbering", numbering.word());
    root.put("patient", patient);
    root.put("teeth", teeth.stream().sorted().map(one -> empty(one, numbering, aspect)).toList());
    return JsonLayout.rows(root);
  }

  private static Map<String, Object> empty(
      Tooth tooth, Numbering numbering, Map<String, Object> aspect) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("tooth", numbering.name(tooth));
    fields.put("deposit", UNSAID);
    fields.put("facial", aspect);
    fields.put("lingual", aspect);
    return fields;
  }

  private static Map<String, Object> patient(Patient patient) {
    Map<String, Object> fields = new LinkedHashMap<>();
    put(fields, "ageYears", patient.ageYears());
    put(fields, "weightKg", patient.weightKg());
    put(fields, "longestVisitMinutes", patient.longestVisitMinutes());
    if (patient.history().taken()) {
      fields.put("alerts", patient.history().alerts().stream().map(Alert::word).toList());
    }
    put(fields, "startWith", patient.startWith() == null ? null : patient.startWith().name());
    put(fields, "wishesNumbness", patient.wishesNumbness() ? true : null);
    put(fields, "notes", patient.notes());
    return fields;
  }

  private static Map<String, Object> tooth(ToothChart tooth, Numbering numbering) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("tooth", numbering.name(tooth.tooth()));
    if (tooth.status() != ToothStatus.NATURAL) {
      fields.put("status", tooth.status().word());
    }
    if (tooth.worked() || tooth.deposit() != Deposit.NONE) {
      fields.put("deposit", tooth.deposit().word());
    }
    put(fields, "furcation", tooth.furcation() == 0 ? null : tooth.furcation());
    put(fields, "mobility", tooth.mobility() == 0 ? null : tooth.mobility());
    if (!tooth.features().isEmpty()) {
      fields.put("features", tooth.features().stream().map(Feature::word).toList());
    }
    put(fields, "facial", tooth.facial() == null ? null : reading(tooth.facial()));
    put(fields, "lingual", tooth.lingual() == null ? null : reading(tooth.lingual()));
    return fields;
  }

  private static Map<String, Object> reading(AspectReading reading) {
    List<Site> sites = reading.sites();
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("depthMm", sites.stream().map(Site::depthMm).toList());
    if (sites.stream().anyMatch(site -> site.recessionMm() != 0)) {
      fields.put("recessionMm", sites.stream().map(Site::recessionMm).toList());
    }
    if (sites.stream().anyMatch(Site::bleeding)) {
      fields.put("bleeding", sites.stream().map(Site::bleeding).toList());
    }
    return fields;
  }

  private static void put(Map<String, Object> fields, String key, @Nullable Object value) {
    if (value != null) {
      fields.put(key, value);
    }
  }
}
