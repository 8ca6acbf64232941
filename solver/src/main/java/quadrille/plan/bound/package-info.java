/**
 * The proof: what no course of so many visits can cost less than. Begin with {@link
 * quadrille.plan.bound.LowerBound}; it alone is for others.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.bound;
