package quadrille.facts.practice;

/**
 * The desk's hint on codes that count scaling and root planing by quadrant. It speaks to whoever
 * books and never enters a plan. Off unless the practice switches it on.
 *
 * @param shown whether the desk sees it
 * @param fullQuadrantTeeth from so many teeth on, a quadrant is coded as a whole; 2 to 8
 * @param quadrantsDay more quadrants than this on one day are often questioned; 1 to 4
 */
public record CodeHint(boolean shown, Figure fullQuadrantTeeth, Figure quadrantsDay) {}
