package quadrille.cli.render;

import quadrille.facts.chart.Numbering;
import quadrille.plan.course.Visit;

/**
 * A visit to lay out for.
 *
 * @param caseName whose it is
 * @param numbering how its teeth are named
 * @param told whether that must be said, as it is not, or may not be, how the chart names them
 */
public record KitVisit(String caseName, Visit visit, Numbering numbering, boolean told) {}
