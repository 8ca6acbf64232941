/**
 * From a chart and a practice to an audited course, or to the reasons why there is none and what
 * would help. The door by which a program that plans comes in.
 *
 * <p>Begin with {@link quadrille.plan.planning.ChartPlan} for a chart's file in one call; {@link
 * quadrille.plan.planning.CoursePlanner} plans a chart that has been read, and answers with a
 * {@link quadrille.plan.planning.PlanOutcome}.
 */
@NullMarked
package quadrille.plan.planning;

import org.jspecify.annotations.NullMarked;
