package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import quadrille.document.JsonLayout;

/** Writes a chart as tooth lines, in columns: what {@link ToothLines} reads. */
final class ToothLinesWriter {

  /** A case that needs no quotes: nothing in it would be taken for something else. */
  private static final Pattern PLAIN = Pattern.compile("[^\\s\"#?][^\"#]*");

  /** Words in front of the sites are padded to this width at most. */
  private static final int WIDEST_WORDS = 24;

  private ToothLinesWriter() {}

  static String text(Chart chart) {
    List<String> lines = new ArrayList<>();
    lines.add("case " + restOfLine(chart.caseName()));
    if (chart.charted() != null) {
      lines.add("charted " + chart.charted());
    }
    lines.add("numbering " + chart.numbering().word());
    lines.addAll(patient(chart.patient(), chart.numbering()));
    lines.addAll(
        teeth(
            chart.teeth().stream()
                .sorted(Comparator.comparing(ToothChart::tooth, Tooth.AROUND))
                .map(tooth -> cells(tooth, chart.numbering()))
                .toList()));
    return String.join("\n", lines) + "\n";
  }

  /** Of a mouth that nobody has charted yet; read, it is at fault wherever it was not filled in. */
  static String empty(Numbering numbering, List<Tooth> teeth) {
    String open = ToothLines.OPEN;
    List<String> sites = List.of(open, open, open);
    List<String> lines =
        new ArrayList<>(
            List.of(
                "case ?",
                "charted ?",
                "numbering " + numbering.word(),
                "age ?   weight ?   longest ?",
                "alerts ?",
                "# facial | lingual: each distal, middle, mesial"));
    lines.addAll(
        teeth(
            teeth.stream()
                .sorted(Tooth.AROUND)
                .map(tooth -> new Cells(numbering.name(tooth) + " " + open, sites, sites))
                .toList()));
    return String.join("\n", lines) + "\n";
  }

  private static String restOfLine(String name) {
    return PLAIN.matcher(name).matches() && name.equals(name.strip())
        ? name
        : '"' + name.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  private static List<String> patient(Patient patient, Numbering numbering) {
    List<String> facts = new ArrayList<>();
    if (patient.ageYears() != null) {
      facts.add("age " + patient.ageYears());
    }
    if (patient.weightKg() != null) {
      facts.add("weight " + JsonLayout.number(patient.weightKg()));
    }
    if (patient.longestVisitMinutes() != null) {
      facts.add("longest " + patient.longestVisitMinutes());
    }
    if (patient.startWith() != null) {
      facts.add("start-with " + patient.startWith());
    }
    if (patient.wishesNumbness()) {
      facts.add("wishes-numbness yes");
    }
    List<String> lines = new ArrayList<>();
    if (!facts.isEmpty()) {
      lines.add(String.join("   ", facts));
    }
    if (patient.history().taken()) {
      lines.add("alerts " + ChartCsvWriter.alerts(patient));
    }
    if (!patient.wishes().isEmpty()) {
      lines.add("wishes " + restOfLine(ChartCsvWriter.wishes(patient, numbering)));
    }
    if (patient.notes() != null) {
      lines.add("notes " + restOfLine(patient.notes()));
    }
    return lines;
  }

  /** One tooth: what stands in front of the first bar, and the sites of each aspect. */
  private record Cells(String words, List<String> facial, List<String> lingual) {}

  private static Cells cells(ToothChart tooth, Numbering numbering) {
    List<String> words = new ArrayList<>();
    words.add(numbering.name(tooth.tooth()));
    if (tooth.status() != ToothStatus.NATURAL) {
      words.add(tooth.status().word());
    }
    if (tooth.worked() || tooth.deposit() != Deposit.NONE) {
      words.add(tooth.deposit().word());
    }
    if (tooth.furcation() != 0) {
      words.add("f" + tooth.furcation());
    }
    if (tooth.mobility() != 0) {
      words.add("m" + tooth.mobility());
    }
    tooth.features().forEach(feature -> words.add(feature.word()));
    return new Cells(
        String.join(" ", words),
        sites(tooth.sites(Aspect.FACIAL)),
        sites(tooth.sites(Aspect.LINGUAL)));
  }

  private static List<String> sites(List<Site> sites) {
    return sites.stream()
        .map(
            site ->
                (site.depthMm() == null ? "-" : site.depthMm().toString())
                    + (site.bleeding() ? "b" : "")
                    + (site.recessionMm() == 0 ? "" : "/" + site.recessionMm()))
        .toList();
  }

  private static List<String> teeth(List<Cells> teeth) {
    int words =
        Math.min(
            WIDEST_WORDS, teeth.stream().mapToInt(one -> one.words().length()).max().orElse(0));
    int site =
        teeth.stream()
            .flatMap(one -> Stream.concat(one.facial().stream(), one.lingual().stream()))
            .mapToInt(String::length)
            .max()
            .orElse(1);
    return teeth.stream()
        .map(
            one ->
                one.facial().isEmpty() && one.lingual().isEmpty()
                    ? one.words()
                    : (padded(one.words(), words)
                            + " | "
                            + group(one.facial(), site)
                            + " | "
                            + group(one.lingual(), site))
                        .stripTrailing())
        .toList();
  }

  private static String group(List<String> sites, int width) {
    return IntStream.range(0, 3)
        .mapToObj(i -> padded(sites.isEmpty() ? "" : sites.get(i), width))
        .collect(Collectors.joining(" "));
  }

  private static String padded(String text, int width) {
    return text + " ".repeat(Math.max(0, width - text.length()));
  }
}
