package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import quadrille.facts.chart.Chart;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Remedy;

/** That there is no plan, why, and what would help, as JSON. */
public final class NoPlanJson {

  private NoPlanJson() {}

  /** Renders it. */
  public static String of(Chart chart, NoPlan none) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/no-plan/1");
    root.put("case", chart.caseName());
    root.put("cutShort", none.cutShort());
    ArrayNode clashes = root.putArray("clashes");
    ClashWords.of(none.clashes()).forEach(clashes::add);
    ArrayNode remedies = root.putArray("remedies");
    for (Remedy remedy : none.remedies()) {
      remedies
          .addObject()
          .put("change", ClashWords.change(remedy))
          .put("result", ClashWords.result(remedy));
    }
    return Json.write(root);
  }
}
