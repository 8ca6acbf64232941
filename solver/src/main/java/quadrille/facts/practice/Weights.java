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
 * @param noRoomToRepeat each injection that may fail and for whose repeat the visit's own doses
 *     leave no room
 * @param wish each wish that is rather kept than not, and is not kept
 * @param returnToQuadrant each return, within a visit, to a quadrant that was left
 * @param worstFirst a visit that begins in an area without any burden, where others have some; one
 *     that begins in a less burdened area than its worst in proportion
 * @param areaLeftOpen each visit after which an area is left begun and not finished, where the
 *     practice lets its passes lie apart
 * @param needleWithinArea injections given between two steps of one pass of an area, each time
 */
public record Weights(
    Figure balance,
    Figure splitQuadrant,
    Figure worstLate,
    Figure injection,
    Figure cartridge,
    Figure noRoomToRepeat,
    Figure wish,
    Figure returnToQuadrant,
    Figure worstFirst,
    Figure areaLeftOpen,
    Figure needleWithinArea) {}
