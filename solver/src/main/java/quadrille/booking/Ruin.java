package quadrille.booking;

/**
 * How a move takes courses out of the diary before it books them again.
 *
 * @param courses how many, 1 or more
 * @param apart the others are taken from so far down the list of the nearest, 0 for the nearest
 * @param backwards whether they are booked again with the nearest first
 */
record Ruin(int courses, int apart, boolean backwards) {}
