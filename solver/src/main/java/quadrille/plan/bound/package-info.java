/**
 * The proof: what no course of so many visits can cost less than. Knows the staging problem and no
 * search; staging and planning come in.
 *
 * <p>Begin with {@link quadrille.plan.bound.LowerBound}; it alone is for others.
 */
@NullMarked
package quadrille.plan.bound;

import org.jspecify.annotations.NullMarked;
