package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import quadrille.plan.audit.Finding;

/** What an audit found, as JSON. */
public final class AuditJson {

  private AuditJson() {}

  /**
   * Renders the findings.
   *
   * @param caseName the plan's case
   */
  public static String of(String caseName, List<Finding> findings) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/audit/1");
    root.put("case", caseName);
    ArrayNode list = root.putArray("findings");
    for (Finding finding : findings) {
      ObjectNode one = list.addObject();
      one.put("rule", finding.rule().name());
      one.put("words", finding.rule().words());
      if (finding.visit() != null) {
        one.put("visit", finding.visit());
      }
      one.put("message", finding.message());
    }
    return Json.write(root);
  }
}
