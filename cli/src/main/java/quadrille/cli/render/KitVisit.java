package quadrille.cli.render;

import quadrille.plan.course.Visit;

/**
 * A visit to lay out for.
 *
 * @param caseName whose it is
 */
public record KitVisit(String caseName, Visit visit) {}
