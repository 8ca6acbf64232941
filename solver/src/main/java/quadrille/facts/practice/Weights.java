package quadrille.facts.practice;

/**
 * What the soft goals are worth, in seconds of chair time.
 *
 * @param balance each second that the longest visit lies above the mean
 * @param splitQuadrant each further visit over which a quadrant's fine pass is spread
 * @param worstLate each visit that the worst area's fine pass waits; other areas in proportion to
 *     their burden
 * @param injection each injection
 * @param cartridge each cartridge opened
 */
public record Weights(
    Figure balance, Figure splitQuadrant, Figure worstLate, Figure injection, Figure cartridge) {}
