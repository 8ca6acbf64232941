package quadrille.facts.practice;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.chart.Alert;

/**
 * What an alert asks, forbids, caps, prices or prompts. It prompts a clinician; it never clears a
 * patient.
 *
 * @param includes alerts whose rules hold too, as where it is not said which of several it is
 * @param stopQuestions what a person answers at each visit before anything is touched
 * @param forbids drugs and vasoconstrictors that may not be given
 * @param forbidsAmides whether no amide anaesthetic may be given, nor pocket gel
 * @param forbidsGel whether pocket gel may not be used
 * @param forbidsRinses agents that no rinse may hold
 * @param epinephrineCapMg cap a visit, in place of the general one where lower
 * @param longestVisitMinutes cap on a visit's booked length
 * @param teethBeforeLook so many teeth at most are worked on, all passes and both aspects, before
 *     somebody looks at the bleeding
 * @param minGapDays fewest days between visits
 * @param maxGapDays most days between visits
 * @param forbidsOneDay whether the whole course may not be done within 24 hours
 * @param visitPriceSeconds what each visit costs beside its time, in seconds of chair time
 * @param injectionWeightFactor factor on the cost weight of each injection
 * @param blockPriceSeconds what each deep block costs more than an infiltration, in seconds of
 *     chair time
 * @param blockBeforeLookSeconds what it costs more where a deep block is given before the look at
 *     the bleeding, in seconds of chair time
 * @param prefersGel whether pocket gel is to be had in place of injections where it serves
 * @param numbFirst whether nothing is touched before it is numb
 * @param byHand whether the work is done by hand, without the ultrasonic unit
 * @param measuresAfterFirst whether pulse and blood pressure are measured again after the first
 *     cartridge with a vasoconstrictor
 * @param countsCovers whether each visit takes an antibiotic cover
 * @param warns by drug, what is said of a visit that gives it
 * @param cautions sentences that every plan of such a patient shows
 * @param source for all of it that has no source of its own
 */
@Withers
public record AlertRule(
    Alert alert,
    List<Alert> includes,
    List<String> stopQuestions,
    List<String> forbids,
    boolean forbidsAmides,
    boolean forbidsGel,
    List<String> forbidsRinses,
    @Nullable Figure epinephrineCapMg,
    @Nullable Figure longestVisitMinutes,
    @Nullable Figure teethBeforeLook,
    @Nullable Figure minGapDays,
    @Nullable Figure maxGapDays,
    boolean forbidsOneDay,
    @Nullable Figure visitPriceSeconds,
    @Nullable Figure injectionWeightFactor,
    @Nullable Figure blockPriceSeconds,
    @Nullable Figure blockBeforeLookSeconds,
    boolean prefersGel,
    boolean numbFirst,
    boolean byHand,
    boolean measuresAfterFirst,
    boolean countsCovers,
    Map<String, String> warns,
    List<String> cautions,
    String source)
    implements AlertRuleBuilder.With {

  public AlertRule {
    includes = List.copyOf(includes);
    stopQuestions = List.copyOf(stopQuestions);
    forbids = List.copyOf(forbids);
    forbidsRinses = List.copyOf(forbidsRinses);
    warns = Collections.unmodifiableMap(new LinkedHashMap<>(warns));
    cautions = List.copyOf(cautions);
  }

  /** A rule that does nothing yet. */
  public static AlertRule of(Alert alert, String source) {
    return new AlertRule(
        alert, List.of(), List.of(), List.of(), false, false, List.of(), null, null, null, null,
        null, false, null, null, null, null, false, false, false, false, false, Map.of(), List.of(),
        source);
  }

  /** Whether neither a visit nor the course differs for it; cautions are words alone. */
  public boolean doesNothing() {
    return equals(of(alert, source).withCautions(cautions));
  }

  /** Whether the drug or the vasoconstrictor is forbidden by name. */
  public boolean forbids(Agent agent) {
    return forbids.contains(agent.drug())
        || forbids.contains(agent.vasoconstrictor())
        || (forbidsAmides && agent.amide());
  }
}
