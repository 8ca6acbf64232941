/**
 * A course under way: an append-only log of what was planned, done, corrected, booked and planned
 * again, one JSON object a line. Entries are never changed or taken out; a correction is an entry
 * of its own. Recording, re-staging and calibration come in.
 *
 * <p>Begin with {@link quadrille.treatment.record.CourseLog}; {@link
 * quadrille.treatment.record.CourseFile} keeps it, {@link quadrille.treatment.record.CourseState}
 * says where it stands.
 */
@NullMarked
package quadrille.treatment.record;

import org.jspecify.annotations.NullMarked;
