/**
 * Staging with the constraint solver: into which visit each step goes, and in what order each visit
 * takes its steps. Knows Timefold; only planning and what stands above it come in, the audit never.
 *
 * <p>Begin with {@link quadrille.plan.staging.StagingRules}, the rule book; {@link
 * quadrille.plan.staging.StagingCase} holds what does not change while a course is sought; {@link
 * quadrille.plan.staging.Stager} runs the search.
 */
@NullMarked
package quadrille.plan.staging;

import org.jspecify.annotations.NullMarked;
