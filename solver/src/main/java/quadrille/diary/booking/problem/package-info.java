/**
 * The booking problem, immutable: what a diary leaves open, what courses ask of it, what keeps them
 * from each other and what each booking costs. It knows nothing of how slots are searched for; only
 * booking and what stands above it come in.
 *
 * <p>Begin with {@link quadrille.diary.booking.problem.BookingCase}.
 */
@NullMarked
package quadrille.diary.booking.problem;

import org.jspecify.annotations.NullMarked;
