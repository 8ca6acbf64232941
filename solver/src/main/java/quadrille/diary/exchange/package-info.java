/**
 * Courses and their bookings for other programs, as FHIR R4 resources. Writes only; nothing of it
 * is read back.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.exchange;
