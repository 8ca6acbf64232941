/**
 * From a chart and a practice to an audited course, or to the reasons why there is none and what
 * would help. The door by which a program that plans comes in.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.planning;
