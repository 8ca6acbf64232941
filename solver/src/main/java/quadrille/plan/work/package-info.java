/**
 * Chart and practice to work: the steps of a mouth, each with its insert, its seconds and what must
 * be numb. Search and audit share this list, and nothing else. Knows chart and practice.
 *
 * <p>Begin with {@link quadrille.plan.work.WorkPlanner}.
 */
@NullMarked
package quadrille.plan.work;

import org.jspecify.annotations.NullMarked;
