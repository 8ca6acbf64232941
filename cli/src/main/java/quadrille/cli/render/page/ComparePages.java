package quadrille.cli.render.page;

import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.scenario.Comparison;

/** A comparison as one self-contained HTML document; see {@link PlanPages} for what that means. */
public final class ComparePages {

  private ComparePages() {}

  /** The document. */
  public static String of(Chart chart, Practice practice, Comparison comparison) {
    return Templates.render("page/comparison.jte", ComparePage.of(chart, practice, comparison));
  }
}
