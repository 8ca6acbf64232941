package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Reassessment;
import quadrille.facts.chart.Reassessment.Figures;
import quadrille.treatment.record.VisitRecordReader;

/** Two charts of one mouth side by side, as JSON. Teeth are ISO 3950 codes. */
public final class ReassessJson {

  private ReassessJson() {}

  /** Renders the comparison. */
  public static String of(Chart before, Chart after, Reassessment reassessment) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/reassessment/1");
    root.put("case", after.caseName());
    Numbering numbering = after.numbering();
    root.put("numbering", numbering.word());
    date(root, "beforeCharted", before);
    date(root, "afterCharted", after);
    ArrayNode doubts = root.putArray("doubts");
    reassessment.doubts().forEach(doubts::add);
    figures(root.putObject("all"), reassessment.all());
    ArrayNode areas = root.putArray("areas");
    for (Reassessment.OfArea one : reassessment.areas()) {
      ObjectNode node = areas.addObject();
      node.put("area", one.area().name(numbering));
      figures(node, one.figures());
    }
    ArrayNode residual = root.putArray("residual");
    for (Reassessment.Residual site : reassessment.residual()) {
      ObjectNode node = residual.addObject();
      node.put("tooth", numbering.name(site.tooth()));
      node.put("aspect", site.aspect().word());
      node.put("site", VisitRecordReader.sites().get(site.site()));
      if (site.beforeMm() != null) {
        node.put("beforeMm", site.beforeMm());
      }
      node.put("afterMm", site.afterMm());
      node.put("bleeding", site.bleeding());
    }
    root.put("notCompared", reassessment.notCompared());
    ArrayNode gone = root.putArray("teethGone");
    reassessment.teethGone().forEach(tooth -> gone.add(numbering.name(tooth)));
    ArrayNode fresh = root.putArray("teethNew");
    reassessment.teethNew().forEach(tooth -> fresh.add(numbering.name(tooth)));
    root.put("published", ReassessText.PUBLISHED);
    return Json.write(root);
  }

  private static void date(ObjectNode node, String key, Chart chart) {
    if (chart.charted() != null) {
      node.put(key, chart.charted().toString());
    }
  }

  private static void figures(ObjectNode node, Figures figures) {
    node.put("sites", figures.sites());
    node.put("pocketsBefore", figures.pocketsBefore());
    node.put("closed", figures.closed());
    put(node, "closure", figures.closure());
    node.put("pocketsAfter", figures.pocketsAfter());
    node.put("newPockets", figures.newPockets());
    node.put("bleedingBefore", figures.bleedingBefore());
    node.put("bleedingAfter", figures.bleedingAfter());
    put(node, "meanChangeMm", figures.meanChange());
    put(node, "meanPocketChangeMm", figures.meanPocketChange());
  }

  private static void put(ObjectNode node, String key, @Nullable Double value) {
    if (value != null) {
      node.put(key, Json.round(value, 4));
    }
  }
}
