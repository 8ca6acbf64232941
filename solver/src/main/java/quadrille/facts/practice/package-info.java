/**
 * What the practice owns, allows and prefers: inserts and how they are chosen, minutes, agents and
 * dose limits, injections, appointments, alerts and cost weights. Every number keeps its source.
 * Knows the chart.
 *
 * <p>Begin with {@link quadrille.facts.practice.Practice}; {@link
 * quadrille.facts.practice.PracticeReader} reads one over the defaults.
 */
@NullMarked
package quadrille.facts.practice;

import org.jspecify.annotations.NullMarked;
