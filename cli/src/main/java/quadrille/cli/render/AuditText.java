package quadrille.cli.render;

import java.util.List;
import quadrille.facts.chart.Numbering;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;

/** What an audit found, as text. */
public final class AuditText {

  private AuditText() {}

  /**
   * Renders the findings.
   *
   * @param plan the plan's name
   * @param course what the plan holds
   * @param numbering the chart's, by which findings name teeth
   */
  public static String of(String plan, Course course, Numbering numbering, List<Finding> findings) {
    Page page = new Page(false);
    if (!Audit.heldToFinish(course)) {
      page.paragraph(
          course.grossFirst()
              ? plan
                  + ": takes the gross pass of the whole mouth first, as was asked for; areas are"
                  + " begun in one visit and finished in another."
              : plan
                  + ": was made by the rules of "
                  + course.rules().release()
                  + " and is read by them, against the default practice of then. It is not held to"
                  + " what has come since: that areas are finished in the visit in which they are"
                  + " begun, what is asked before anything is touched, the frame of a visit, blocks"
                  + " that fail, and cover that is not dependable. Planned again, it keeps the"
                  + " present rules.");
    }
    if (findings.isEmpty()) {
      return page.paragraph(plan + ": nothing found. Every rule that is known here is kept.")
          .paragraph(PlanText.PROPOSAL)
          .text();
    }
    page.paragraph(plan + ": " + Words.count(findings.size(), "finding") + ".");
    if (numbering != Numbering.ISO3950) {
      page.paragraph("Teeth are numbered 1 to 32 from the upper right third molar.");
    }
    findings.forEach(finding -> page.item(finding.line()));
    return page.text();
  }
}
