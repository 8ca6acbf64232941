/**
 * Recording as a use case, for the command line and for any other program: begin here with {@link
 * Recorder}. What somebody says of a visit becomes a draft, held against the log, with what in it
 * is worth a second look; a draft becomes an entry. Nothing here knows who asks, or in which words
 * an answer is shown.
 */
@org.jspecify.annotations.NullMarked
package quadrille.treatment.recording;
