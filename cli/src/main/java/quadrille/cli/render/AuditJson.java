package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.audit.Rule;
import quadrille.plan.course.Course;

/** What an audit found, as JSON. */
public final class AuditJson {

  private AuditJson() {}

  /**
   * Renders the findings.
   *
   * @param course what the plan holds
   */
  public static String of(Course course, List<Finding> findings) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/audit/1");
    root.put("case", course.caseName());
    root.put("rules", course.rules().release());
    ArrayNode not = root.putArray("notHeldTo");
    if (!Audit.heldToFinish(course)) {
      not.add(Rule.H11.name());
    }
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
