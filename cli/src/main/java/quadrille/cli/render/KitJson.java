package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Kit;

/** What to lay out, as JSON. */
public final class KitJson {

  private KitJson() {}

  /**
   * Renders the kit of visits: each visit by itself, then all together.
   *
   * @param stock whose sterile inserts are counted; null where none are to be
   */
  public static String of(List<KitVisit> visits, @Nullable Practice stock) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/kit/1");
    ArrayNode each = root.putArray("visits");
    for (KitVisit one : visits) {
      ObjectNode node = each.addObject();
      node.put("case", one.caseName());
      node.put("visit", one.visit().number());
      Json.stopQuestions(node, one.visit().stopQuestions());
      kit(node, Kit.of(List.of(one.visit())), null);
    }
    kit(root.putObject("together"), Kit.of(visits.stream().map(KitVisit::visit).toList()), stock);
    return Json.write(root);
  }

  private static void kit(ObjectNode node, Kit kit, @Nullable Practice stock) {
    node.put("sterileSets", kit.sterileSets());
    ArrayNode inserts = node.putArray("inserts");
    kit.inserts()
        .forEach(
            (name, number) -> {
              ObjectNode insert = inserts.addObject().put("insert", name).put("number", number);
              if (stock != null) {
                Insert owned = stock.inserts().get(name);
                int ready = owned == null ? 0 : owned.sterileSets();
                insert.put("ready", ready).put("short", Math.max(0, number - ready));
              }
            });
    node.put("sleeves", kit.sleeves());
    ArrayNode cartridges = node.putArray("cartridges");
    kit.cartridges()
        .forEach(
            (agent, number) ->
                cartridges
                    .addObject()
                    .put("agent", agent)
                    .put("number", number)
                    .put("ml", Json.round(kit.ml().getOrDefault(agent, 0.0), 4)));
    node.put("gelCartridges", kit.gelCartridges());
  }
}
