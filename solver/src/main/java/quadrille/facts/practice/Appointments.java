package quadrille.facts.practice;

import quadrille.document.Withers;

/**
 * How visits are booked.
 *
 * @param unitMinutes the diary's unit
 * @param longestVisitMinutes the longest visit the practice books
 * @param certainty share of visits that shall end inside their booked time, above 0 and below 1
 * @param gapMinDays fewest days between two visits; 0 means all on one day
 * @param gapMaxDays most days between two visits
 * @param reevaluateFromWeeks earliest re-evaluation after the last visit
 * @param reevaluateToWeeks latest re-evaluation after the last visit
 * @param kitHolds how many different inserts one kit holds
 * @param oneNumbSide whether one visit numbs one side only (H1); may be relaxed by the practice
 * @param midlineInfiltration whether front teeth of the other side may be numbed in the same visit,
 *     by infiltrations that the practice gives across the midline (H1)
 * @param passesTogether whether all passes of an area lie in one visit (H11)
 */
@Withers
public record Appointments(
    Figure unitMinutes,
    Figure longestVisitMinutes,
    Figure certainty,
    Figure gapMinDays,
    Figure gapMaxDays,
    Figure reevaluateFromWeeks,
    Figure reevaluateToWeeks,
    Figure kitHolds,
    boolean oneNumbSide,
    boolean midlineInfiltration,
    PassesTogether passesTogether)
    implements AppointmentsBuilder.With {}
