/**
 * Learns a practice's own speed from recorded courses: each of its times as a multiple of what the
 * practice file has, with an interval that says how sure that is, and whether past bookings held.
 * How and why: {@code docs/calibration.md}. Only the command line comes in.
 *
 * <p>Begin with {@link quadrille.treatment.calibration.Calibrator}.
 */
@NullMarked
package quadrille.treatment.calibration;

import org.jspecify.annotations.NullMarked;
