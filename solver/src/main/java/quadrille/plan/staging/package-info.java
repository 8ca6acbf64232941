/**
 * Staging with the constraint solver: into which visit each step goes. Knows Timefold; only
 * planning and what stands above it come in, the audit never.
 *
 * <p>Begin with {@link quadrille.plan.staging.StagingRules}, the rule book; {@link
 * quadrille.plan.staging.Stager} runs the search.
 */
@NullMarked
package quadrille.plan.staging;

import org.jspecify.annotations.NullMarked;
