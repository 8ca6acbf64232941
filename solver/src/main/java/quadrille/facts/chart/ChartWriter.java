package quadrille.facts.chart;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import quadrille.document.JsonLayout;

/**
 * Writes a chart as JSON, CSV or tooth lines, each in one way only: the same chart gives the same
 * bytes, and reading them gives the same chart. What a reader takes for granted (a natural tooth,
 * no recession, no bleeding) is left out.
 */
public final class ChartWriter {

  private ChartWriter() {}

  /** The document, in the shape of {@code docs/chart.schema.json}. */
  public static String json(Chart chart) {
    List<String> lines = new ArrayList<>();
    lines.add(member("schema", quoted(ChartReader.SCHEMA)));
    lines.add(member("case", quoted(chart.caseName())));
    if (chart.charted() != null) {
      lines.add(member("charted", quoted(chart.charted().toString())));
    }
    lines.add(member("numbering", quoted(chart.numbering().word())));
    lines.add(member("patient", patient(chart.patient())));
    List<Wish> wishes = chart.patient().wishes();
    if (!wishes.isEmpty()) {
      lines.add(
          member(
              "wishes",
              wishes.stream()
                  .map(wish -> "    " + value(WishFields.members(wish, chart.numbering())))
                  .collect(Collectors.joining(",\n", "[\n", "\n  ]"))));
    }
    lines.add(
        member(
            "teeth",
            chart.teeth().stream()
                .map(tooth -> "    " + tooth(tooth, chart.numbering()))
                .collect(Collectors.joining(",\n", "[\n", "\n  ]"))));
    return lines.stream()
        .map(line -> "  " + line)
        .collect(Collectors.joining(",\n", "{\n", "\n}\n"));
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
    String aspect = "{ \"depthMm\": [\"?\", \"?\", \"?\"], \"bleeding\": [\"?\", \"?\", \"?\"] }";
    return teeth.stream()
        .sorted()
        .map(
            tooth ->
                "    { \"tooth\": \""
                    + numbering.name(tooth)
                    + "\", \"deposit\": \"?\",\n      \"facial\": "
                    + aspect
                    + ",\n      \"lingual\": "
                    + aspect
                    + " }")
        .collect(
            Collectors.joining(
                ",\n",
                "{\n  \"schema\": \""
                    + ChartReader.SCHEMA
                    + "\",\n  \"case\": \"?\",\n  \"charted\": \"?\",\n  \"numbering\": \""
                    + numbering.word()
                    + "\",\n  \"patient\": { \"ageYears\": \"?\", \"weightKg\": \"?\", "
                    + "\"longestVisitMinutes\": \"?\", \"alerts\": [\"?\"] },\n  \"teeth\": [\n",
                "\n  ]\n}\n"));
  }

  private static String patient(Patient patient) {
    List<String> members = new ArrayList<>();
    if (patient.ageYears() != null) {
      members.add(member("ageYears", patient.ageYears().toString()));
    }
    if (patient.weightKg() != null) {
      members.add(member("weightKg", JsonLayout.number(patient.weightKg())));
    }
    if (patient.longestVisitMinutes() != null) {
      members.add(member("longestVisitMinutes", patient.longestVisitMinutes().toString()));
    }
    if (patient.history().taken()) {
      members.add(
          member("alerts", array(patient.history().alerts(), alert -> quoted(alert.word()))));
    }
    if (patient.startWith() != null) {
      members.add(member("startWith", quoted(patient.startWith().name())));
    }
    if (patient.wishesNumbness()) {
      members.add(member("wishesNumbness", "true"));
    }
    if (patient.notes() != null) {
      members.add(member("notes", quoted(patient.notes())));
    }
    return object(members);
  }

  private static String tooth(ToothChart tooth, Numbering numbering) {
    List<String> members = new ArrayList<>();
    members.add(member("tooth", quoted(numbering.name(tooth.tooth()))));
    if (tooth.status() != ToothStatus.NATURAL) {
      members.add(member("status", quoted(tooth.status().word())));
    }
    if (tooth.worked() || tooth.deposit() != Deposit.NONE) {
      members.add(member("deposit", quoted(tooth.deposit().word())));
    }
    if (tooth.furcation() != 0) {
      members.add(member("furcation", Integer.toString(tooth.furcation())));
    }
    if (tooth.mobility() != 0) {
      members.add(member("mobility", Integer.toString(tooth.mobility())));
    }
    if (!tooth.features().isEmpty()) {
      members.add(member("features", array(tooth.features(), feature -> quoted(feature.word()))));
    }
    List<String> readings = new ArrayList<>();
    if (tooth.facial() != null) {
      readings.add(member("facial", reading(tooth.facial())));
    }
    if (tooth.lingual() != null) {
      readings.add(member("lingual", reading(tooth.lingual())));
    }
    // A line for the tooth and one for each aspect, as it is called out.
    List<String> lines = new ArrayList<>();
    lines.add(String.join(", ", members));
    lines.addAll(readings);
    return "{ " + String.join(",\n      ", lines) + " }";
  }

  private static String reading(AspectReading reading) {
    List<Site> sites = reading.sites();
    List<String> members = new ArrayList<>();
    members.add(member("depthMm", array(sites, site -> String.valueOf(site.depthMm()))));
    if (sites.stream().anyMatch(site -> site.recessionMm() != 0)) {
      members.add(
          member("recessionMm", array(sites, site -> Integer.toString(site.recessionMm()))));
    }
    if (sites.stream().anyMatch(Site::bleeding)) {
      members.add(member("bleeding", array(sites, site -> Boolean.toString(site.bleeding()))));
    }
    return object(members);
  }

  /** Objects, lists, texts and plain values, on one line. */
  private static String value(Object value) {
    if (value instanceof Map<?, ?> map) {
      return object(
          map.entrySet().stream()
              .map(one -> member(String.valueOf(one.getKey()), value(one.getValue())))
              .toList());
    }
    if (value instanceof List<?> list) {
      return array(list, one -> value(one));
    }
    return value instanceof String text ? quoted(text) : String.valueOf(value);
  }

  private static String member(String key, String value) {
    return quoted(key) + ": " + value;
  }

  private static String object(List<String> members) {
    return members.isEmpty() ? "{}" : "{ " + String.join(", ", members) + " }";
  }

  private static <T> String array(Collection<T> values, Function<T, String> written) {
    return values.stream().map(written).collect(Collectors.joining(", ", "[", "]"));
  }

  private static String quoted(String text) {
    return '"' + new String(JsonStringEncoder.getInstance().quoteAsString(text)) + '"';
  }
}
