/**
 * Courses and their bookings for other programs, as FHIR R4 resources. Writes only; nothing of it
 * is read back. Only the command line comes in.
 *
 * <p>Begin with {@link quadrille.diary.exchange.FhirBundle}.
 */
@NullMarked
package quadrille.diary.exchange;

import org.jspecify.annotations.NullMarked;
