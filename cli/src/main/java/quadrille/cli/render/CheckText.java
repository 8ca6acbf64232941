package quadrille.cli.render;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.plan.planning.ChartSummary;
import quadrille.plan.planning.ChartSummary.AreaWork;
import quadrille.plan.planning.ChartSummary.DepthBand;
import quadrille.plan.planning.ChartSummary.Extent;
import quadrille.plan.planning.UsedFigure;

/** What a chart says, as text. */
public final class CheckText {

  private static final int LABEL = 12;
  private static final int AREA = 20;

  private final Chart chart;
  private final ChartSummary summary;
  private final Page page;

  private CheckText(Chart chart, ChartSummary summary, boolean styled) {
    this.chart = chart;
    this.summary = summary;
    this.page = new Page(styled);
  }

  /**
   * Renders a chart's summary.
   *
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(Chart chart, ChartSummary summary, boolean styled) {
    CheckText text = new CheckText(chart, summary, styled);
    text.patient();
    text.teeth();
    text.sites();
    PromptText.put(text.page, chart);
    text.work();
    text.numbing();
    text.notes();
    text.sources();
    return text.page.text();
  }

  private void patient() {
    page.heading(
        "Chart "
            + chart.caseName()
            + (chart.charted() == null ? "" : ", charted " + chart.charted()));
    Patient patient = chart.patient();
    List<String> facts = new ArrayList<>();
    facts.add(patient.ageYears() == null ? "age not charted" : "age " + patient.ageYears());
    if (patient.weightKg() != null) {
      facts.add(Words.number(patient.weightKg(), 1) + "\u00a0kg");
    }
    if (patient.longestVisitMinutes() != null) {
      facts.add("at most " + patient.longestVisitMinutes() + "\u00a0min a visit");
    }
    if (patient.startWith() != null) {
      facts.add("start with " + patient.startWith());
    }
    if (patient.wishesNumbness()) {
      facts.add("wishes to be numb");
    }
    label("Patient", String.join(", ", facts));
    if (patient.weightKg() == null) {
      label("WEIGHT", "NOT CHARTED, and none is assumed: no injection can be planned.");
    }
    Set<Alert> alerts = patient.history().alerts();
    if (patient.history().taken()) {
      label(
          "Alerts",
          alerts.isEmpty()
              ? "none"
              : alerts.stream().map(Alert::word).collect(Collectors.joining(", ")));
    } else {
      label("HISTORY", "NOT TAKEN, and none is assumed: no injection can be planned.");
    }
    if (patient.notes() != null) {
      label("Notes", patient.notes());
    }
    label(
        "Teeth by",
        chart.numbering() == Numbering.UNIVERSAL
            ? "numbers 1 to 32 from the upper right third molar"
            : "ISO 3950 codes");
  }

  private void teeth() {
    page.heading("Teeth");
    teeth("Natural", summary.natural(), true);
    teeth("Implants", summary.implants(), true);
    teeth("Missing", summary.missing(), true);
    teeth("Extraction", summary.extractions(), false);
    if (!summary.unlisted().isEmpty()) {
      label(
          "Not listed",
          counted(summary.unlisted()) + ". TAKEN AS MISSING; list them if they are there.");
    }
  }

  private void teeth(String label, List<Tooth> teeth, boolean evenNone) {
    if (!teeth.isEmpty() || evenNone) {
      label(label, teeth.isEmpty() ? "none" : counted(teeth));
    }
  }

  private String counted(List<Tooth> teeth) {
    return teeth.size() + ": " + names(teeth);
  }

  private String names(Iterable<Tooth> teeth) {
    return Words.teeth(teeth, chart.numbering());
  }

  private void sites() {
    page.heading("Sites and deposit of the teeth and implants that are worked on");
    if (summary.sites() == 0) {
      page.paragraph("No tooth or implant is worked on.");
      return;
    }
    label(
        "Sites",
        summary.sites()
            + ", "
            + (summary.unprobed() == 0 ? "all" : summary.sites() - summary.unprobed())
            + " probed"
            + (summary.unprobed() == 0
                ? ""
                : " and " + summary.unprobed() + " that were not probed")
            + "; "
            + ofAll(summary.bleeding(), summary.bleedingOf())
            + (summary.bleedingOf() == summary.sites() ? "" : " of those known")
            + " bled");
    int probed = summary.sites() - summary.unprobed();
    if (probed > 0) {
      label(
          "Depth",
          summary.depths().stream()
                  .map(band -> band(band) + ": " + ofAll(band.sites(), probed))
                  .collect(Collectors.joining("; "))
              + "; deepest "
              + summary.deepestMm()
              + "\u00a0mm");
    }
    extent();
    label(
        "Deposit",
        java.util.Arrays.stream(Deposit.values())
            .sorted(java.util.Comparator.reverseOrder())
            .map(grade -> grade.word() + "\u00a0" + summary.deposits().get(grade))
            .collect(Collectors.joining(", ")));
    summary.furcations().forEach((grade, teeth) -> label("Furcation " + grade, names(teeth)));
    summary.mobilities().forEach((grade, teeth) -> label("Mobility " + grade, names(teeth)));
    boolean first = true;
    for (Map.Entry<quadrille.facts.chart.Feature, List<Tooth>> feature :
        summary.features().entrySet()) {
      label(first ? "Features" : "", feature.getKey().word() + ": " + names(feature.getValue()));
      first = false;
    }
  }

  private void extent() {
    Extent extent = summary.extent();
    if (extent.of() == 0) {
      return;
    }
    label(
        "Extent",
        "pockets of "
            + extent.fromMm()
            + "\u00a0mm or more at "
            + extent.teeth()
            + " of "
            + extent.of()
            + " natural teeth ("
            + Words.percent(extent.share())
            + ")"
            + (extent.unknown() == 0
                ? ""
                : ", and " + extent.unknown() + " more are not probed at every site")
            + ": "
            + (extent.spread() == ChartSummary.Spread.UNKNOWN
                ? "not known until they are"
                : Words.word(extent.spread()))
            + ". Generalised from "
            + Words.percent(ChartSummary.GENERALISED.value())
            + " of teeth: "
            + ChartSummary.GENERALISED.source()
            + ". A reading of the chart, not a diagnosis.");
  }

  private static String band(DepthBand band) {
    return (band.toMm() == ChartSummary.DEEPEST_MM
        ? band.fromMm() + "\u00a0mm or more"
        : band.fromMm() == band.toMm()
            ? band.fromMm() + "\u00a0mm"
            : band.fromMm() + "-" + band.toMm() + "\u00a0mm");
  }

  private static String ofAll(int some, int all) {
    return some + " (" + Words.percent(all == 0 ? 0 : some / (double) all) + ")";
  }

  private void work() {
    page.heading("Work by area, in minutes with the insert on the tooth");
    row("Area", "Gross", "Fine", "Finishing", "Implant care", "All");
    Map<Pass, Integer> sums = new java.util.EnumMap<>(Pass.class);
    for (AreaWork work : summary.areas()) {
      work.seconds().forEach((pass, seconds) -> sums.merge(pass, seconds, Integer::sum));
      row(Words.area(work.area().ref(), chart), work.seconds());
    }
    row("All", sums);
    page.paragraph(
        "Set-up, injections, waiting, changes of insert and close come on top; quadrille plan adds"
            + " them.");
  }

  private void row(String name, Map<Pass, Integer> seconds) {
    row(
        name,
        minutes(seconds, Pass.GROSS),
        minutes(seconds, Pass.FINE),
        minutes(seconds, Pass.FINISHING),
        minutes(seconds, Pass.IMPLANT_CARE),
        Words.decimalMinutes(seconds.values().stream().mapToInt(Integer::intValue).sum()));
  }

  private static String minutes(Map<Pass, Integer> seconds, Pass pass) {
    return seconds.containsKey(pass) ? Words.decimalMinutes(seconds.get(pass)) : "-";
  }

  private void row(
      String area, String gross, String fine, String finishing, String implants, String all) {
    page.line(
        Page.pad(area, AREA)
            + Page.padLeft(gross, 8)
            + Page.padLeft(fine, 8)
            + Page.padLeft(finishing, 11)
            + Page.padLeft(implants, 14)
            + Page.padLeft(all, 8));
  }

  private void numbing() {
    page.heading("What must be numb by injection");
    boolean any = false;
    for (AreaWork work : summary.areas()) {
      if (work.needsInjection() || !work.gel().isEmpty()) {
        any = true;
        page.hang(Words.area(work.area().ref(), chart), AREA, needs(work));
      }
    }
    if (!any) {
      page.paragraph("Nothing.");
    }
  }

  /** Teeth with the same needs together. */
  private String needs(AreaWork work) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    teeth.addAll(work.pulp());
    teeth.addAll(work.facial());
    teeth.addAll(work.lingual());
    Map<String, List<Tooth>> byNeed = new LinkedHashMap<>();
    for (Tooth tooth : teeth) {
      List<String> needs = new ArrayList<>();
      if (work.pulp().contains(tooth)) {
        needs.add("tooth");
      }
      boolean facial = work.facial().contains(tooth);
      boolean lingual = work.lingual().contains(tooth);
      if (facial || lingual) {
        needs.add(facial && lingual ? "gingiva" : facial ? "facial gingiva" : "lingual gingiva");
      }
      byNeed.computeIfAbsent(String.join(" and ", needs), n -> new ArrayList<>()).add(tooth);
    }
    List<String> parts = new ArrayList<>();
    byNeed.forEach((need, some) -> parts.add(need + " of " + names(some)));
    work.gel().forEach(aspect -> parts.add("pocket gel instead, " + aspect.word()));
    return String.join("; ", parts);
  }

  private void notes() {
    if (!summary.notes().isEmpty()) {
      page.heading("To know")
          .items(
              summary.notes().stream()
                  .map(note -> WorkWords.note(note, chart.numbering()))
                  .toList());
    }
  }

  private void sources() {
    page.heading("Where the numbers come from");
    for (UsedFigure figure : summary.sources()) {
      page.item(WorkWords.figure(figure) + ": " + figure.source());
    }
  }

  private void label(String label, String words) {
    page.hang(label, LABEL, words);
  }
}
