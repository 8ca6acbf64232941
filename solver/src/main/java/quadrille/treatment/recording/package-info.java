/**
 * Recording as a use case: what somebody says of a visit becomes a draft, held against the log,
 * with what in it is worth a second look; a draft becomes an entry. Knows the log and the audit,
 * but neither who asks nor in which words an answer is shown; only the command line comes in.
 *
 * <p>Begin with {@link quadrille.treatment.recording.Recorder}.
 */
@NullMarked
package quadrille.treatment.recording;

import org.jspecify.annotations.NullMarked;
