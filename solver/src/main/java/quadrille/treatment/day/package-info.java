/**
 * A practice's day: who comes, and which courses wait for somebody to do something about them.
 * Reads diary and logs side by side, and writes into neither; only the command line comes in.
 *
 * <p>Begin with {@link quadrille.treatment.day.PracticeDay}.
 */
@NullMarked
package quadrille.treatment.day;

import org.jspecify.annotations.NullMarked;
