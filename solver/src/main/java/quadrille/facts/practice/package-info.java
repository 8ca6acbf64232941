/**
 * What the practice owns, allows and prefers: inserts and how they are chosen, minutes, agents and
 * dose limits, injections, appointments, alerts and cost weights. Every number keeps its source.
 * Knows the chart only.
 */
@org.jspecify.annotations.NullMarked
package quadrille.facts.practice;
