package quadrille.facts.practice;

import java.util.List;

/**
 * Needle-free gel put into the pocket, in place of an injection where no site of the aspect is too
 * deep.
 *
 * @param owned whether the practice has it
 * @param drugs what it holds; alerts forbid by drug
 * @param deepestMm it serves only where every site of the aspect is at most this deep
 * @param applySeconds to put it into one aspect of one area
 * @param onsetSeconds from the end of putting it in
 * @param lastsMinutes from the end of putting it in
 * @param cartridgesAspect used for one aspect of one area
 * @param cartridgesQuadrant at most, a quadrant and visit
 * @param cartridgesVisit at most, a visit
 * @param fromAgeYears not for a younger patient, nor for one of unknown age
 */
public record Gel(
    boolean owned,
    String name,
    List<String> drugs,
    Figure deepestMm,
    Figure applySeconds,
    Figure onsetSeconds,
    Figure lastsMinutes,
    Figure cartridgesAspect,
    Figure cartridgesQuadrant,
    Figure cartridgesVisit,
    Figure fromAgeYears) {}
