package quadrille.plan.visit;

/**
 * How many of an insert are sterile on a day with visits.
 *
 * @param insertIndex the case's index of the insert
 * @param sterileSets those not opened yet on that day, 0 or more
 * @param visits how many visits, from the first one, are on that day
 */
public record InsertStock(int insertIndex, int sterileSets, int visits) {}
