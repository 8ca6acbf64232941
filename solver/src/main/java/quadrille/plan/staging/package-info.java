/**
 * Staging with the constraint solver: into which visit each step goes, and in what order each visit
 * takes its steps. {@link quadrille.plan.staging.StagingRules} is the rule book; {@link
 * quadrille.plan.staging.StagingCase} holds what does not change while a course is sought; {@link
 * quadrille.plan.staging.Stager} runs the search.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.staging;
