/**
 * A course under way. {@code record} is its log, {@code recording} writes into it, {@code
 * restaging} plans again what is left, {@code calibration} learns the practice's own times from
 * what was recorded, {@code day} says who comes and what waits. Knows facts and plan, and the day
 * the diary; only the command line comes in.
 *
 * <p>Begin with {@link quadrille.treatment.record.CourseLog}.
 */
package quadrille.treatment;
