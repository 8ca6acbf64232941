package quadrille.facts.practice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.chart.Alert;

/**
 * What an alert forbids, caps or prompts. It prompts a clinician; it never clears a patient.
 *
 * @param forbids drugs and vasoconstrictors that may not be given
 * @param forbidsGel whether pocket gel may not be used
 * @param epinephrineCapMg cap a visit, in place of the general one where lower
 * @param longestVisitMinutes cap on a visit's booked length
 * @param minGapDays fewest days between visits
 * @param forbidsOneDay whether the whole course may not be done within 24 hours
 * @param injectionWeightFactor factor on the cost weight of each injection
 * @param cautions sentences that every plan of such a patient shows
 */
@Withers
public record AlertRule(
    Alert alert,
    List<String> forbids,
    boolean forbidsGel,
    @Nullable Figure epinephrineCapMg,
    @Nullable Figure longestVisitMinutes,
    @Nullable Figure minGapDays,
    boolean forbidsOneDay,
    @Nullable Figure injectionWeightFactor,
    List<String> cautions,
    String source)
    implements AlertRuleBuilder.With {}
