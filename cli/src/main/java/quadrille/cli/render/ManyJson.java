package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.RawValue;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanWriter;

/** What became of one chart of many, as one line of JSON without its line feed. */
public final class ManyJson {

  /** Layout only: within a string a line feed is written as an escape. */
  private static final Pattern LINE_BREAK = Pattern.compile("\n *");

  private ManyJson() {}

  /** A plan. */
  public static String planned(
      int index, String place, Chart chart, Practice practice, Course course) {
    ObjectNode node = head(index, place, course.caseName(), "planned");
    String plan =
        LINE_BREAK
            .matcher(PlanWriter.write(course, chart.numbering(), PlanFileWords.of(practice)))
            .replaceAll("");
    node.putRawValue("plan", new RawValue(plan));
    return Json.line(node);
  }

  /** No plan, and why. */
  public static String noPlan(int index, String place, String caseName, List<String> clashes) {
    ObjectNode node = head(index, place, caseName, "no-plan");
    ArrayNode array = node.putArray("clashes");
    clashes.forEach(array::add);
    return Json.line(node);
  }

  /** A chart with faults. */
  public static String invalid(int index, String place, List<Fault> faults) {
    ObjectNode node = head(index, place, null, "invalid");
    ArrayNode array = node.putArray("faults");
    for (Fault fault : faults) {
      array
          .addObject()
          .put("place", fault.place())
          .put("found", fault.found())
          .put("allowed", fault.allowed());
    }
    return Json.line(node);
  }

  /** A chart that cannot be read at all. */
  public static String unreadable(int index, String place, @Nullable String message) {
    return Json.line(head(index, place, null, "unreadable").put("message", message));
  }

  /** A fault of the program's own. */
  public static String failed(int index, String place, @Nullable String caseName, Throwable fault) {
    String message = fault.getMessage();
    return Json.line(
        head(index, place, caseName, "failed")
            .put(
                "message",
                "A fault of the program, not of the chart: "
                    + fault.getClass().getSimpleName()
                    + (message == null ? "" : " (" + message + ")")));
  }

  private static ObjectNode head(
      int index, String place, @Nullable String caseName, String status) {
    ObjectNode node = Json.object();
    node.put("schema", "quadrille/result/1");
    node.put("index", index);
    node.put("source", place);
    if (caseName != null) {
      node.put("case", caseName);
    }
    return node.put("status", status);
  }
}
