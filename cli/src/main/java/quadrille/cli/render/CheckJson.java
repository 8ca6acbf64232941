package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartSigns;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.plan.planning.ChartSummary;
import quadrille.plan.planning.ChartSummary.AreaWork;
import quadrille.plan.planning.ChartSummary.DepthBand;
import quadrille.plan.planning.UsedFigure;

/** What a chart says, as JSON; teeth are ISO 3950 codes whatever the chart's numbering. */
public final class CheckJson {

  private CheckJson() {}

  /** Renders a chart's summary; minutes have two decimals. */
  public static String of(Chart chart, ChartSummary summary) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/check/1");
    root.put("case", chart.caseName());
    if (chart.charted() != null) {
      root.put("charted", chart.charted().toString());
    }
    Numbering numbering = chart.numbering();
    root.put("numbering", numbering.word());
    ObjectNode teeth = root.putObject("teeth");
    teeth(teeth, "natural", summary.natural(), numbering);
    teeth(teeth, "implants", summary.implants(), numbering);
    teeth(teeth, "plannedExtraction", summary.extractions(), numbering);
    teeth(teeth, "missing", summary.missing(), numbering);
    teeth(teeth, "notListed", summary.unlisted(), numbering);
    sites(root.putObject("sites"), summary);
    ObjectNode extent = root.putObject("extent");
    extent.put("fromMm", summary.extent().fromMm());
    extent.put("teeth", summary.extent().teeth());
    extent.put("notProbed", summary.extent().unknown());
    extent.put("of", summary.extent().of());
    extent.put("share", Json.round(summary.extent().share(), 3));
    extent.put("extent", Words.word(summary.extent().spread()));
    extent.put("source", ChartSummary.GENERALISED.source());
    ObjectNode deposits = root.putObject("deposit");
    for (Deposit grade : Deposit.values()) {
      deposits.put(grade.word(), summary.deposits().get(grade));
    }
    ObjectNode furcations = root.putObject("furcation");
    summary
        .furcations()
        .forEach((grade, some) -> teeth(furcations, grade.toString(), some, numbering));
    ObjectNode mobilities = root.putObject("mobility");
    summary
        .mobilities()
        .forEach((grade, some) -> teeth(mobilities, grade.toString(), some, numbering));
    ObjectNode features = root.putObject("features");
    summary.features().forEach((feature, some) -> teeth(features, feature.word(), some, numbering));
    prompts(root.putObject("prompts"), chart);
    ArrayNode areas = root.putArray("areas");
    summary.areas().forEach(work -> area(areas.addObject(), work, numbering));
    ArrayNode notes = root.putArray("notes");
    summary.notes().forEach(note -> notes.add(WorkWords.note(note, chart.numbering())));
    ArrayNode sources = root.putArray("sources");
    for (UsedFigure figure : summary.sources()) {
      sources.addObject().put("what", WorkWords.figure(figure)).put("source", figure.source());
    }
    return Json.write(root);
  }

  private static void sites(ObjectNode sites, ChartSummary summary) {
    sites.put("charted", summary.sites());
    sites.put("notProbed", summary.unprobed());
    sites.put("bleeding", summary.bleeding());
    sites.put("bleedingOf", summary.bleedingOf());
    sites.put("deepestMm", summary.deepestMm());
    ArrayNode bands = sites.putArray("depths");
    for (DepthBand band : summary.depths()) {
      bands
          .addObject()
          .put("fromMm", band.fromMm())
          .put("toMm", band.toMm())
          .put("sites", band.sites());
    }
  }

  /** Prompts for a clinician, never a diagnosis. */
  private static void prompts(ObjectNode prompts, Chart chart) {
    ChartSigns signs = ChartSigns.of(chart);
    Numbering numbering = chart.numbering();
    prompts.put("words", "Prompts for a licensed clinician, never a diagnosis.");
    ArrayNode stage = prompts.putArray("stageSigns");
    List<String> words = PromptText.sentences(signs, chart);
    for (int i = 0; i < signs.stage().size(); i++) {
      ChartSigns.Sign sign = signs.stage().get(i);
      ObjectNode node = stage.addObject();
      node.put("sign", sign.criterion().word());
      node.put("value", sign.value());
      teeth(node, "teeth", sign.teeth(), numbering);
      ArrayNode stages = node.putArray("asInStages");
      sign.stages().stream().sorted().forEach(one -> stages.add(one.name()));
      node.put("words", plain(words.get(i)));
    }
    teeth(prompts, "notProbedAtEverySite", signs.unprobedTeeth(), numbering);
    teeth(prompts, "implantsNotProbedAtEverySite", signs.unprobedImplants(), numbering);
    ArrayNode lacks = prompts.putArray("lacks");
    PromptText.lacks().forEach(lacks::add);
    ArrayNode implants = prompts.putArray("deepBleedingImplants");
    signs
        .implants()
        .forEach(
            implant ->
                implants
                    .addObject()
                    .put("tooth", numbering.name(implant.tooth()))
                    .put("deepestMm", implant.deepestMm()));
    ObjectNode deep = prompts.putObject("sitesFrom6Mm");
    deep.put("sites", signs.deepSites());
    teeth(deep, "teeth", signs.deepTeeth(), numbering);
    teeth(prompts, "extractionsBesideWork", signs.extractions(), numbering);
    ArrayNode look = prompts.putArray("toLookInto");
    PromptText.lookInto(signs, chart).forEach(line -> look.add(plain(line)));
    prompts.put("source", PromptText.CLASSIFICATION);
  }

  /** Without the no-break spaces that keep a number with its unit on a page. */
  private static String plain(String words) {
    return words.replace('\u00a0', ' ');
  }

  private static void area(ObjectNode node, AreaWork work, Numbering numbering) {
    node.put("area", work.area().ref().name(numbering));
    teeth(node, "teeth", work.area().teeth(), numbering);
    ObjectNode minutes = node.putObject("minutes");
    work.seconds()
        .forEach((pass, seconds) -> minutes.put(pass.word(), Json.round(seconds / 60.0, 2)));
    ObjectNode numb = node.putObject("numb");
    teeth(numb, "pulp", work.pulp(), numbering);
    teeth(numb, "facialGingiva", work.facial(), numbering);
    teeth(numb, "lingualGingiva", work.lingual(), numbering);
    ArrayNode gel = numb.putArray("gelInstead");
    work.gel().forEach(aspect -> gel.add(aspect.word()));
  }

  private static void teeth(
      ObjectNode parent, String key, Iterable<Tooth> teeth, Numbering numbering) {
    ArrayNode codes = parent.putArray(key);
    teeth.forEach(tooth -> codes.add(numbering.name(tooth)));
  }
}
