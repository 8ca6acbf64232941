/**
 * A course under way, staged again: what is left, around what is done and what is booked. Only the
 * command line comes in.
 *
 * <p>Begin with {@link quadrille.treatment.restaging.Restager}.
 */
@NullMarked
package quadrille.treatment.restaging;

import org.jspecify.annotations.NullMarked;
