package quadrille.diary.booking;

/**
 * That a visit uses a counted set.
 *
 * @param set place in the stock
 */
record SetUse(BookedVisit visit, int set) {}
