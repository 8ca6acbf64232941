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
   * @param numbering the chart's; findings name teeth by ISO 3950
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
      page.paragraph("Teeth are named by their ISO 3950 codes here.");
    }
    findings.forEach(finding -> page.item(finding.line()));
    return page.text();
  }
}
