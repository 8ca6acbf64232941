/**
 * Searches for feasible times for courses in the diary: offers for one course by exact search,
 * times for everybody who waits, and new times after a change. The problem that is solved is in
 * {@link quadrille.diary.booking.problem}. Alone beside staging in knowing Timefold.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.booking;
