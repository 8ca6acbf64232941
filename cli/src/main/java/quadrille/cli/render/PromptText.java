package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartSigns;
import quadrille.facts.chart.ChartSigns.Criterion;
import quadrille.facts.chart.ChartSigns.Sign;
import quadrille.facts.chart.ChartSigns.Stage;
import quadrille.facts.chart.Tooth;

/** What a chart says of stage, implants, referral and extractions, as prompts; no diagnosis. */
final class PromptText {

  /** Where the table of stages and grades is from. */
  static final String CLASSIFICATION =
      "2018 classification: Tonetti, Greenwell, Kornman 2018, doi 10.1111/jcpe.12945";

  static final String GUIDELINE = "EFP S3 guideline, Sanz et al. 2020, doi 10.1111/jcpe.13290";

  static final String REFERRAL = "SDCEP online, citing BSP";

  static final String PERI_IMPLANTITIS = "Berglundh et al. 2018, from memory";

  static final String IMPLANT_CARE = "consensus, PMC9379037";

  static final String PRACTICE = "common practice, no source";

  private static final int NAME = 24;

  private final Chart chart;
  private final ChartSigns signs;
  private final Page page;

  private PromptText(Chart chart, Page page) {
    this.chart = chart;
    this.signs = ChartSigns.of(chart);
    this.page = page;
  }

  /** Puts the prompts on a page. */
  static void put(Page page, Chart chart) {
    PromptText text = new PromptText(chart, page);
    text.stage();
    text.lookInto();
  }

  private void stage() {
    if (signs.stage().isEmpty()) {
      return;
    }
    page.heading("Stage and grade: what this chart says, and what it cannot say");
    page.paragraph("Prompts for a licensed clinician, never a diagnosis.");
    page.items(sentences(signs, chart));
    page.blank();
    row("", "I", "II", "III", "IV");
    row("Attachment loss, mm", "1-2", "3-4", "5 or more", "5 or more");
    row("Deepest site, mm", "4", "5", "6 or more", "6 or more");
    row("Furcation", "", "", "2 or 3", "2 or 3");
    row("Mobility", "", "", "", "2 or 3");
    row("Natural teeth", "", "", "", "under 20");
    row("Bone loss, not charted", "under 15 %", "15-33 %", "over 33 %", "over 33 %");
    page.paragraph(CLASSIFICATION + ".");
    page.blank();
    page.items(lacks());
  }

  private void row(String name, String one, String two, String three, String four) {
    page.line(
        Page.pad(name, NAME) + Page.pad(one, 12) + Page.pad(two, 10) + Page.pad(three, 12) + four);
  }

  /** What the chart says of a stage, a sentence a sign. */
  static List<String> sentences(ChartSigns signs, Chart chart) {
    List<String> sentences =
        signs.stage().stream()
            .map(sign -> finding(sign, chart) + ": " + stages(sign) + "." + alone(sign, signs))
            .collect(Collectors.toCollection(ArrayList::new));
    if (!signs.unprobedTeeth().isEmpty()) {
      sentences.add(
          "Not probed at every site, so that loss and depth may be more: "
              + teeth(signs.unprobedTeeth(), chart)
              + ".");
    }
    return sentences;
  }

  private static String finding(Sign sign, Chart chart) {
    String where = sign.teeth().isEmpty() ? "" : " (" + teeth(sign.teeth(), chart) + ")";
    return switch (sign.criterion()) {
      case ATTACHMENT_LOSS ->
          "Attachment loss (depth + recession) between the teeth up to "
              + sign.value()
              + "\u00a0mm"
              + where;
      case DEPTH -> "Deepest site " + sign.value() + "\u00a0mm" + where;
      case FURCATION ->
          sign.value() == 0 ? "No furcation charted" : "Furcation " + sign.value() + where;
      case MOBILITY ->
          sign.value() == 0 ? "No mobility charted" : "Mobility " + sign.value() + where;
      case TEETH ->
          sign.value() + (sign.value() == 1 ? "\u00a0natural tooth" : "\u00a0natural teeth");
    };
  }

  /** Loss at one tooth, or at neighbours, is no case by the classification. */
  private static String alone(Sign sign, ChartSigns signs) {
    if (sign.criterion() != Criterion.ATTACHMENT_LOSS
        || sign.stages().isEmpty()
        || signs.lossApart()) {
      return "";
    }
    return (signs.lossTeeth().size() == 1 ? " One tooth only" : " Neighbouring teeth only")
        + ": the classification asks for two that are not neighbours.";
  }

  private static String stages(Sign sign) {
    return sign.stages().isEmpty()
        ? "points to no stage"
        : "as in stage "
            + sign.stages().stream().sorted().map(Stage::name).collect(Collectors.joining(" or "));
  }

  private static String teeth(Iterable<Tooth> teeth, Chart chart) {
    return Words.teeth(teeth, chart.numbering());
  }

  /** What a stage or a grade needs and no chart holds. */
  static List<String> lacks() {
    return List.of(
        "A stage also needs bone loss, why teeth are missing (lost to periodontitis: up to 4 in"
            + " stage III, 5 or more in IV; from memory), and that attachment was lost to nothing"
            + " else. Recession that is not charted counts as 0.",
        "A grade needs bone loss in % over age in years (A under 0.25, B up to 1.0, C over),"
            + " smoking (B under 10 cigarettes a day, C from 10) and, with diabetes, HbA1c (B under"
            + " 7.0 %, C from 7.0 %): the same classification. Without evidence, begin at grade B: "
            + GUIDELINE
            + ".");
  }

  private void lookInto() {
    List<String> prompts = lookInto(signs, chart);
    if (!prompts.isEmpty()) {
      page.heading("To look into").items(prompts);
    }
  }

  /** Implants, referral and extractions, a prompt each. */
  static List<String> lookInto(ChartSigns signs, Chart chart) {
    List<String> prompts = new ArrayList<>();
    if (!signs.unprobedImplants().isEmpty()) {
      prompts.add(
          "Implants not probed at every site, so that one may be deep: "
              + teeth(signs.unprobedImplants(), chart)
              + ".");
    }
    for (ChartSigns.DeepImplant implant : signs.implants()) {
      prompts.add(
          "Implant "
              + chart.numbering().name(implant.tooth())
              + ": "
              + implant.deepestMm()
              + "\u00a0mm and bleeding. Take a radiograph: without an earlier record, 6 mm or more"
              + " that bleed, with 3 mm or more of bone lost, are peri-implantitis ("
              + PERI_IMPLANTITIS
              + "). Consider referral; care is non-surgical first, gains 1 mm at most, recall"
              + " within 6 months ("
              + IMPLANT_CARE
              + "). The minutes of implant care are for cleaning only.");
    }
    if (signs.deepSites() > 0) {
      prompts.add(
          Words.count(signs.deepSites(), "site")
              + " of 6 mm or more ("
              + teeth(signs.deepTeeth(), chart)
              + "). Refer where pockets of 6 mm or more remain after instruction and debridement,"
              + " and in grade C or stage IV: "
              + REFERRAL
              + ".");
    }
    for (Tooth tooth : signs.extractions()) {
      prompts.add(
          "Tooth "
              + chart.numbering().name(tooth)
              + " is planned for extraction, and the "
              + tooth.quadrant().side().word()
              + " side is worked on: decide whether it goes before, or in a visit that numbs that"
              + " side ("
              + PRACTICE
              + ").");
    }
    return prompts;
  }
}
