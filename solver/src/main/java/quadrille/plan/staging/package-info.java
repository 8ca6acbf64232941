/**
 * Staging with the constraint solver: into which visit each step goes. {@link
 * quadrille.plan.staging.StagingRules} is the rule book; {@link quadrille.plan.staging.Stager} runs
 * the search.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.staging;
