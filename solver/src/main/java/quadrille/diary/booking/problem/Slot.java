package quadrille.diary.booking.problem;

/**
 * Where a visit can go.
 *
 * @param start minute of the {@link TimeLine}
 * @param clinician place in the diary's list
 * @param chair place in the diary's list
 */
public record Slot(int start, int clinician, int chair) {}
