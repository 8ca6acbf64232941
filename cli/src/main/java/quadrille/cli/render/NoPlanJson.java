package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Remedy;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.planning.PlanOutcome.NoPlan;

/** That there is no plan, why, and what would help, as JSON. */
public final class NoPlanJson {

  private NoPlanJson() {}

  /** Renders it. */
  public static String of(Chart chart, Practice practice, NoPlan none) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/no-plan/1");
    root.put("case", chart.caseName());
    root.put("cutShort", none.cutShort());
    ArrayNode clashes = root.putArray("clashes");
    ClashWords.of(none.clashes(), practice).forEach(clashes::add);
    ArrayNode remedies = root.putArray("remedies");
    for (Remedy remedy : none.remedies()) {
      ObjectNode node = remedies.addObject().put("change", ClashWords.change(remedy, practice));
      change(node, remedy.change());
      node.put("result", ClashWords.result(remedy))
          .put("visits", remedy.visits())
          .put("longestMinutes", remedy.longestMinutes());
    }
    return Json.write(root);
  }

  private static void change(ObjectNode node, Change change) {
    if (change instanceof Change.Visits visits) {
      node.put("kind", "visits").put("number", visits.number());
    } else if (change instanceof Change.LongerVisits longer) {
      node.put("kind", "longer-visits")
          .put("minutes", longer.minutes())
          .put("insteadOfMinutes", longer.insteadOfMinutes());
    } else if (change instanceof Change.LargerTray tray) {
      node.put("kind", "larger-tray")
          .put("inserts", tray.inserts())
          .put("insteadOf", tray.insteadOf().asInt())
          .put("source", tray.insteadOf().source());
    } else if (change instanceof Change.AllowAgent allow) {
      node.put("kind", "allow-agent").put("agent", allow.agent());
    } else if (change instanceof Change.LessCertainty less) {
      node.put("kind", "less-certainty")
          .put("certainty", less.certainty())
          .put("insteadOf", less.insteadOf().value())
          .put("source", less.insteadOf().source());
    } else if (change instanceof Change.WithoutWish without) {
      node.put("kind", "without-wish");
      if (without.wish() != null) {
        node.put("wish", without.wish().words(without.numbering()));
      }
    } else if (change instanceof Change.FrontAcrossMidline) {
      node.put("kind", "front-across-midline");
    } else {
      node.put("kind", "passes-apart");
    }
  }
}
