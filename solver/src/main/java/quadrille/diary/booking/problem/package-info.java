/**
 * The booking problem, immutable: what a diary leaves open, what courses ask of it, what keeps them
 * from each other and what each booking costs. Begin at {@link
 * quadrille.diary.booking.problem.BookingCase}. It knows nothing of how slots are searched for.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.booking.problem;
