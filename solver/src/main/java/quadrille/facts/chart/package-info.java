/**
 * A mouth as charted: teeth, sites, aspects, quadrants, areas, and the patient facts that bear on a
 * plan; how a chart is read and written, and how two charts of one mouth differ. Knows documents
 * only.
 *
 * <p>Begin with {@link quadrille.facts.chart.Chart}; {@link quadrille.facts.chart.ChartReader}
 * reads one.
 */
@NullMarked
package quadrille.facts.chart;

import org.jspecify.annotations.NullMarked;
