/**
 * A course under way, staged again: what is left, around what is done and what is booked; and a
 * visit that has begun, put into another order. Only the command line comes in.
 *
 * <p>Begin with {@link quadrille.treatment.restaging.Restager}.
 */
@NullMarked
package quadrille.treatment.restaging;

import org.jspecify.annotations.NullMarked;
