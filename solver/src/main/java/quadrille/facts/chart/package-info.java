/**
 * A mouth as charted: teeth, sites, aspects, quadrants, areas, and the patient facts that bear on a
 * plan.
 */
@org.jspecify.annotations.NullMarked
package quadrille.facts.chart;
