/**
 * The second reading: takes a finished course, the chart and the practice, works out clock times,
 * doses, numbness and sums again from the plain facts, and lists what is broken. It shares the work
 * list with the search, and no reckoning: it knows neither staging nor anaesthesia.
 *
 * <p>Begin with {@link quadrille.plan.audit.Audit}; {@link quadrille.plan.audit.Rule} lists what it
 * looks for.
 */
@NullMarked
package quadrille.plan.audit;

import org.jspecify.annotations.NullMarked;
