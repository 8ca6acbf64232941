package quadrille.diary.booking;

/**
 * A change that would make a booking possible.
 *
 * @param rule what stands in the way without it
 * @param change in words, the smallest that helps
 */
public record Remedy(String rule, String change) {}
