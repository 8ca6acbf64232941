package quadrille.staging;

/**
 * How many of an insert are sterile at the start of the day on which all visits are.
 *
 * @param insertIndex the case's index of the insert
 * @param sterileSets 1 or more
 */
public record InsertStock(int insertIndex, int sterileSets) {}
