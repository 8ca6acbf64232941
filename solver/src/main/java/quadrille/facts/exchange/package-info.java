/**
 * Charts of other programs: tables with columns of their own and FHIR R4 Observations, read by a
 * mapping that says what each column and each code means, and written back as Observations. What
 * the mapping does not say is listed and left open, never guessed. Knows charts.
 *
 * <p>Begin with {@link quadrille.facts.exchange.ForeignCharts}; {@link
 * quadrille.facts.exchange.Mapping} says what means what.
 */
@NullMarked
package quadrille.facts.exchange;

import org.jspecify.annotations.NullMarked;
