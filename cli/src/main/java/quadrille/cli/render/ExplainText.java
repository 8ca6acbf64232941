package quadrille.cli.render;

import quadrille.facts.chart.Chart;
import quadrille.plan.course.Course;
import quadrille.plan.planning.Explanation;

/** Why a course is as it is, as text: what it costs, term by term, and what decided. */
public final class ExplainText {

  private ExplainText() {}

  /**
   * Renders an explanation.
   *
   * @param chart the mouth, for its numbering
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(Chart chart, Course course, Explanation explanation, boolean styled) {
    Page page = new Page(styled);
    CostText.table(page, course);
    for (Explanation.Section section : explanation.sections()) {
      page.heading(section.heading());
      section.lines().forEach(page::item);
    }
    return page.text();
  }
}
