/**
 * Searches for feasible times for courses in the diary: offers for one course by exact search,
 * times for everybody who waits, and new times after a change. The problem that is solved is in
 * {@link quadrille.diary.booking.problem}. Beside staging the only room that knows Timefold; only
 * the desk and the command line come in.
 *
 * <p>Begin with {@link quadrille.diary.booking.Offers} for one course, {@link
 * quadrille.diary.booking.BatchBooker} for all, {@link quadrille.diary.booking.Rebooker} after a
 * change.
 */
@NullMarked
package quadrille.diary.booking;

import org.jspecify.annotations.NullMarked;
