package quadrille.cli.render;

import java.util.List;
import quadrille.facts.chart.Numbering;
import quadrille.plan.audit.Finding;

/** What an audit found, as text. */
public final class AuditText {

  private AuditText() {}

  /**
   * Renders the findings.
   *
   * @param plan the plan's name
   * @param numbering the chart's, by which findings name teeth
   */
  public static String of(String plan, Numbering numbering, List<Finding> findings) {
    Page page = new Page(false);
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
