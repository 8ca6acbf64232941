/**
 * A course under way: an append-only log of what was planned, done, corrected, booked and planned
 * again, one JSON object a line. Entries are never changed or taken out; a correction is an entry
 * of its own.
 */
@org.jspecify.annotations.NullMarked
package quadrille.treatment.record;
